// The page in a real Chromium: loaded, answered, edited by real clicks, keys and touches, and compared with the
// command line. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync } from "node:fs";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const root = fileURLToPath(new URL("../../", import.meta.url));
const shots = root + ".build/screenshots/";
mkdirSync(shots, { recursive: true });
const desktop = { viewport: { width: 1280, height: 800 } };
const phone = { viewport: { width: 412, height: 915 }, deviceScaleFactor: 2.6, isMobile: true, hasTouch: true };

let server, address, browser;
before(async () => {
  server = spawn("node", [root + "web/serve.mjs", root + ".build/site", "8190"]);
  address = await new Promise((resolve, reject) => {
    server.stdout.on("data", (text) => { const at = /http:\S+/.exec(text); if (at) resolve(at[0]); });
    server.on("exit", () => reject(new Error("the server stopped")));
  });
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
    args: ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
      "--ignore-gpu-blocklist", "--disable-background-networking", "--disable-component-update"] });
});
after(async () => {
  await browser?.close();
  server?.kill();
});

async function open(options, prepare) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.problems = [];
  page.on("console", (message) => { if (["error", "warning"].includes(message.type()) &&
    !/GPU stall|GL Driver Message/.test(message.text())) page.problems.push(message.text()); });
  page.on("pageerror", (error) => page.problems.push(String(error)));
  page.requests = [];
  page.on("request", (request) => page.requests.push(request.url()));
  if (prepare) await page.addInitScript(prepare);
  await page.goto(address);
  return page;
}
const answered = (page) => page.waitForFunction(() => document.getElementById("cover").hidden, null, { timeout: 60000 });
const controls = (page) => page.evaluate(() => window.counterpull.controls());
const still = async (page) => { // until nothing is drawn any more
  for (let last = -1, now = 0; last !== now;) {
    last = await page.evaluate(() => window.counterpull.frames());
    await page.waitForTimeout(250);
    now = await page.evaluate(() => window.counterpull.frames());
  }
};
async function find(page, id) {
  const control = (await controls(page)).find((c) => c.id === id);
  assert.ok(control, `no control ${id}`);
  return { ...control, x: (control.rect[0] + control.rect[2]) / 2, y: (control.rect[1] + control.rect[3]) / 2 };
}
async function press(page, id) {
  await still(page);
  const { x, y } = await find(page, id);
  await page.mouse.move(x, y);
  await page.mouse.click(x, y);
  await still(page);
}
function commandLine(document) {
  const text = execFileSync(process.env.COUNTERPULL_BINARY, ["report", "-"], { input: document }).toString();
  const title = JSON.parse(document).title;
  return text.split("\n")[title ? 2 : 0];
}

test("the page opens with the example answered, and asks nobody else for anything", async () => {
  const page = await open(desktop);
  await answered(page);
  await still(page);
  const document = await page.evaluate(() => window.counterpull.document());
  assert.equal(await page.evaluate(() => window.counterpull.answer()), commandLine(document));
  assert.match(commandLine(document), /^Add a spring, then loosen each claw screw 2⅞ turns/);
  assert.deepEqual(page.problems, []);
  for (const url of page.requests) assert.ok(url.startsWith(address), url);
  assert.equal(await page.locator("#spoken").textContent(), commandLine(document));
  const { rect } = await find(page, "answer");
  assert.ok(rect[1] >= 0 && rect[3] < 300, "the answer is at the top");
  await page.screenshot({ path: shots + "desktop-1280x800.png" });
  await page.context().close();
});

