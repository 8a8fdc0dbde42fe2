// The main job by keyboard alone and without looking: every control has a twin in the document, found by its label as a
// screen reader finds it. In Chromium and Firefox; axe-core looks for what would keep people out.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { engines, pageIn } from "./engines.mjs";
import { answerOf, root, serve, shots, until, withSecondTry } from "./site.mjs";

let port = 8500;
for (const name of ["Chromium", "Firefox"]) describe("by keyboard in " + name, () => {
  let site, browser, ask, setup, still, codeDrawn, page;
  before(async () => {
    site = await serve(port += 30);
    browser = await engines[name]();
    ({ ask, setup, still, codeDrawn } = page = pageIn(browser));
  }, { timeout: 300000 });
  after(async () => {
    await browser?.close();
    await site?.stop();
  });

  const focused = () => browser.evaluate(() => {
    const at = document.activeElement;
    return { label: at.getAttribute("aria-label") || at.textContent, kind: at.tagName, inside: document.getElementById("mirror").contains(at) };
  });
  // Until the focus has moved: what is read before that would be one behind.
  const tab = async () => {
    await browser.evaluate(() => { window.focusBefore = document.activeElement; });
    await withSecondTry(() => browser.press("Tab"), () => browser.evaluate(() => document.activeElement !== window.focusBefore), "the focus to move on");
  };
  // Presses Tab until the control with that label has the focus; `nth` of them, counted from one.
  const tabTo = async (label, kind, nth = 1) => {
    for (let presses = 0; presses < 120; ++presses) {
      await tab();
      const at = await focused();
      if (at.label === label && at.kind === kind && --nth === 0) return;
    }
    assert.fail("Tab never comes to " + label);
  };
  // Types into what has the focus, until that stands there.
  const write = (text, before = () => {}) => withSecondTry(async () => {
    await before();
    await browser.type(text);
  }, () => browser.evaluate((wanted) => document.activeElement.value === wanted, text), text + " to stand in the field");
  const replace = (text) => write(text, () => browser.press("Control+a"));
  const press = (key, came) => withSecondTry(() => browser.press(key), came, "what comes of " + key);
  const fromStart = async () => {
    await page.visit(site.address);
    await until(() => browser.evaluate(() => document.getElementById("mirror").childElementCount > 10), "the mirror");
  };

  test("strings, tuning and the tail are set, a section opened, and the answer is the command line's", { timeout: 300000 }, async () => {
    await fromStart();
    await tabTo("Tail stands at", "INPUT");
    await replace("-1,5");
    await tabTo("Tuning", "SELECT", 2); // leaving the field enters it; the second is of what is wanted
    await write("drop D");
    await browser.press("Enter");
    await until(async () => (await setup()).next.tuning.join(" ") === "D2 A2 D3 G3 B3 E4", "the tuning");
    assert.equal((await setup()).now.tail_mm, -1.5);
    await still();
    await browser.picture(`${shots}keyboard-${name.toLowerCase()}.png`);
    await tabTo("Set down on the body, arm down only", "INPUT");
    await press("Space", async () => (await setup()).next.rest === "on the body");
    await press("Space", async () => (await setup()).next.rest !== "on the body");
    await tabTo("Measure for a surer answer", "BUTTON");
    await press("Enter", async () => (await ask("controls")).some(({ label }) => label === "Spring rate"));
    await still();
    await tabTo("Spring rate", "INPUT");
    await replace("2.6");
    await tab();
    await until(async () => (await setup()).guitar.spring.rate_n_mm === 2.6, "the rate");
    await still();
    const document = await ask("document");
    assert.equal(await ask("answer"), answerOf(document));
    assert.equal(await browser.evaluate(() => document.getElementById("spoken").textContent), answerOf(document));
  });

  test("a refused value is told at its field", { timeout: 300000 }, async () => {
    await fromStart();
    await tabTo("Tail stands at", "INPUT");
    await replace("40");
    await tab();
    await still();
    const field = await browser.evaluate(() => {
      const at = document.querySelector('#mirror input[aria-label="Tail stands at"]');
      return { value: at.value, invalid: at.getAttribute("aria-invalid"), why: document.getElementById(at.getAttribute("aria-describedby"))?.textContent };
    });
    assert.equal(field.invalid, "true", field.value);
    assert.match(field.why, /^40 mm is outside/);
  });

  test("the focus is framed in view, and Tab comes to the end and out", { timeout: 300000 }, async () => {
    await fromStart();
    await tabTo("Print this sheet", "BUTTON");
    await still();
    const { rect } = (await ask("controls")).find(({ label }) => label === "Print this sheet");
    assert.ok(rect[1] >= 0 && rect[3] <= 810, `it is at ${rect}`);
    await browser.picture(`${shots}keyboard-focus-${name.toLowerCase()}.png`);
    for (let presses = 0; presses < 150 && (await focused()).inside; ++presses) await tab();
    assert.equal((await focused()).inside, false);
  });

  if (name === "Chromium") test("axe-core finds nothing, on the page and in the dialog", { timeout: 300000 }, async () => {
    const axe = readFileSync(root + "tests/node_modules/axe-core/axe.min.js", "utf8");
    await browser.evaluate(new Function(axe + "; return true;"));
    const violations = async () => {
      const list = await browser.evaluate(() => window.axe.run().then((found) => found.violations.map((v) => v.id + ": " + v.nodes.map((n) => n.html).slice(0, 2).join(" "))));
      return list;
    };
    assert.deepEqual(await violations(), []);
    await ask("operate", "share");
    await codeDrawn();
    assert.deepEqual(await violations(), []);
  });
});
