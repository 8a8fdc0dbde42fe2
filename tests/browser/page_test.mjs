// The page in a real Chromium: loaded, answered, edited by real clicks, keys and touches, and compared with the
// command line. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { cpSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";
import { answerOf as commandLine, chromiumFlags, commandLine as run, root, serve, shots } from "./site.mjs";

const desktop = { viewport: { width: 1280, height: 800 } };
const phone = { viewport: { width: 412, height: 915 }, deviceScaleFactor: 2.6, isMobile: true, hasTouch: true };

let site, address, browser;
before(async () => {
  site = await serve(8190);
  address = site.address;
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags });
});
after(async () => {
  await browser?.close();
  await site?.stop();
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
  const text = run("report", document);
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
  const opened = run("open", link);
  assert.deepEqual(JSON.parse(opened), JSON.parse(document));
  const other = run("link", readFileSync(root + "tests/examples/small-sag.json")).trim();
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
  await page.locator("#notice .close").click();
  assert.equal(await page.locator("#notice").isVisible(), false);
  assert.match(await page.evaluate(() => window.counterpull.answer()), /^Add a spring/);
  await opensAt(page, "<img src=x onerror=alert(1)>");
  assert.equal(await page.locator("#notice img").count(), 0); // text, never markup
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
  // Number pads of many phones have no minus.
  const sign = await page.locator("#sign").boundingBox();
  await page.touchscreen.tap(sign.x + sign.width / 2, sign.y + sign.height / 2);
  await still(page);
  assert.equal(JSON.parse(await page.evaluate(() => window.counterpull.document())).now.tail_mm, 2.5);
  assert.equal(await page.evaluate(() => document.activeElement.id), "entry");
  // The keyboard takes half of the screen: the field stays in what is left.
  await page.setViewportSize({ width: 412, height: 420 });
  await still(page);
  const field = await page.locator("#entry").boundingBox();
  assert.ok(field.y >= 0 && field.y + field.height <= 420, `the field is at ${field.y}`);
  await page.setViewportSize(phone.viewport);
  await page.keyboard.press("Enter");
  await page.context().close();
});

test("a finger drawn sideways over a number changes it step by step, and does not scroll", async () => {
  const page = await open(phone);
  await answered(page);
  await still(page);
  await page.evaluate(() => window.counterpull.operate("section.sharper"));
  await still(page);
  const touch = await page.context().newCDPSession(page);
  const send = (type, x, y) => touch.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
  await send("touchStart", 200, 800);
  for (let y = 780; y >= 500; y -= 20) { await send("touchMove", 200, y); await page.waitForTimeout(16); }
  await page.waitForTimeout(120);
  await send("touchEnd");
  await still(page);
  const field = (await controls(page)).find((c) => c.role === "spinbutton" && c.rect[1] > 450 && c.rect[3] < 850);
  const x = (field.rect[0] + field.rect[2]) / 2, y = (field.rect[1] + field.rect[3]) / 2;
  await send("touchStart", x, y);
  for (let dx = 5; dx <= 45; dx += 5) { await send("touchMove", x + dx, y); await page.waitForTimeout(30); }
  await page.waitForTimeout(120);
  await send("touchEnd");
  await still(page);
  const after = (await controls(page)).find((c) => c.id === field.id);
  assert.ok(parseFloat(after.value) > parseFloat(field.value), `${field.id}: ${field.value}, then ${after.value}`);
  assert.equal(await page.locator("#entry").isVisible(), false);
  await page.context().close();
});

test("a flick of the finger goes on after it is lifted, and comes to rest", async () => {
  const page = await open(phone);
  await answered(page);
  await still(page);
  const touch = await page.context().newCDPSession(page);
  const send = (type, y) => touch.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x: 200, y }] });
  const top = async () => (await find(page, "section.next")).rect[1];
  await send("touchStart", 800);
  for (let y = 780; y >= 600; y -= 30) { await send("touchMove", y); await page.waitForTimeout(16); }
  const lifted = await top();
  await send("touchEnd");
  await still(page);
  assert.ok(await top() < lifted - 20, `${await top()} after ${lifted}`);
  await page.context().close();
});

