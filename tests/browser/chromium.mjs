// The page in a real Chromium, with all that its driver can do, for tests that go into depth.
import assert from "node:assert/strict";
import { after, before } from "node:test";
import { chromium } from "playwright-core";
import { chromiumFlags, placeOf, serve } from "./site.mjs";

export const desktop = { viewport: { width: 1280, height: 800 } };
export const phone = { viewport: { width: 412, height: 915 }, deviceScaleFactor: 2.6, isMobile: true, hasTouch: true };

// Serves the page for the tests of a file and opens it for each: `open(options, prepare, where)` in a context of its own,
// `opensAt(page, link)`, and `at()` the address.
export function inChromium(port) {
  let site, address, browser;
  before(async () => {
    site = await serve(port);
    address = site.address;
    browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags });
  });
  after(async () => {
    await browser?.close();
    await site?.stop();
  });
  async function open(options, prepare, where = address) {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    page.problems = [];
    page.on("console", (message) => { if (["error", "warning"].includes(message.type()) &&
      !/GPU stall|GL Driver Message/.test(message.text())) page.problems.push(message.text()); });
    page.on("pageerror", (error) => page.problems.push(String(error)));
    page.requests = [];
    page.on("request", (request) => page.requests.push(request.url()));
    if (prepare) await page.addInitScript(prepare);
    await page.goto(where);
    return page;
  }
  const opensAt = async (page, link) => {
    await page.goto("about:blank");
    await page.goto(address + "#" + link);
    await answered(page);
    await still(page);
  };
  return { open, opensAt, at: () => address };
}

export const answered = (page) => page.waitForFunction(() => document.getElementById("cover").hidden, null, { timeout: 60000 });
export const controls = (page) => page.evaluate(() => window.counterpull.controls());
export const still = async (page) => { // until nothing is drawn any more
  for (let last = -1, now = 0; last !== now;) {
    last = await page.evaluate(() => window.counterpull.frames());
    await page.waitForTimeout(250);
    now = await page.evaluate(() => window.counterpull.frames());
  }
};
export async function find(page, id) {
  const control = (await controls(page)).find((c) => c.id === id);
  assert.ok(control, `no control ${id}`);
  return { ...control, x: (control.rect[0] + control.rect[2]) / 2, y: (control.rect[1] + control.rect[3]) / 2 };
}
// As a screen reader would: by the control's identity, wherever it is drawn.
export const operate = async (page, id, value = "") => {
  await page.evaluate(([name, given]) => window.counterpull.operate(name, given), [id, value]);
  await still(page);
};
export const setup = async (page) => JSON.parse(await page.evaluate(() => window.counterpull.document()));
export const written = (page) => page.waitForTimeout(700); // a little later than the edit
// A quick finger upwards, from one height to another; how far a section went with it and after it. Sent all at once:
// waiting for each answer, a busy machine makes a slow finger of a quick one.
export async function flicked(page, from, to) {
  const touch = await page.context().newCDPSession(page);
  const send = (type, y) => touch.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x: 200, y }] });
  const before = (await find(page, "section.next")).rect[1];
  const sent = [send("touchStart", from)];
  for (let y = from - 20; y >= to; y -= 20) sent.push(send("touchMove", y));
  await Promise.all([...sent, send("touchEnd")]);
  await still(page);
  return before - (await find(page, "section.next")).rect[1];
}
export async function press(page, label, which = 0) {
  await still(page);
  const place = await page.evaluate(placeOf, [label, which]);
  assert.ok(place, "no control " + label);
  await clickAt(page, ...place);
}
export async function clickAt(page, x, y) {
  await page.mouse.move(x, y);
  await page.mouse.click(x, y);
  await still(page);
}
