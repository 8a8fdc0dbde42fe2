// The page in its second language: by the browser's, by choice, and where its words cannot be had.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answered, desktop, find, inChromium, phone, still } from "./chromium.mjs";
import { commandLine, shots } from "./site.mjs";

const { open, at } = inChromium(8196);
const german = { locale: "de-DE" };
const answer = (page) => page.evaluate(() => window.counterpull.answer());
const inGerman = async (page) => commandLine("report", await page.evaluate(() => window.counterpull.document()), "--language", "de");

test("a German browser gets a German page, whose answer is the command line's", async () => {
  for (const [name, screen] of [["desktop", desktop], ["phone", phone]]) {
    const page = await open({ ...screen, ...german });
    assert.equal(await page.locator("#message").textContent(), "Das Werkblatt wird geladen …");
    await answered(page);
    await still(page);
    assert.ok((await inGerman(page)).includes(await answer(page)));
    assert.equal(await page.locator("#spoken").textContent(), await answer(page));
    assert.equal(await page.locator("html").getAttribute("lang"), "de");
    assert.match(await page.title(), /schwebende Brücke/);
    assert.equal((await find(page, "section.next")).label, "Was du willst");
    await page.screenshot({ path: `${shots}${name}-german.png` });
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
});

test("the language is chosen on the page, stays chosen, and is there without a network", async () => {
  const page = await open(desktop);
  await answered(page);
  await page.evaluate(() => window.counterpull.operate("section.page"));
  await still(page);
  await page.evaluate(() => window.counterpull.operate("page.language", "Deutsch"));
  await page.waitForFunction(() => document.documentElement.lang === "de");
  await still(page);
  assert.ok((await inGerman(page)).includes(await answer(page)));
  await page.evaluate(() => window.counterpull.operate("page.notes"));
  await still(page);
  await page.waitForTimeout(600); // kept a little later
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.context().setOffline(true);
  await page.reload();
  await answered(page);
  await still(page);
  assert.equal(await page.locator("html").getAttribute("lang"), "de");
  assert.ok((await inGerman(page)).includes(await answer(page)));
  await page.evaluate(() => window.counterpull.operate("section.next.each"));
  await still(page);
  await page.evaluate(() => window.counterpull.operate("next.tuning[1]", "h1"));
  await still(page);
  assert.equal((await find(page, "next.tuning[1]")).value, "H1");
  assert.equal(JSON.parse(await page.evaluate(() => window.counterpull.document())).next.tuning[1], "B1");
  await page.evaluate(() => window.counterpull.operate("section.page"));
  await still(page);
  await page.evaluate(() => window.counterpull.operate("page.language", "English"));
  await page.waitForFunction(() => document.documentElement.lang === "en");
  await still(page);
  assert.match(await answer(page), /^Loosen each claw screw/);
  await page.context().close();
});

test("where the words cannot be had the page says so and goes on in English", async () => {
  const page = await open({ ...desktop, ...german, serviceWorkers: "block" }, () => {}, "about:blank");
  await page.route(/words-de/, (route) => route.abort());
  await page.goto(at());
  await answered(page);
  assert.match(await answer(page), /^Add a spring/);
  assert.match(await page.locator("#notice p").textContent(), /words of this language could not be loaded/);
  await page.context().close();
});