test("turned on its side and back, a phone shows the answer", async () => {
  const page = await open(phone);
  await answered(page);
  for (const viewport of [{ width: 915, height: 412 }, { width: 360, height: 740 }, phone.viewport]) {
    await page.setViewportSize(viewport);
    await still(page);
    const { rect } = await find(page, "answer");
    assert.ok(rect[0] >= 0 && rect[1] >= 0 && rect[2] <= viewport.width && rect[3] <= viewport.height, String(rect));
    await page.screenshot({ path: shots + `phone-${viewport.width}x${viewport.height}.png` });
  }
  await page.context().close();
});

test("the example and the longest answer there is stand whole at the top of every screen", async () => {
  // Everything that there is to say about it, and the sides of the tail read apart besides, which says the most.
  const told = (document) => run("report", document).split("\nstrings now")[0].length;
  const examples = readdirSync(root + "tests/examples").filter((name) => name.endsWith(".json"))
    .map((name) => JSON.parse(readFileSync(root + "tests/examples/" + name, "utf8")));
  for (const { now } of examples) now.tail_sides_mm = [now.tail_mm - 0.5, now.tail_mm + 0.5];
  const longest = examples.map((example) => JSON.stringify(example)).reduce((a, b) => (told(b) > told(a) ? b : a));
  for (const [width, height, deviceScaleFactor] of [[360, 740, 3], [412, 915, 2.6], [768, 1024, 2], [1280, 800, 1], [2560, 1440, 1]]) {
    const small = width < 1000;
    const page = await open({ viewport: { width, height }, deviceScaleFactor, isMobile: small, hasTouch: small });
    await answered(page);
    for (const [name, document] of [["example", ""], ["longest", longest]]) {
      if (document) assert.equal(await page.evaluate((text) => window.counterpull.open(text), document), "");
      await still(page);
      const { rect } = await find(page, "answer");
      assert.ok(rect[0] >= 0 && rect[1] >= 0 && rect[2] <= width && rect[3] <= height / 2, `${name} at ${width}: ${rect}`);
      await page.screenshot({ path: `${shots}${name}-${width}x${height}.png` });
    }
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
});

test("a browser that keeps nothing is worked with, and told of once", async () => {
  const page = await open(desktop, () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; });
  await answered(page);
  await page.evaluate(() => window.counterpull.operate("now.tail_mm", "-1.2"));
  await page.waitForFunction(() => /keeps nothing/.test(document.getElementById("notice").textContent));
  await page.waitForFunction(() => location.hash === "#" + window.counterpull.link());
  await page.locator("#notice .close").click();
  await page.evaluate(() => window.counterpull.operate("now.tail_mm", "-1.3"));
  await page.waitForFunction(() => location.hash === "#" + window.counterpull.link());
  assert.equal(await page.locator("#notice").isVisible(), false);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a title is text wherever it is shown", async () => {
  const page = await open(desktop);
  await answered(page);
  const title = "<img src=x onerror=alert(1)>";
  const document = JSON.parse(await page.evaluate(() => window.counterpull.document()));
  assert.equal(await page.evaluate((text) => window.counterpull.open(text), JSON.stringify({ ...document, title })), "");
  await opensAt(page, await page.evaluate(() => window.counterpull.link()));
  assert.equal(JSON.parse(await page.evaluate(() => window.counterpull.document())).title, title);
  await page.evaluate(() => { window.dispatchEvent(new Event("beforeprint")); window.counterpull.operate("share"); });
  await page.waitForSelector("#share[open]");
  assert.equal(await page.locator("#sheet .title").textContent(), title);
  assert.equal(await page.locator("img").count(), 0);
  await page.context().close();
});

