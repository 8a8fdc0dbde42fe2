// The page in a real Chromium: loaded, answered, edited by real clicks, keys and touches, and compared with the
// command line. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, test } from "node:test";
import { answerOn, clickAt, controls, desktop, documentOn, enter, find, inChromium, linkOn, notice, operate, press, says, setup, still, written } from "./chromium.mjs";
import { answerOf as commandLine, commandLine as run, root, serve, shots, until, withSecondTry } from "./site.mjs";

const { opened, opensAt, at } = inChromium(8190);
// A section opened or folded at its heading.
const fold = (page, label, to) => press(page, label, async () =>
  (await controls(page)).some((one) => one.role === "heading" && one.label === label && one.value === to));
const tail = async (page) => (await setup(page)).now.tail_mm;

test("the page opens with the example answered, and asks nobody else for anything", async () => {
  const page = await opened(desktop);
  const document = await documentOn(page);
  assert.equal(await answerOn(page), commandLine(document));
  assert.match(commandLine(document), /^Loosen each claw screw 1 turn/);
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
  const page = await opened(desktop);
  const before = await answerOn(page);
  // Fold what is not needed so that the strings wanted are in view.
  await fold(page, "Your guitar", "closed");
  await fold(page, "On it now", "closed");
  await fold(page, "String by string", "open");
  await enter(page, "String 6, gauge", "60", async () => (await setup(page)).next.strings[0].gauge_in === 0.06);
  const document = await documentOn(page);
  const now = await answerOn(page);
  assert.equal(now, commandLine(document));
  assert.notEqual(now, before);
  await page.screenshot({ path: shots + "desktop-gauge.png" });
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a refused value is shown with its reason, and the last good answer stays", async () => {
  const page = await opened(desktop);
  await fold(page, "Your guitar", "closed"); // what is typed into is in view
  const problem = async () => (await find(page, "now.tail_mm")).problem;
  await enter(page, "Tail stands at", "4", async () => (await tail(page)) === 4);
  const before = await answerOn(page);
  await enter(page, "Tail stands at", "40", async () => /40 mm is outside this bridge's travel/.test(await problem()));
  assert.equal((await find(page, "answer")).enabled, false);
  assert.equal(await answerOn(page), before);
  await page.screenshot({ path: shots + "desktop-refused.png" });
  await enter(page, "Tail stands at", "about one", async () => /about one is not a number/.test(await problem()));
  await enter(page, "Tail stands at", "-1/2", async () => (await tail(page)) === -0.5);
  assert.equal((await find(page, "answer")).enabled, true);
  await page.context().close();
});

test("a set and a tuning are picked from their lists", async () => {
  const page = await opened(desktop);
  await fold(page, "Your guitar", "closed");
  await fold(page, "On it now", "closed");
  const option = async () => (await controls(page)).find((c) => c.role === "option" && c.label === "drop D");
  await press(page, "Tuning", option);
  const { rect } = await option();
  await clickAt(page, (rect[0] + rect[2]) / 2, (rect[1] + rect[3]) / 2);
  await until(async () => (await setup(page)).next.tuning.join(" ") === "D2 A2 D3 G3 B3 E4", "the tuning picked");
  const document = await documentOn(page);
  assert.equal(await answerOn(page), commandLine(document));
  await page.context().close();
});

// The sheet as it would be printed; its script comes with the first key.
async function onPaper(page) {
  await page.keyboard.press("Shift");
  await until(() => page.evaluate(() => {
    window.dispatchEvent(new Event("beforeprint"));
    return document.querySelector("#sheet ol") !== null;
  }), "the sheet to be written");
}
test("printed, the work sheet stands on one page of A4 or Letter, in the words of the command line", async () => {
  const page = await opened(desktop);
  for (const format of ["A4", "Letter"]) {
    await onPaper(page);
    const pdf = await page.pdf({ format, preferCSSPageSize: false, path: shots + `sheet-${format}.pdf` });
    assert.equal(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length, 1, format);
  }
  await page.emulateMedia({ media: "print" });
  await page.screenshot({ path: shots + "sheet.png", fullPage: true });
  const printed = (await page.locator("#sheet").innerText()).replaceAll("\u00a0", " ");
  const document = await documentOn(page);
  const text = run("report", document);
  const steps = text.split("\n").filter((line) => /^ +\d+\. /.test(line)).map((line) => line.replace(/^ +\d+\. /, ""));
  assert.ok(steps.length > 8);
  for (const step of steps) assert.ok(printed.includes(step), step);
  // Besides: whose guitar and when, both sets, the springs before and after, and room for readings.
  const { title, now, next, guitar } = JSON.parse(document);
  for (const text of [title, String(new Date().getFullYear()), now.tuning.join(" "), next.tuning.join(" ")]) assert.ok(printed.includes(text), text);
  const taken = (which) => page.locator("#sheet figure").nth(which).locator(".spring").count();
  assert.equal(await taken(0), now.springs.length);
  assert.equal(await taken(1), JSON.parse(run("report", document, "--json")).advice[0].springs.length);
  assert.equal(await page.locator("#sheet figure").first().locator("text").count(), guitar.bay.hook_mm.length);
  assert.ok(await page.locator("#sheet td").count() >= 3 * (2 + next.strings.length));
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a reading sharpens the answer as it does on the command line, and taken away it is as before", async () => {
  const page = await opened(desktop);
  const before = await answerOn(page);
  await operate(page, "log.add", "in tune");
  await operate(page, "log[0].tail_mm", "0,8");
  const document = await documentOn(page);
  assert.equal(JSON.parse(document).log[0].tail_mm, 0.8);
  const now = await answerOn(page);
  assert.match(now, /^Now /);
  assert.equal(now, commandLine(document));
  await operate(page, "log[0].remove", "");
  assert.equal(await answerOn(page), before);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("the address carries the set-up, and a link opens as the command line reads it", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.7");
  await written(page);
  const document = await documentOn(page);
  const link = (await page.evaluate(() => location.hash)).slice(1);
  assert.deepEqual(JSON.parse(run("open", link)), JSON.parse(document));
  const other = run("link", readFileSync(root + "tests/examples/small-sag.json")).trim();
  // Pasted into the same tab, and back again.
  await page.evaluate((l) => { location.hash = l; }, other);
  await page.waitForFunction(() => JSON.parse(window.counterpull.document()).title.startsWith("Same strings"));
  await still(page);
  await page.goBack();
  await page.waitForFunction(() => JSON.parse(window.counterpull.document()).now.tail_mm === -1.7);
  await opensAt(page, other);
  assert.match(await answerOn(page), /^Loosen each claw screw ¼ turn/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a link that was cut says so, and the page works on", async () => {
  const page = await opened(desktop);
  const link = await linkOn(page);
  await opensAt(page, link.slice(0, 40));
  await notice(page, /this link is incomplete/);
  await page.screenshot({ path: shots + "desktop-cut-link.png" });
  await page.locator("#notice .close").click();
  assert.equal(await page.locator("#notice").isVisible(), false);
  assert.match(await answerOn(page), /^Loosen each claw screw 1 turn/);
  await opensAt(page, "<img src=x onerror=alert(1)>");
  assert.equal(await page.locator("#notice img").count(), 0); // text, never markup
  await page.context().close();
});

test("a title is text wherever it is shown", async () => {
  const page = await opened(desktop);
  const title = "<img src=x onerror=alert(1)>";
  const document = await setup(page);
  assert.equal(await page.evaluate((text) => window.counterpull.open(text), JSON.stringify({ ...document, title })), "");
  await opensAt(page, await linkOn(page));
  assert.equal((await setup(page)).title, title);
  await onPaper(page);
  await operate(page, "share");
  await page.waitForSelector("#share[open]");
  assert.equal(await page.locator("#sheet .title").textContent(), title);
  assert.equal(await page.locator("img").count(), 0);
  await page.context().close();
});

test("the link is copied to the clipboard", async () => {
  const page = await opened({ ...desktop, permissions: ["clipboard-read", "clipboard-write"] });
  await press(page, "Share this set-up", () => page.locator("#share[open]").isVisible());
  await page.locator("#share .copy").click();
  await page.waitForFunction(() => document.querySelector("#share .told").textContent === "Copied.");
  assert.equal(await page.evaluate(() => navigator.clipboard.readText()), at() + "#" + await linkOn(page));
  // The answer for a forum: the command line's sentences and the link, and nothing that a forum would mangle.
  await page.locator("#share .copy-text").click();
  await page.waitForFunction(() => navigator.clipboard.readText().then((text) => text.includes("\n")));
  const text = await page.evaluate(() => navigator.clipboard.readText());
  const document = await documentOn(page);
  assert.ok(text.includes(commandLine(document)) && text.endsWith("#" + await linkOn(page)), text);
  assert.doesNotMatch(text.split("http")[0], /[*_`<>[\]#]| {2}/);
  await page.locator("#share .close").click();
  await page.context().close();
});

test("one answer stands in a frame of another site, and only that page may", async () => {
  const other = await serve(8250); // another port is another site
  after(() => other.stop());
  const page = await opened(desktop);
  const link = await linkOn(page);
  const answer = await answerOn(page);
  const host = await page.context().newPage();
  const refusals = [];
  host.on("console", (message) => { if (/frame-ancestors/.test(message.text())) refusals.push(message.text()); });
  await host.route("**/host", (route) => route.fulfill({ contentType: "text/html",
    body: `<iframe id="card" width="420" height="420" src="${at()}embed.html#${link}"></iframe><iframe src="${at()}"></iframe>` }));
  await host.goto(other.address + "host");
  const card = host.frameLocator("#card");
  await until(async () => (await card.locator("h1").textContent()) === answer, "the answer in the frame");
  assert.equal(await card.locator("a").evaluate((a) => a.href), at() + "#" + link);
  await until(async () => refusals.length > 0, "the page itself to be refused in a frame");
  await host.screenshot({ path: shots + "embedded.png" });
  await host.goto(at() + "embed.html#" + link.slice(0, 40));
  await says(host.locator("#card p").first(), /this link is incomplete/);
  await page.context().close();
});

test("Control and Z undoes, with Shift it redoes", async () => {
  const page = await opened(desktop);
  await fold(page, "Your guitar", "closed"); // so that the tail is in sight
  const stands = (mm) => async () => (await tail(page)) === mm;
  const keys = (pressed, mm) => withSecondTry(() => page.keyboard.press(pressed), stands(mm), "what comes of " + pressed);
  await press(page, "Tail stands at +", stands(-0.5));
  await press(page, "Tail stands at +", stands(0));
  await keys("Control+z", -0.5);
  await keys("Control+Shift+Z", 0);
  await press(page, "Undo", stands(-0.5));
  await press(page, "Undo", stands(-1));
  await page.context().close();
});
