// The page in its second language: by the browser's, by choice, and where its words cannot be had.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answerOn, answered, desktop, documentOn, find, inChromium, notice, offlineReady, operate, phone, reload, setup, still } from "./chromium.mjs";
import { commandLine, shots } from "./site.mjs";

const { open, opened, at } = inChromium(8196);
const german = { locale: "de-DE" };
const inGerman = async (page) => commandLine("report", await documentOn(page), "--language", "de");

test("a German browser gets a German page, whose answer is the command line's", async () => {
  for (const [name, screen] of [["desktop", desktop], ["phone", phone]]) {
    const page = await open({ ...screen, ...german });
    assert.equal(await page.locator("#message").textContent(), "Das Werkblatt wird geladen …");
    await answered(page);
    assert.ok((await inGerman(page)).includes(await answerOn(page)));
    assert.equal(await page.locator("#spoken").textContent(), await answerOn(page));
    assert.equal(await page.locator("html").getAttribute("lang"), "de");
    assert.match(await page.title(), /schwebende Brücke/);
    assert.equal((await find(page, "section.next")).label, "Was du willst");
    await page.screenshot({ path: `${shots}${name}-german.png` });
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
});

test("the language is chosen on the page, stays chosen, and is there without a network", async () => {
  const page = await opened(desktop);
  await operate(page, "section.page");
  await operate(page, "page.language", "Deutsch");
  await page.waitForFunction(() => document.documentElement.lang === "de");
  await still(page);
  assert.ok((await inGerman(page)).includes(await answerOn(page)));
  await operate(page, "page.notes");
  await page.waitForFunction(() => /"de".*"own"/.test(localStorage.getItem("counterpull.preferences"))); // a little later
  await offlineReady(page);
  await page.context().setOffline(true);
  await reload(page);
  assert.equal(await page.locator("html").getAttribute("lang"), "de");
  assert.ok((await inGerman(page)).includes(await answerOn(page)));
  await operate(page, "section.next.each");
  await operate(page, "next.tuning[1]", "h1");
  assert.equal((await find(page, "next.tuning[1]")).value, "H1");
  assert.equal((await setup(page)).next.tuning[1], "B1");
  await operate(page, "section.page");
  await operate(page, "page.language", "English");
  await page.waitForFunction(() => document.documentElement.lang === "en");
  await still(page);
  assert.match(await answerOn(page), /^Loosen each claw screw/);
  await page.context().close();
});

test("where the words cannot be had the page says so and goes on in English", async () => {
  const page = await open({ ...desktop, ...german, serviceWorkers: "block" }, () => {}, "about:blank");
  await page.route(/words-de/, (route) => route.abort());
  await page.goto(at());
  await answered(page);
  assert.match(await answerOn(page), /^Loosen each claw screw 1 turn/);
  await notice(page, /words of this language could not be loaded/);
  await page.context().close();
});