test("a gauge changed by real clicks and keys changes the answer to what the command line says", async () => {
  const page = await open(desktop);
  await answered(page);
  const before = await page.evaluate(() => window.counterpull.answer());
  // Fold what is not needed so that the strings wanted are in view.
  await press(page, "section.guitar");
  await press(page, "section.now");
  await press(page, "section.next.each");
  await press(page, "next.strings[0].gauge_in");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("60");
  await page.keyboard.press("Enter");
  await still(page);
  const document = await page.evaluate(() => window.counterpull.document());
  assert.equal(JSON.parse(document).next.strings[0].gauge_in, 0.06);
  const now = await page.evaluate(() => window.counterpull.answer());
  assert.equal(now, commandLine(document));
  assert.notEqual(now, before);
  await page.screenshot({ path: shots + "desktop-gauge.png" });
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a refused value is shown with its reason, and the last good answer stays", async () => {
  const page = await open(desktop);
  await answered(page);
  await press(page, "now.tail_mm");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("4"); // solved at once, while typing
  await still(page);
  const before = await page.evaluate(() => window.counterpull.answer());
  await page.keyboard.type("0");
  await page.keyboard.press("Enter");
  await still(page);
  assert.match((await find(page, "now.tail_mm")).problem, /40 is outside this bridge's travel/);
  assert.equal((await find(page, "answer")).enabled, false);
  assert.equal(await page.evaluate(() => window.counterpull.answer()), before);
  await page.screenshot({ path: shots + "desktop-refused.png" });
  await press(page, "now.tail_mm");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("about one");
  await page.keyboard.press("Enter");
  await still(page);
  assert.match((await find(page, "now.tail_mm")).problem, /about one is not a number/);
  await press(page, "now.tail_mm");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("-1/2");
  await page.keyboard.press("Enter");
  await still(page);
  assert.equal((await find(page, "answer")).enabled, true);
  assert.equal(JSON.parse(await page.evaluate(() => window.counterpull.document())).now.tail_mm, -0.5);
  await page.context().close();
});

test("a set and a tuning are picked from their lists", async () => {
  const page = await open(desktop);
  await answered(page);
  await press(page, "section.guitar");
  await press(page, "section.now");
  await press(page, "next.tuning");
  const option = (await controls(page)).find((c) => c.role === "option" && c.label === "drop D");
  await press(page, option.id);
  const document = await page.evaluate(() => window.counterpull.document());
  assert.deepEqual(JSON.parse(document).next.tuning, ["D2", "A2", "D3", "G3", "B3", "E4"]);
  assert.equal(await page.evaluate(() => window.counterpull.answer()), commandLine(document));
  await page.context().close();
});

test("printed, the work sheet stands on one page of A4 or Letter, in the words of the command line", async () => {
  const page = await open(desktop);
  await answered(page);
  for (const format of ["A4", "Letter"]) {
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    const pdf = await page.pdf({ format, preferCSSPageSize: false, path: shots + `sheet-${format}.pdf` });
    assert.equal(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length, 1, format);
  }
  await page.emulateMedia({ media: "print" });
  await page.screenshot({ path: shots + "sheet.png", fullPage: true });
  const printed = await page.locator("#sheet").innerText();
  const document = await page.evaluate(() => window.counterpull.document());
  const text = execFileSync(process.env.COUNTERPULL_BINARY, ["report", "-"], { input: document }).toString();
  const steps = text.split("\n").filter((line) => /^ +\d+\. /.test(line)).map((line) => line.replace(/^ +\d+\. /, ""));
  assert.ok(steps.length > 8);
  for (const step of steps) assert.ok(printed.includes(step), step);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a reading sharpens the answer as it does on the command line, and taken away it is as before", async () => {
  const page = await open(desktop);
  await answered(page);
  const before = await page.evaluate(() => window.counterpull.answer());
  const operate = async (id, value) => {
    await page.evaluate(([i, v]) => window.counterpull.operate(i, v), [id, value]);
    await still(page);
  };
  await operate("log.add", "in tune");
  await operate("log[0].tail_mm", "0,8");
  const document = await page.evaluate(() => window.counterpull.document());
  assert.equal(JSON.parse(document).log[0].tail_mm, 0.8);
  const now = await page.evaluate(() => window.counterpull.answer());
  assert.match(now, /^Now /);
  assert.equal(now, commandLine(document));
  await operate("log[0].remove", "");
  assert.equal(await page.evaluate(() => window.counterpull.answer()), before);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

const opensAt = async (page, link) => { await page.goto("about:blank"); await page.goto(address + "#" + link); await answered(page); await still(page); };
test("the address carries the set-up, and a link opens as the command line reads it", async () => {
  const page = await open(desktop);
  await answered(page);
  await page.evaluate(() => window.counterpull.operate("now.tail_mm", "-1.7"));
  await still(page);
  await page.waitForFunction(() => location.hash === "#" + window.counterpull.link());
  const document = await page.evaluate(() => window.counterpull.document());
  const link = (await page.evaluate(() => location.hash)).slice(1);
  const opened = execFileSync(process.env.COUNTERPULL_BINARY, ["open", link]).toString();
  assert.deepEqual(JSON.parse(opened), JSON.parse(document));
  const other = execFileSync(process.env.COUNTERPULL_BINARY, ["link", root + "tests/examples/small-sag.json"]).toString().trim();
  // Pasted into the same tab, and back again.
  await page.evaluate((l) => { location.hash = l; }, other);
  await page.waitForFunction(() => JSON.parse(window.counterpull.document()).title.startsWith("Same strings"));
  await still(page);
  await page.goBack();
  await page.waitForFunction(() => JSON.parse(window.counterpull.document()).now.tail_mm === -1.7);
  await opensAt(page, other);
  assert.match(await page.evaluate(() => window.counterpull.answer()), /^Loosen each claw screw ¼ turn/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a link that was cut says so, and the page works on", async () => {
  const page = await open(desktop);
  await answered(page);
  const link = await page.evaluate(() => window.counterpull.link());
  await opensAt(page, link.slice(0, 40));
  assert.match(await page.locator("#notice").innerText(), /this link is incomplete/);
  await page.screenshot({ path: shots + "desktop-cut-link.png" });
  await page.locator("#notice button").click();
  assert.equal(await page.locator("#notice").isVisible(), false);
  assert.match(await page.evaluate(() => window.counterpull.answer()), /^Add a spring/);
  await opensAt(page, "<img src=x onerror=alert(1)>");
  assert.equal(await page.locator("#notice img").count(), 0); // text, never markup
  await page.context().close();
});

test("when nothing changes nothing is drawn", async () => {
  const page = await open(desktop);
  await answered(page);
  await page.mouse.move(5, 5);
  await still(page);
  const before = await page.evaluate(() => window.counterpull.frames());
  await page.waitForTimeout(1500);
  assert.equal(await page.evaluate(() => window.counterpull.frames()), before);
  await page.context().close();
});

test("a lost graphics context comes back with everything in it", async () => {
  const page = await open(desktop);
  await answered(page);
  await still(page);
  const before = await page.evaluate(() => window.counterpull.document());
  await page.evaluate(() => {
    window.lost = document.getElementById("canvas").getContext("webgl").getExtension("WEBGL_lose_context");
    window.lost.loseContext();
  });
  await page.waitForTimeout(300);
  const frames = await page.evaluate(() => window.counterpull.frames());
  await page.evaluate(() => window.lost.restoreContext());
  await page.waitForFunction((n) => window.counterpull.frames() > n, frames);
  await still(page);
  assert.equal(await page.evaluate(() => window.counterpull.document()), before);
  await page.screenshot({ path: shots + "desktop-context-restored.png" });
  await page.context().close();
});

test("without WebGL the page says so", async () => {
  const page = await open(desktop, () => { HTMLCanvasElement.prototype.getContext = () => null; });
  await page.waitForFunction(() => /WebGL/.test(document.getElementById("message").textContent));
  await page.context().close();
});

test("on a phone the answer is first, a drag scrolls, and a tap types into a real field", async () => {
  const page = await open(phone);
  await answered(page);
  await still(page);
  await page.screenshot({ path: shots + "phone-412x915.png" });
  const { rect } = await find(page, "answer");
  assert.ok(rect[1] >= 0 && rect[3] < 300 && rect[2] <= 412);
  for (const control of await controls(page))
    if (["button", "checkbox", "combobox", "spinbutton", "option", "heading"].includes(control.role))
      assert.ok(control.rect[3] - control.rect[1] >= 44, `${control.id} is ${control.rect[3] - control.rect[1]} px high`);
  const touch = await page.context().newCDPSession(page);
  const send = (type, x, y) => touch.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
  const tap = async (id) => {
    await still(page);
    const at = await find(page, id);
    await send("touchStart", at.x, at.y);
    await send("touchEnd");
    await still(page);
  };
  const before = (await find(page, "section.next")).y;
  await send("touchStart", 200, 700);
  for (let y = 690; y >= 450; y -= 20) { await send("touchMove", 200, y); await page.waitForTimeout(16); }
  await page.waitForTimeout(100);
  await send("touchEnd");
  await still(page);
  assert.ok((await find(page, "section.next")).y < before - 100, "a drag scrolls");
  await tap("section.now");
  await page.screenshot({ path: shots + "phone-now.png" });
  await tap("now.tail_mm");
  assert.equal(await page.evaluate(() => document.activeElement.id), "entry");
  await page.locator("#entry").fill("-2,5");
  await still(page);
  assert.equal(JSON.parse(await page.evaluate(() => window.counterpull.document())).now.tail_mm, -2.5);
  await page.screenshot({ path: shots + "phone-typing.png" });
  await page.keyboard.press("Enter");
  await page.context().close();
});