test("the link is copied to the clipboard", async () => {
  const page = await open({ ...desktop, permissions: ["clipboard-read", "clipboard-write"] });
  await answered(page);
  await press(page, "share");
  await page.locator("#share .copy").click();
  await page.waitForFunction(() => document.querySelector("#share .told").textContent === "Copied.");
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), address + "#" + await page.evaluate(() => window.counterpull.link()));
  // The answer for a forum: the command line's sentences and the link, and nothing that a forum would mangle.
  await page.locator("#share .copy-text").click();
  await page.waitForFunction(() => navigator.clipboard.readText().then((text) => text.includes("\n")));
  const text = await page.evaluate(() => navigator.clipboard.readText());
  const document = await page.evaluate(() => window.counterpull.document());
  assert.ok(text.includes(commandLine(document)) && text.endsWith("#" + await page.evaluate(() => window.counterpull.link())), text);
  assert.doesNotMatch(text.split("http")[0], /[*_`<>[\]#]|  /);
  await page.locator("#share .close").click();
  await page.context().close();
});

test("one answer stands in a frame of another site, and only that page may", async () => {
  const other = await serve(8250); // another port is another site
  after(() => other.stop());
  const page = await open(desktop);
  await answered(page);
  const link = await page.evaluate(() => window.counterpull.link());
  const answer = await page.evaluate(() => window.counterpull.answer());
  const host = await page.context().newPage();
  const refusals = [];
  host.on("console", (message) => { if (/frame-ancestors/.test(message.text())) refusals.push(message.text()); });
  await host.route("**/host", (route) => route.fulfill({ contentType: "text/html",
    body: `<iframe id="card" width="420" height="420" src="${address}embed.html#${link}"></iframe><iframe src="${address}"></iframe>` }));
  await host.goto(other.address + "host");
  const card = host.frameLocator("#card");
  assert.equal(await card.locator("h1").textContent(), answer);
  assert.equal(await card.locator("a").evaluate((a) => a.href), address + "#" + link);
  assert.ok(refusals.length > 0, "the page itself is refused in a frame");
  await host.screenshot({ path: shots + "embedded.png" });
  await host.goto(address + "embed.html#" + link.slice(0, 40));
  assert.match(await host.locator("#card p").first().textContent(), /this link is incomplete/);
  await page.context().close();
});

test("Control and Z undoes, with Shift it redoes", async () => {
  const page = await open(desktop);
  await answered(page);
  const tail = async () => JSON.parse(await page.evaluate(() => window.counterpull.document())).now.tail_mm;
  await press(page, "now.tail_mm+");
  await press(page, "now.tail_mm+");
  assert.equal(await tail(), 0);
  await page.keyboard.press("Control+z");
  await still(page);
  assert.equal(await tail(), -0.5);
  await page.keyboard.press("Control+Shift+Z");
  await still(page);
  assert.equal(await tail(), 0);
  await press(page, "undo");
  await press(page, "undo");
  assert.equal(await tail(), -1);
  await page.context().close();
});

test("a new version is offered, and put in place only when accepted", async () => {
  const next = root + ".build/site-next";
  rmSync(next, { recursive: true, force: true });
  cpSync(root + ".build/site", next, { recursive: true });
  writeFileSync(next + "/index.html", readFileSync(next + "/index.html", "utf8").replace("<title>Counterpull", "<title>Counterpull, next"));
  writeFileSync(next + "/sw.js", readFileSync(next + "/sw.js", "utf8").replace(/counterpull-[0-9a-f]{10}"/, 'counterpull-next"'));
  for (const name of ["index.html", "sw.js"]) for (const coding of ["br", "gz"]) rmSync(`${next}/${name}.${coding}`);
  let served = await serve(8230);
  after(() => served.stop());
  const context = await browser.newContext(desktop);
  const page = await context.newPage();
  await page.goto(served.address);
  await answered(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.reload(); // now the worker serves it
  await answered(page);
  await page.evaluate(() => window.counterpull.operate("now.tail_mm", "-1.7"));
  await page.waitForFunction(() => location.hash === "#" + window.counterpull.link());
  await served.stop();
  served = await serve(8230, next);
  await page.reload();
  await page.waitForFunction(() => /new version/.test(document.getElementById("notice").textContent));
  assert.doesNotMatch(await page.title(), /next/);
  await page.screenshot({ path: shots + "desktop-update.png" });
  await page.locator("#notice .act").click();
  await page.waitForFunction(() => /next/.test(document.title));
  await answered(page);
  assert.equal(JSON.parse(await page.evaluate(() => window.counterpull.document())).now.tail_mm, -1.7);
  await context.close();
});
