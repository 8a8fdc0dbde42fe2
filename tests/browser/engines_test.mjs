// The same scenarios in Chromium, Firefox and WebKitGTK: loaded, edited, linked, kept, without a network, and with the
// graphics context lost. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { engines, pageIn } from "./engines.mjs";
import { answerOf, commandLine, keptForOffline, loseGraphics, pause, returnGraphics, serve, shots, until } from "./site.mjs";

let port = 8200;
const only = process.env.COUNTERPULL_ENGINE; // one of them, while working on it
for (const [name, open] of Object.entries(engines)) if (!only || only === name) describe("in " + name, () => {
  let site, browser, ask, setup, still, press, codeDrawn, page;
  before(async () => {
    site = await serve(port += 30);
    browser = await open();
    ({ ask, setup, still, press, codeDrawn } = page = pageIn(browser));
  }, { timeout: 300000 });
  after(async () => {
    await browser?.close();
    await site?.stop();
  }, { timeout: 60000 });

  const visit = (fragment = "") => page.visit(site.address + fragment);
  const notice = (pattern) => until(async () => pattern.test(await browser.evaluate(() => document.getElementById("notice").textContent)), "a notice of " + pattern);
  const share = async () => {
    await press("Share this set-up", () => browser.evaluate(() => document.querySelector("#share[open]") !== null));
    await codeDrawn();
  };
  const picture = (what) => browser.picture(`${shots}${name.toLowerCase()}-${what}.png`);
  const scenario = (what, run) => test(what, { timeout: 300000 }, run);

  scenario("the example is answered as the command line answers it", async () => {
    await visit();
    assert.equal(await ask("answer"), answerOf(await ask("document")));
    await picture("example");
  });

  scenario("a tail reading changed by a press and by keys changes the answer, and the address follows", async () => {
    const tailIs = (mm) => async () => (await setup()).now.tail_mm === mm;
    // Folded, so that the tail is in sight.
    await press("Your guitar", async () => (await ask("controls")).some(({ id, value }) => id === "section.guitar" && value === "closed"));
    await press("Tail stands at +", tailIs(-0.5));
    await press("Tail stands at", tailIs(-1.5), async () => {
      await browser.press("Control+a");
      await browser.type("-1,5");
      await browser.press("Enter");
    });
    const document = await ask("document");
    assert.equal(await ask("answer"), answerOf(document));
    await until(() => browser.evaluate(() => location.hash === "#" + window.counterpull.link()), "the address");
    await picture("edited");
  });

  scenario("its link opens the same set-up, and a link that was cut says so", async () => {
    const document = await ask("document"), fragment = await browser.evaluate(() => location.hash);
    assert.deepEqual(JSON.parse(commandLine("open", fragment)), JSON.parse(document));
    await visit(fragment);
    assert.deepEqual(await setup(), JSON.parse(document));
    await visit(fragment.slice(0, 50));
    await notice(/this link is incomplete/);
    await picture("cut-link");
  });

  scenario("the page closed and opened again has the set-up of last time", async () => {
    await visit();
    assert.equal((await setup()).now.tail_mm, -1.5);
    assert.ok(!(await ask("controls")).some(({ id, enabled }) => id === "undo" && enabled), "nothing was edited yet");
    await browser.evaluate(() => {
      for (const { id } of window.counterpull.guitars()) localStorage.setItem("counterpull.guitar." + id, "{ torn");
    });
    await visit();
    assert.match(await ask("answer"), /^Loosen each claw screw 1 turn/);
    await notice(/cannot be read/);
    assert.deepEqual(await browser.evaluate(() => Object.keys(localStorage).filter((name) => name.startsWith("counterpull.unreadable.guitar."))
      .map((name) => localStorage.getItem(name))), ["{ torn"]);
  });

  scenario("sharing shows the link to copy and a square code", async () => {
    await visit();
    await share();
    assert.equal(await browser.evaluate(() => document.querySelector("#share .link").value.split("#")[1] === window.counterpull.link()), true);
    await picture("share");
    await browser.press("Escape");
  });

  scenario("when nothing changes nothing is drawn", async () => {
    await still();
    const before = await ask("frames");
    await pause(1500);
    assert.equal(await ask("frames"), before);
  });

  scenario("a lost graphics context comes back with everything in it", async () => {
    const document = await ask("document");
    await browser.evaluate(loseGraphics);
    const frames = await ask("frames");
    await browser.evaluate(returnGraphics);
    await until(async () => (await ask("frames")) > frames, "a frame");
    await still();
    assert.equal(await ask("document"), document);
    await picture("context-restored");
  });

  scenario("a second visit works without a network", async () => {
    await until(() => browser.evaluate(keptForOffline), "the page to be kept for offline");
    await site.stop();
    await visit();
    assert.match(await ask("answer"), /^Loosen each claw screw 1 turn/);
    await share();
    await picture("offline");
  });
});
