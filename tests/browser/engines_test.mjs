// The same scenarios in Chromium, Firefox and WebKitGTK: loaded, edited, linked, kept, without a network, and with the
// graphics context lost. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { engines } from "./engines.mjs";
import { answerOf, commandLine, pause, placeOf, serve, shots, until } from "./site.mjs";

let port = 8200;
const only = process.env.COUNTERPULL_ENGINE; // one of them, while working on it
for (const [name, open] of Object.entries(engines)) if (!only || only === name) describe("in " + name, () => {
  let site, browser;
  before(async () => {
    site = await serve(port += 30);
    browser = await open();
  }, { timeout: 90000 });
  after(async () => {
    await browser?.close();
    await site?.stop();
  }, { timeout: 30000 });

  const ask = (what, ...values) => browser.evaluate((w, ...v) => window.counterpull[w](...v), what, ...values);
  const answered = () => until(() => browser.evaluate(() => document.getElementById("cover").hidden && !!window.counterpull), "the page");
  const still = async () => { // until nothing is drawn any more
    for (let last = -1, now = 0; last !== now;) {
      last = await ask("frames");
      await pause(250);
      now = await ask("frames");
    }
  };
  const visit = async (fragment = "") => {
    await browser.visit("about:blank");
    await browser.visit(site.address + fragment);
    await answered();
    await still();
  };
  const press = async (label) => {
    await still();
    const place = await browser.evaluate(placeOf, [label, 0]);
    assert.ok(place, "no control " + label);
    await browser.click(...place);
    await still();
  };
  const picture = (what) => browser.picture(`${shots}${name.toLowerCase()}-${what}.png`);
  const scenario = (what, run) => test(what, { timeout: 120000 }, run);

  scenario("the example is answered as the command line answers it", async () => {
    await visit();
    assert.equal(await ask("answer"), answerOf(await ask("document")));
    await picture("example");
  });

  scenario("a tail reading changed by a press and by keys changes the answer, and the address follows", async () => {
    await press("Tail stands at +");
    assert.equal(JSON.parse(await ask("document")).now.tail_mm, -0.5);
    await press("Tail stands at");
    await browser.press("Control+a");
    await browser.type("-1,5");
    await browser.press("Enter");
    await still();
    const document = await ask("document");
    assert.equal(JSON.parse(document).now.tail_mm, -1.5);
    assert.equal(await ask("answer"), answerOf(document));
    await until(() => browser.evaluate(() => location.hash === "#" + window.counterpull.link()), "the address");
    await picture("edited");
  });

  scenario("its link opens the same set-up, and a link that was cut says so", async () => {
    const document = await ask("document"), fragment = await browser.evaluate(() => location.hash);
    assert.deepEqual(JSON.parse(commandLine("open", fragment)), JSON.parse(document));
    await visit(fragment);
    assert.deepEqual(JSON.parse(await ask("document")), JSON.parse(document));
    await visit(fragment.slice(0, 50));
    assert.match(await browser.evaluate(() => document.getElementById("notice").textContent), /this link is incomplete/);
    await picture("cut-link");
  });

  scenario("the page closed and opened again has the set-up of last time", async () => {
    await visit();
    assert.equal(JSON.parse(await ask("document")).now.tail_mm, -1.5);
    assert.ok(!(await ask("controls")).some(({ id }) => id === "undo"), "nothing was edited yet");
    await browser.evaluate(() => {
      for (const { id } of window.counterpull.guitars()) localStorage.setItem("counterpull.guitar." + id, "{ torn");
    });
    await visit();
    assert.match(await ask("answer"), /^Add a spring/);
    assert.match(await browser.evaluate(() => document.getElementById("notice").textContent), /cannot be read/);
    assert.deepEqual(await browser.evaluate(() => Object.keys(localStorage).filter((name) => name.startsWith("counterpull.unreadable.guitar."))
      .map((name) => localStorage.getItem(name))), ["{ torn"]);
  });

  scenario("sharing shows the link to copy and a square code", async () => {
    await visit();
    await press("Share this set-up");
    await until(() => browser.evaluate(() => document.querySelector("#share .code path") !== null), "the code");
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
    await browser.evaluate(() => {
      window.lost = document.getElementById("canvas").getContext("webgl").getExtension("WEBGL_lose_context");
      window.lost.loseContext();
    });
    await pause(300);
    const frames = await ask("frames");
    await browser.evaluate(() => { window.lost.restoreContext(); });
    await until(async () => (await ask("frames")) > frames, "a frame");
    await still();
    assert.equal(await ask("document"), document);
    await picture("context-restored");
  });

  scenario("a second visit works without a network", async (context) => {
    const worker = await until(() => browser.evaluate(() => !navigator.serviceWorker ? "none"
      : navigator.serviceWorker.ready.then(() => "ready")), "the service worker", 20000).catch(() => "none");
    if (worker === "none") return context.skip("this build of the engine has no service workers");
    await site.stop();
    await visit();
    assert.match(await ask("answer"), /^Add a spring/);
    await press("Share this set-up");
    await until(() => browser.evaluate(() => document.querySelector("#share .code path") !== null), "the code");
    await picture("offline");
  });
});
