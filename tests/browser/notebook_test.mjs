// The notebook in a real Chromium: what is kept, and that nothing is lost by links, tabs, files or torn storage.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import axe from "axe-core";
import { answered, controls, desktop, guitars, inChromium, notice, operate, phone, reload, says, setup, showNotebook, still, written } from "./chromium.mjs";
import { commandLine, root, shots, until } from "./site.mjs";

const { opened, opensAt, at } = inChromium(8197);
const example = readFileSync(root + "tests/examples/small-sag.json", "utf8");
const tails = async (page) => (await guitars(page)).map(({ now }) => now.tail_mm).sort();

test("a link opened and changed is a guitar of its own; the own one is there as it was", async () => {
  const page = await opened(desktop);
  assert.deepEqual(await guitars(page), [], "nothing is kept before anything is changed");
  await operate(page, "now.tail_mm", "-1.5");
  await written(page);
  const link = commandLine("link", example).trim();
  await opensAt(page, link);
  assert.equal((await setup(page)).title, JSON.parse(example).title);
  assert.equal((await guitars(page)).length, 1, "a link only looked at is not kept");
  await operate(page, "now.tail_mm", "2");
  await written(page);
  assert.deepEqual(await tails(page), [-1.5, 2]);
  await reload(page); // its own link stands in the address
  await operate(page, "now.tail_mm", "2.5");
  await written(page);
  assert.deepEqual(await tails(page), [-1.5, 2.5], "still the same guitar");
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a link opened just after a change: both are there, and the link is what is opened", async () => {
  const page = await opened(desktop);
  const link = commandLine("link", example).trim();
  await page.evaluate((hash) => { // before the change is due to be written
    window.counterpull.operate("now.tail_mm", "-1.5");
    return new Promise((done) => { setTimeout(() => { location.hash = hash; done(); }, 150); });
  }, link);
  await until(async () => (await setup(page)).title === JSON.parse(example).title, "what the link says");
  assert.deepEqual(await tails(page), [-1.5]);
  assert.equal(new URL(page.url()).hash, "#" + link);
  await page.context().close();
});

