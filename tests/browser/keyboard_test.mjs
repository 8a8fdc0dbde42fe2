// The main job by keyboard alone and without looking: every control has a twin in the document, found by its label as a
// screen reader finds it. In Chromium and Firefox; axe-core looks for what would keep people out.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { engines } from "./engines.mjs";
import { answerOf, pause, root, serve, shots, until } from "./site.mjs";

let port = 8500;
for (const name of ["Chromium", "Firefox"]) describe("by keyboard in " + name, () => {
  let site, browser;
  before(async () => {
    site = await serve(port += 30);
    browser = await engines[name]();
  }, { timeout: 90000 });
  after(async () => {
    await browser?.close();
    await site?.stop();
  });

  const ask = (what, ...values) => browser.evaluate((w, ...v) => window.counterpull[w](...v), what, ...values);
  const setup = async () => JSON.parse(await ask("document"));
  const settled = async () => { // drawn, mirrored and spoken
    for (let last = -1, now = 0; last !== now;) {
      last = await ask("frames");
      await pause(300);
      now = await ask("frames");
    }
  };
  const focused = () => browser.evaluate(() => {
    const at = document.activeElement;
    return { label: at.getAttribute("aria-label") || at.textContent, kind: at.tagName, id: at.id };
  });
  // Presses Tab until the control with that label has the focus; `nth` of them, counted from one.
  const tabTo = async (label, kind, nth = 1) => {
    for (let presses = 0; presses < 120; ++presses) {
      await browser.press("Tab");
      const at = await focused();
      if (at.label === label && at.kind === kind && --nth === 0) return;
    }
    assert.fail("Tab never comes to " + label);
  };
  const fromStart = async () => {
    await browser.visit(site.address);
    await until(() => browser.evaluate(() => document.getElementById("mirror").childElementCount > 10), "the mirror");
    await settled();
  };

  test("strings, tuning and the tail are set, a section opened, and the answer is the command line's", { timeout: 120000 }, async () => {
    await fromStart();
    await tabTo("Tail stands at", "INPUT");
    await browser.press("Control+a");
    await browser.type("-1,5");
    await tabTo("Tuning", "SELECT", 2); // leaving the field enters it; the second is of what is wanted
    await browser.type("drop D");
    await browser.press("Enter");
    await settled();
    const after = await setup();
    assert.equal(after.now.tail_mm, -1.5);
    assert.deepEqual(after.next.tuning, ["D2", "A2", "D3", "G3", "B3", "E4"]);
    await browser.picture(`${shots}keyboard-${name.toLowerCase()}.png`);
    await tabTo("Set down on the body, arm down only", "INPUT");
    await browser.press("Space");
    await settled();
    assert.equal((await setup()).next.rest, "on the body");
    await browser.press("Space");
    await tabTo("Make it sharper", "BUTTON");
    await browser.press("Enter");
    await settled();
    await tabTo("Spring rate", "INPUT");
    await browser.press("Control+a");
    await browser.type("2.6");
    await browser.press("Tab");
    await settled();
    const document = await ask("document");
    assert.equal(JSON.parse(document).guitar.spring.rate_n_mm, 2.6);
    assert.equal(await ask("answer"), answerOf(document));
    assert.equal(await browser.evaluate(() => document.getElementById("spoken").textContent), answerOf(document));
  });

  test("a refused value is told at its field", { timeout: 60000 }, async () => {
    await fromStart();
    await tabTo("Tail stands at", "INPUT");
    await browser.press("Control+a");
    await browser.type("40");
    await browser.press("Tab");
    await settled();
    const field = await browser.evaluate(() => {
      const at = document.querySelector('#mirror input[aria-label="Tail stands at"]');
      return { value: at.value, invalid: at.getAttribute("aria-invalid"), why: document.getElementById(at.getAttribute("aria-describedby"))?.textContent };
    });
    assert.equal(field.invalid, "true", field.value);
    assert.match(field.why, /^40 is outside/);
  });

  test("the focus is framed in view, and Tab comes to the end and out", { timeout: 60000 }, async () => {
    await fromStart();
    await tabTo("Print this sheet", "BUTTON");
    await settled();
    const { rect } = (await ask("controls")).find(({ label }) => label === "Print this sheet");
    assert.ok(rect[1] >= 0 && rect[3] <= 810, `it is at ${rect}`);
    await browser.picture(`${shots}keyboard-focus-${name.toLowerCase()}.png`);
    const inside = () => browser.evaluate(() => document.getElementById("mirror").contains(document.activeElement));
    for (let presses = 0; presses < 150 && await inside(); ++presses) await browser.press("Tab");
    assert.equal(await inside(), false);
  });

  if (name === "Chromium") test("axe-core finds nothing, on the page and in the dialog", { timeout: 60000 }, async () => {
    const axe = readFileSync(root + "tests/node_modules/axe-core/axe.min.js", "utf8");
    await browser.evaluate(new Function(axe + "; return true;"));
    const violations = async () => {
      const list = await browser.evaluate(() => window.axe.run().then((found) => found.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html).slice(0, 2).join(" "))));
      return list;
    };
    assert.deepEqual(await violations(), []);
    await ask("operate", "share");
    await until(() => browser.evaluate(() => document.querySelector("#share .code path") !== null), "the code");
    assert.deepEqual(await violations(), []);
  });
});
