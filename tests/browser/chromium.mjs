// The page in a real Chromium, with all that its driver can do, for tests that go into depth.
import { after, before } from "node:test";
import { chromium } from "playwright-core";
import { atRest, chromiumFlags, keptForOffline, patience, placeOf, serve, until, withSecondTry } from "./site.mjs";

export const desktop = { viewport: { width: 1280, height: 800 } };
export const phone = { viewport: { width: 412, height: 915 }, deviceScaleFactor: 2.6, isMobile: true, hasTouch: true };

// Serves the page for the tests of a file and opens it for each: `open(options, prepare, where)` in a context of its own,
// `opened` the same until it is answered, `opensAt(page, link)`, and `at()` the address.
export function inChromium(port) {
  let site, address, browser;
  before(async () => {
    site = await serve(port);
    address = site.address;
    browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags, timeout: 2 * patience });
  });
  after(async () => {
    await browser?.close();
    await site?.stop();
  });
  async function open(options, prepare, where = address) {
    const context = await browser.newContext(options);
    context.setDefaultTimeout(patience);
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
  async function opened(...how) {
    const page = await open(...how);
    await answered(page);
    return page;
  }
  async function opensAt(page, link) {
    await page.goto("about:blank");
    await page.goto(address + "#" + link);
    await answered(page);
  }
  return { open, opened, opensAt, at: () => address };
}

export const still = (page) => page.evaluate(atRest); // until nothing is drawn any more
export async function answered(page) {
  await page.waitForFunction(() => document.getElementById("cover").hidden);
  await still(page);
}
export async function reload(page) {
  await page.reload();
  await answered(page);
}
export const controls = (page) => page.evaluate(() => window.counterpull.controls());
export const answerOn = (page) => page.evaluate(() => window.counterpull.answer());
export const documentOn = (page) => page.evaluate(() => window.counterpull.document());
export const linkOn = (page) => page.evaluate(() => window.counterpull.link());
export const setup = async (page) => JSON.parse(await documentOn(page));
// The set-ups in the notebook, changed last first.
export const guitars = (page) => page.evaluate(() => window.counterpull.guitars().map(({ setup: text }) => JSON.parse(text)));
// Until the part says what is looked for; all that it says then.
export const says = (part, pattern) => until(async () => {
  const text = await part.textContent();
  return pattern.test(text) && text;
}, `${part} to say ${pattern}`);
export const notice = (page, pattern) => says(page.locator("#notice p"), pattern);

// A control as the program tells of it, as soon as there is one, and its middle.
export async function find(page, id) {
  const control = await until(async () => (await controls(page)).find((c) => c.id === id), "a control " + id);
  return { ...control, x: (control.rect[0] + control.rect[2]) / 2, y: (control.rect[1] + control.rect[3]) / 2 };
}
// As a screen reader would: by the control's identity, wherever it is drawn.
export async function operate(page, id, value = "") {
  await find(page, id);
  await page.evaluate(([name, given]) => window.counterpull.operate(name, given), [id, value]);
  await still(page);
}
// What was edited goes to the address and the notebook together, a little later.
export async function written(page) {
  await still(page);
  await page.waitForFunction(() => location.hash.length > 1 && location.hash === "#" + window.counterpull.link());
}
export const offlineReady = (page) => until(() => page.evaluate(keptForOffline), "the page to be kept for offline");
export async function showNotebook(page) {
  await operate(page, "notebook");
  await page.locator("#notebook[open] h2").waitFor();
}
export async function resize(page, viewport) {
  await page.setViewportSize(viewport);
  await page.waitForFunction(({ width, height }) => innerWidth === width && innerHeight === height, viewport);
  await still(page);
}

async function click(page, label) {
  await still(page);
  const place = await until(() => page.evaluate(placeOf, label), "a control " + label);
  await clickAt(page, ...place);
}
export async function clickAt(page, x, y) {
  await page.mouse.move(x, y);
  await page.mouse.click(x, y);
  await still(page);
}
// Presses what has this label, until what is to come of it `came`.
export const press = (page, label, came) => withSecondTry(() => click(page, label), came, "what comes of pressing " + label);
// Types into a field in place of what is there.
export const enter = (page, label, text, came) => withSecondTry(async () => {
  await click(page, label);
  await page.keyboard.press("Control+a");
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await still(page);
}, came, `what comes of ${text} in ${label}`);

// A finger from one place to another, in so many steps.
async function finger(page, [x, y], [toX, toY], steps) {
  const touch = await page.context().newCDPSession(page);
  const send = (type, ...touchPoints) => touch.send("Input.dispatchTouchEvent", { type, touchPoints });
  const moves = Array.from({ length: steps }, (_, i) => (i + 1) / steps).map((part) => ({ x: x + part * (toX - x), y: y + part * (toY - y) }));
  return { down: () => send("touchStart", { x, y }), moves: moves.map((at) => () => send("touchMove", at)), up: () => send("touchEnd") };
}
// A slow one. The pauses are its own: it rests before it is lifted, so that nothing glides on.
export async function drag(page, from, to) {
  const { down, moves, up } = await finger(page, from, to, 15);
  await down();
  for (const move of moves) {
    await move();
    await page.waitForTimeout(16);
  }
  await page.waitForTimeout(300);
  await up();
  await still(page);
}
// Draws the page up until a control is where a finger can have it.
export async function bring(page, id) {
  const lowest = (await find(page, "undo")).rect[1];
  for (let draws = 0; draws < 20; ++draws) {
    const { rect: [, top, , bottom] } = await find(page, id);
    if (top > 300 && bottom < lowest) return;
    const way = Math.max(-350, Math.min(350, 500 - top));
    await drag(page, [200, 560 - way / 2], [200, 560 + way / 2]);
  }
  throw new Error(id + " is not to be brought into view");
}
// A quick one upwards, from one height to another; how far a section went with it and after it. Sent all at once: waiting
// for each answer, a busy machine makes a slow finger of a quick one.
export async function flicked(page, from, to) {
  const { down, moves, up } = await finger(page, [200, from], [200, to], Math.abs(to - from) / 20);
  const before = (await find(page, "section.next")).rect[1];
  await Promise.all([down, ...moves, up].map((send) => send()));
  await still(page);
  return before - (await find(page, "section.next")).rect[1];
}
// A flick that has to get somewhere may try twice: what was sent at once can still be taken in slowly.
export async function glided(page, from, to, least) {
  const way = await flicked(page, from, to);
  return way > least ? way : flicked(page, from, to);
}
// Taps on a control where it is drawn, until what is to come of it `came`.
export const tap = (page, id, came) => withSecondTry(async () => {
  await still(page);
  const { x, y } = await find(page, id);
  await page.touchscreen.tap(x, y);
  await still(page);
}, came, "what comes of a tap on " + id);
// Taps on a number, until a real field to type into is open over it.
export async function tapOpens(page, id) {
  const { label } = await find(page, id);
  await tap(page, id, () => page.evaluate((name) => document.activeElement.id === "entry" && document.activeElement.getAttribute("aria-label") === name, label));
}