test("a guitar that is gone when it is opened is told of, and the one on the page stays", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.5");
  await written(page);
  await showNotebook(page);
  await page.locator("#notebook").getByRole("button", { name: /^Duplicate/ }).click();
  await page.getByRole("heading", { name: /\(copy\)/ }).waitFor();
  await page.evaluate(() => localStorage.removeItem("counterpull.guitar." + window.counterpull.guitars().find(({ setup: text }) => JSON.parse(text).title.includes("(copy)")).id));
  await page.locator("#notebook").getByRole("button", { name: /^Open: .*\(copy\)/ }).click();
  await says(page.locator("#notebook .told"), /changed in another tab/);
  assert.equal((await setup(page)).now.tail_mm, -1.5);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("rename, duplicate, delete and put back, open another, by what a screen reader is told", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.5");
  await written(page);
  await showNotebook(page);
  const button = (name) => page.locator("#notebook").getByRole("button", { name });
  await button(/^Rename/).click();
  await page.getByLabel("Name of the guitar or set-up").fill("Upstairs <b>guitar</b>");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Upstairs <b>guitar</b>", exact: true }).waitFor();
  assert.equal((await setup(page)).title, "Upstairs <b>guitar</b>");
  await button(/^Duplicate/).click();
  await page.getByRole("heading", { name: "Upstairs <b>guitar</b> (copy)" }).waitFor();
  await page.screenshot({ path: shots + "desktop-notebook.png" });
  await button("Delete: Upstairs <b>guitar</b> (copy)").click();
  assert.equal((await guitars(page)).length, 1);
  await button("Put it back").click();
  assert.equal((await guitars(page)).length, 2);
  await button("Open: Upstairs <b>guitar</b> (copy)").click();
  await still(page);
  assert.equal((await setup(page)).title, "Upstairs <b>guitar</b> (copy)");
  assert.ok(!(await controls(page)).some(({ id, enabled }) => id === "undo" && enabled), "nothing of the other guitar to undo");
  await operate(page, "now.tail_mm", "1");
  await written(page);
  assert.deepEqual(await tails(page), [-1.5, 1]);
  await page.goBack();
  await until(async () => (await setup(page)).title === "Upstairs <b>guitar</b>", "the guitar before");
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("each sitting and each reading is a step in a guitar's history, and one can go back to it", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.5");
  await written(page);
  await operate(page, "now.tail_mm", "-1.25"); // of the same sitting
  await written(page);
  await reload(page);
  await operate(page, "now.tail_mm", "-2");
  await written(page);
  await operate(page, "section.readings");
  await operate(page, "section.readings");
  await operate(page, "log.add", "in tune");
  await operate(page, "log[0].confirm");
  await written(page);
  await showNotebook(page);
  const history = page.locator("#notebook details");
  await history.locator("summary").click();
  assert.equal(await history.locator("li").count(), 2, "before the second sitting, before the reading");
  await page.screenshot({ path: shots + "desktop-notebook-history.png" });
  await history.getByRole("button").nth(1).click(); // the older one
  await still(page);
  assert.equal((await setup(page)).now.tail_mm, -1.25);
  assert.ok(!(await setup(page)).log?.length);
  await operate(page, "undo");
  assert.equal((await setup(page)).log.length, 1, "going back can be undone");
  await page.context().close();
});

test("two tabs on one guitar: both changes are kept, and each is told", async () => {
  const first = await opened(desktop);
  await operate(first, "now.tail_mm", "-1.5");
  await written(first);
  const second = await first.context().newPage();
  await second.goto(at());
  await answered(second);
  assert.equal((await setup(second)).now.tail_mm, -1.5);
  await operate(second, "now.tail_mm", "-3");
  await written(second);
  await first.bringToFront();
  await notice(first, /changed in another tab/);
  await operate(first, "now.tail_mm", "-0.5");
  await written(first);
  await notice(first, /kept as one more/);
  assert.deepEqual(await tails(first), [-0.5, -3]);
  await operate(second, "now.tail_mm", "-4");
  await written(second);
  assert.deepEqual(await tails(first), [-0.5, -4]);
  await first.context().close();
});

test("exported and imported, one and all; what is refused is said with its place", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.5");
  await written(page);
  await reload(page);
  await operate(page, "now.tail_mm", "-2");
  await written(page);
  await showNotebook(page);
  const download = async (name) => {
    const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#notebook").getByRole("button", { name }).click()]);
    return readFileSync(await file.path(), "utf8");
  };
  const one = await download(/^Export:/), all = await download("Export all");
  assert.equal(JSON.parse(commandLine("report", one, "--json")).format, "counterpull-report/1");
  assert.equal(JSON.parse(all).guitars[0].history[0].setup.now.tail_mm, -1.5);
  await page.evaluate(() => localStorage.clear());
  await opensAt(page, "");
  await showNotebook(page);
  const bad = JSON.parse(all);
  bad.guitars.push({ setup: { ...bad.guitars[0].setup, a4_hz: 4 } });
  await page.locator("#notebook input[type=file]").setInputFiles([
    { name: "all.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(bad)) },
    { name: "song.txt", mimeType: "text/plain", buffer: Buffer.from("la la") }]);
  const told = await says(page.locator("#notebook .told"), /taken into/);
  assert.match(told, /notebook: 1\. all\.json: guitars\[1\]: .*a4_hz: 4 is outside 390 to 470.*song\.txt: .*not JSON/s);
  await page.locator("#notebook details summary").click();
  assert.equal(await page.locator("#notebook details li").count(), 1);
  await page.context().close();
});

test("a file dropped on the page opens, and is kept", async () => {
  const page = await opened(desktop);
  const drop = (text) => page.evaluate((content) => {
    const data = new DataTransfer();
    data.items.add(new File([content], "my guitar.json"));
    for (const kind of ["dragover", "drop"]) document.getElementById("canvas").dispatchEvent(new DragEvent(kind, { dataTransfer: data, bubbles: true, cancelable: true }));
  }, text);
  await drop(example);
  await notice(page, /taken into/);
  await still(page);
  assert.equal((await setup(page)).title, JSON.parse(example).title);
  assert.equal((await guitars(page)).length, 1);
  await drop("{ \"format\": \"counterpull-setup/1\" }");
  await notice(page, /my guitar\.json: guitar: missing/);
  assert.equal((await setup(page)).title, JSON.parse(example).title);
  // One of the longest name is a file of a shorter one, of its kind still.
  await drop(JSON.stringify({ ...JSON.parse(example), title: "a".repeat(80) }));
  await until(async () => (await setup(page)).title.length === 80, "the next one");
  await showNotebook(page);
  const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#notebook").getByRole("button", { name: /^Export: aaa/ }).click()]);
  assert.equal(file.suggestedFilename(), "a".repeat(64) + ".json");
  await page.context().close();
});

test("a file dropped where nothing can be kept opens all the same, and that is said", async () => {
  const page = await opened(desktop, () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; });
  await page.evaluate((content) => {
    const data = new DataTransfer();
    data.items.add(new File([content], "my guitar.json"));
    document.getElementById("canvas").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
  }, example);
  await until(async () => (await setup(page)).title === JSON.parse(example).title, "what the file says");
  assert.doesNotMatch(await notice(page, /keeps nothing/), /taken into/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("the notebook on a phone: no violation, large enough to touch, nothing beside the screen", async () => {
  const page = await opened({ ...phone, bypassCSP: true });
  await operate(page, "section.now");
  await operate(page, "now.tail_mm", "-1.5");
  await written(page);
  await showNotebook(page);
  assert.equal(await page.locator("#notebook h3").count(), 1);
  await page.screenshot({ path: shots + "phone-notebook.png" });
  await page.evaluate(axe.source);
  const found = await page.evaluate(() => window.axe.run(document));
  assert.deepEqual(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`), []);
  const boxes = await page.locator("#notebook button").evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()));
  for (const box of boxes) assert.ok(box.height >= 44 && box.left >= 0 && box.right <= 412, JSON.stringify(box));
  await page.context().close();
});
