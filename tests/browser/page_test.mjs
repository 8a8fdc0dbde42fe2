// The page in a real Chromium: loaded, answered, edited by real clicks, keys and touches, and compared with the
// command line. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { cpSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { after, test } from "node:test";
import { answered, clickAt, controls, desktop, find, inChromium, operate, press, still } from "./chromium.mjs";
import { answerOf as commandLine, commandLine as run, root, serve, shots } from "./site.mjs";

const { open, opensAt, at } = inChromium(8190);

test("the page opens with the example answered, and asks nobody else for anything", async () => {
  const page = await open(desktop);
  await answered(page);
  await still(page);
  const document = await page.evaluate(() => window.counterpull.document());
  assert.equal(await page.evaluate(() => window.counterpull.answer()), commandLine(document));
  assert.match(commandLine(document), /^Add a spring, then loosen each claw screw 2⅞ turns/);
  assert.equal(await page.title(), "Counterpull: springs and turns for a floating bridge");
  assert.deepEqual(page.problems, []);
  for (const url of page.requests) assert.ok(url.startsWith(at()), url);
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
  await press(page, "Your guitar");
  await press(page, "On it now");
  await press(page, "String by string");
  await press(page, "String 6, gauge");
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
  await press(page, "Tail stands at");
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
  await press(page, "Tail stands at");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("about one");
  await page.keyboard.press("Enter");
  await still(page);
  assert.match((await find(page, "now.tail_mm")).problem, /about one is not a number/);
  await press(page, "Tail stands at");
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
  await press(page, "Your guitar");
  await press(page, "On it now");
  await press(page, "Tuning");
  const option = (await controls(page)).find((c) => c.role === "option" && c.label === "drop D");
  await clickAt(page, (option.rect[0] + option.rect[2]) / 2, (option.rect[1] + option.rect[3]) / 2);
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
  await operate(page, "log.add", "in tune");
  await operate(page, "log[0].tail_mm", "0,8");
  const document = await page.evaluate(() => window.counterpull.document());
  assert.equal(JSON.parse(document).log[0].tail_mm, 0.8);
  const now = await page.evaluate(() => window.counterpull.answer());
  assert.match(now, /^Now /);
  assert.equal(now, commandLine(document));
  await operate(page, "log[0].remove", "");
  assert.equal(await page.evaluate(() => window.counterpull.answer()), before);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

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
  await press(page, "Share this set-up");
  await page.locator("#share .copy").click();
  await page.waitForFunction(() => document.querySelector("#share .told").textContent === "Copied.");
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), at() + "#" + await page.evaluate(() => window.counterpull.link()));
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
    body: `<iframe id="card" width="420" height="420" src="${at()}embed.html#${link}"></iframe><iframe src="${at()}"></iframe>` }));
  await host.goto(other.address + "host");
  const card = host.frameLocator("#card");
  assert.equal(await card.locator("h1").textContent(), answer);
  assert.equal(await card.locator("a").evaluate((a) => a.href), at() + "#" + link);
  assert.ok(refusals.length > 0, "the page itself is refused in a frame");
  await host.screenshot({ path: shots + "embedded.png" });
  await host.goto(at() + "embed.html#" + link.slice(0, 40));
  assert.match(await host.locator("#card p").first().textContent(), /this link is incomplete/);
  await page.context().close();
});

test("Control and Z undoes, with Shift it redoes", async () => {
  const page = await open(desktop);
  await answered(page);
  const tail = async () => JSON.parse(await page.evaluate(() => window.counterpull.document())).now.tail_mm;
  await press(page, "Tail stands at +");
  await press(page, "Tail stands at +");
  assert.equal(await tail(), 0);
  await page.keyboard.press("Control+z");
  await still(page);
  assert.equal(await tail(), -0.5);
  await page.keyboard.press("Control+Shift+Z");
  await still(page);
  assert.equal(await tail(), 0);
  await press(page, "Undo");
  await press(page, "Undo");
  assert.equal(await tail(), -1);
  await page.context().close();
});
