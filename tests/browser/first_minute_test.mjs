// The first minute in a real Chromium: on every screen whose guitar it is and what to do, and on a phone the whole of it by
// touch, taps counted: an own guitar described and answered, the bench begun. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answerOn, controls, documentOn, find, guitars, inChromium, linkOn, operate, phone, reload, setup, still, tap, tapOpens, written } from "./chromium.mjs";
import { answerOf, root, shots, until } from "./site.mjs";
import { readFileSync } from "node:fs";

const { opened, opensAt } = inChromium(8270);
const thumb = 70; // px under the thumb, at the foot of a phone

test("on every screen, by day and by night, in both languages, the first sight says whose guitar it is and what to do", async () => {
  for (const [width, height, deviceScaleFactor] of [[360, 740, 3], [390, 844, 3], [412, 915, 2.6], [1280, 800, 1], [1920, 1080, 1]])
    for (const [locale, colorScheme] of [["en", "light"], ["en", "dark"], ["de", "light"], ["de", "dark"]]) {
      const small = width < 1000;
      const page = await opened({ viewport: { width, height }, deviceScaleFactor, isMobile: small, hasTouch: small, locale, colorScheme });
      const where = `${width}x${height}-${locale}-${colorScheme}`;
      const { rect: whose, value } = await find(page, "whose");
      assert.match(value, locale === "en" ? /^An example, not your guitar/ : /^Ein Beispiel, nicht die eigene/);
      const own = await find(page, "whose.own"), answer = await find(page, "answer"), bench = await find(page, "job.open");
      for (const rect of [whose, own.rect, answer.rect, bench.rect])
        assert.ok(rect[0] >= 0 && rect[1] >= 0 && rect[2] <= width && rect[3] <= height, `${where}: ${rect}`);
      if (small) {
        assert.ok(whose[1] < answer.rect[1], where + ": whose it is stands first");
        for (const control of await controls(page))
          if (control.id.startsWith("said.")) {
            assert.ok(control.rect[1] >= answer.rect[3] && control.rect[3] - control.rect[1] >= 44, `${where}: ${control.id} at ${control.rect}`);
            if (height > 800) assert.ok(control.rect[3] <= height - thumb, `${where}: ${control.id} at ${control.rect}`);
          }
      }
      await page.screenshot({ path: `${shots}first-${where}.png` });
      assert.deepEqual(page.problems, []);
      await page.context().close();
    }
});

test("on a phone an own guitar is described and answered by at most 14 taps, typing apart, and the bench begun", async (t) => {
  const page = await opened(phone);
  let taps = 0;
  const touched = (id, came) => { ++taps; return tap(page, id, came); };
  const typed = async (id, text, came) => {
    ++taps;
    await tapOpens(page, id);
    await page.locator("#entry").fill(text);
    await until(came, text + " in " + id);
    await page.keyboard.press("Enter");
    await still(page);
  };
  // A list opens at what is chosen; one that is out of sight is sought by typing, which takes a tap more.
  const picked = async (id, wanted, came) => {
    const option = async () => (await controls(page)).find(({ role, label, rect }) => role === "option" && label === wanted && rect[3] <= 915 && rect[1] > 0);
    await touched(id, async () => (await controls(page)).some(({ role }) => role === "option"));
    if (!await option()) {
      ++taps;
      await tapOpens(page, "list.sought");
      await page.locator("#entry").fill(wanted);
      await until(option, wanted + " to be found");
    }
    const { id: found } = await option();
    await touched(found, came);
  };
  const is = (ask) => async () => ask(await setup(page));
  await touched("whose.own", is(({ title }) => !title));
  await typed("title", "Ash body", is(({ title }) => title === "Ash body"));
  await picked("said.guitar.bridge", "two-post, not locking", is(({ guitar }) => guitar.bridge.kind === "two posts"));
  await picked("said.now.strings", "9–42", is(({ now }) => now.strings[5].gauge_in === 0.009));
  await picked("said.now.tuning", "E flat standard", is(({ now }) => now.tuning[0] === "Eb2"));
  await typed("said.now.tail_mm", "1,5", is(({ now }) => now.tail_mm === 1.5));
  await picked("said.next.strings", "11–48", is(({ next }) => next.strings[5].gauge_in === 0.011));
  await picked("said.next.tuning", "D standard", is(({ next }) => next.tuning[0] === "D2"));
  t.diagnostic(`${taps} taps`);
  assert.ok(taps <= 14, `${taps} taps`);
  assert.equal(await answerOn(page), answerOf(await documentOn(page)));
  await page.screenshot({ path: shots + "first-described.png" });
  // Nothing of the example is left, and it is kept under its own name.
  const text = await documentOn(page);
  assert.ok(!text.includes("Ferry Street"));
  await written(page);
  assert.equal((await guitars(page))[0].title, "Ash body");
  await reload(page);
  assert.equal(await documentOn(page), text);
  assert.equal((await find(page, "title")).value, "Ash body");
  // Hooks are touched, the bench is under the thumb.
  await tap(page, "said.now.springs", async () => (await controls(page)).some(({ id }) => id === "now.springs.hook[1]"));
  await tap(page, "now.springs.hook[1]", is(({ now }) => now.springs.length === 4));
  await page.screenshot({ path: shots + "first-hooks.png" });
  await tap(page, "over.close", async () => !(await controls(page)).some(({ id }) => id === "now.springs.hook[1]"));
  await tap(page, "job.open", async () => (await controls(page)).some(({ id }) => id === "job.done"));
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("an example that was changed and said to be one's own is one guitar in the notebook, without its name", async () => {
  const page = await opened(phone);
  await operate(page, "said.now.tail_mm", "-2");
  await written(page);
  assert.equal((await guitars(page)).length, 1);
  await operate(page, "whose.mine");
  await until(async () => (await guitars(page))[0].title === undefined, "its name to be gone");
  assert.equal((await guitars(page)).length, 1);
  assert.equal((await guitars(page))[0].now.tail_mm, -2);
  await page.context().close();
});

test("who comes by a link is asked whose guitar it is; said to be one's own, it is in the notebook", async () => {
  const page = await opened(phone);
  assert.equal(await page.evaluate((text) => window.counterpull.open(text), readFileSync(root + "tests/examples/small-sag.json", "utf8")), "");
  await written(page);
  const link = await linkOn(page), document = await documentOn(page);
  await page.evaluate(() => { localStorage.clear(); sessionStorage.clear(); });
  await opensAt(page, link);
  assert.match((await find(page, "whose")).value, /^From a link: .* Is this your guitar\?$/);
  assert.equal((await guitars(page)).length, 0);
  await page.screenshot({ path: shots + "first-link.png" });
  await operate(page, "whose.mine");
  await until(async () => (await guitars(page)).length === 1, "it to be kept");
  assert.equal(await documentOn(page), document);
  await operate(page, "whose.another");
  await until(async () => !(await setup(page)).title, "another one to be begun");
  assert.equal((await guitars(page)).length, 2);
  await page.goBack();
  await until(async () => (await documentOn(page)) === document, "the way back");
  assert.deepEqual(page.problems, []);
  await page.context().close();
});
