// The page in other languages than English: by the browser's, by choice, and where its words cannot be had; and letters that
// no language of ours has.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answerOn, answered, desktop, documentOn, find, inChromium, notice, offlineReady, operate, phone, reload, setup, still } from "./chromium.mjs";
import { commandLine, shots, until } from "./site.mjs";

const { open, opened, at } = inChromium(8196);
const german = { locale: "de-DE" };
const inGerman = async (page) => commandLine("report", await documentOn(page), "--language", "de");

test("a German browser gets a German page, whose answer is the command line's", async () => {
  for (const [name, screen] of Object.entries({ desktop, phone })) {
    const page = await open({ ...screen, ...german });
    await answered(page);
    assert.equal(await page.locator("#message").textContent(), "Das Werkblatt wird geladen …"); // as it was covered last
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
  for (const part of [/words-de/, /faces-de/]) {
    await page.route(part, (route) => route.abort());
    await page.goto("about:blank");
    await page.goto(at());
    await answered(page);
    assert.match(await answerOn(page), /^Loosen each claw screw 1 turn/);
    assert.equal(await page.locator("html").getAttribute("lang"), "en");
    await notice(page, /words of this language could not be loaded/);
    await page.unroute(part);
  }
  await page.context().close();
});

// RFC 4647, section 3.4: each range as it is, then without its last subtags; the first of them that there is.
/** @type {[string[], string][]} */
const wanting = [[["es-MX", "en"], "es"], [["fr-CA"], "fr"], [["it"], "it"], [["pt-BR", "pt"], "pt"], [["pl-PL"], "pl"],
  [["ja-JP", "de-Latn-CH-1996", "fr"], "de"], [["DE"], "de"], [["den", "spa", "*"], "en"], [["zh-Hant-TW"], "en"]];
for (const [languages, wanted] of wanting)
  test(`a browser that wants ${languages.join(", ")} gets ${wanted}, and no file of another`, async () => {
    const page = await opened(phone, `Object.defineProperty(navigator, "languages", { get: () => ${JSON.stringify(languages)} })`);
    const files = page.requests.map((url) => url.match(/(?:words|faces)-[a-z]+/)?.[0]).filter(Boolean);
    assert.deepEqual(files.sort(), wanted === "en" ? [] : [`faces-${wanted}`, `words-${wanted}`]);
    assert.equal(await page.locator("html").getAttribute("lang"), wanted);
    const said = commandLine("report", await documentOn(page), "--language", wanted);
    assert.ok(said.includes(await answerOn(page)));
    assert.ok(!page.requests.some((url) => /drawn_words/.test(url)), "a letter of the language is in no face");
    await page.screenshot({ path: `${shots}phone-${wanted}.png` });
    assert.deepEqual(page.problems, []);
    await page.context().close();
  });

test("no dialog cuts a text on a phone of 360 px, in any language", async () => {
  for (const locale of ["en", "de", "es", "fr", "it", "pl", "pt"]) {
    const page = await opened({ ...phone, viewport: { width: 360, height: 740 }, locale });
    for (const dialog of ["notebook", "share"]) {
      await operate(page, dialog);
      await page.locator(`#${dialog}[open] h2`).waitFor();
      const cut = await page.evaluate(() => [...document.querySelectorAll("dialog[open], dialog[open] :not(input)")]
        .filter((part) => getComputedStyle(part).display !== "inline" && part.scrollWidth > part.clientWidth + 1).map((part) => part.textContent));
      assert.deepEqual(cut, [], `${locale}, ${dialog}`);
      await page.keyboard.press("Escape");
    }
    await page.context().close();
  }
});

test("a title in any script is drawn by the browser, and never as a box", async () => {
  const page = await opened(desktop);
  await operate(page, "whose.own");
  await operate(page, "title", "Гитара Łucji – سلام – Ζωή’s");
  await still(page);
  const field = await find(page, "title");
  assert.equal(field.value, "Гитара Łucji – سلام – Ζωή’s");
  const [left, top, right, bottom] = field.rect, clip = { x: left, y: top, width: right - left, height: bottom - top };
  const ink = async () => inkOf(page, await page.screenshot({ clip }));
  // The field's ink: as much of it, and as far, as where the browser itself draws the same words over it.
  await page.evaluate(({ x, y, width, height }) => {
    const over = document.createElement("div");
    over.id = "over";
    over.textContent = "Гитара Łucji – سلام – Ζωή’s";
    over.style.cssText = `position:fixed;z-index:9;left:${x}px;top:${y}px;width:${width}px;height:${height}px;padding-left:12px;box-sizing:border-box;background:#fcfaf5;color:#23272b;font:13.2px/${height}px Inter,system-ui,sans-serif`;
    document.body.append(over);
  }, clip);
  const same = await ink();
  await page.evaluate(() => document.getElementById("over").remove());
  const drawn = await until(async () => { const now = await ink(); return now.ink > 0.6 * same.ink && now; }, "the words to be drawn");
  await page.screenshot({ path: `${shots}desktop-title.png` });
  assert.ok(drawn.ink < 1.5 * same.ink, `${drawn.ink} of ${same.ink} dots are ink`);
  assert.ok(Math.abs(drawn.last - same.last) < 0.12 * same.last, `${drawn.last} px where the browser has ${same.last}`);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

// How many dots of a picture are dark, and how far to the right, its frame left out.
async function inkOf(page, png) {
  const decoder = await page.context().newPage(); // that has no policy against it
  const ink = await decoder.evaluate(countInk, png.toString("base64"));
  await decoder.close();
  return ink;
}
async function countInk(data) {
  const picture = await createImageBitmap(await (await fetch("data:image/png;base64," + data)).blob());
  const canvas = new OffscreenCanvas(picture.width, picture.height), context = canvas.getContext("2d");
  context.drawImage(picture, 0, 0);
  const { data: dots } = context.getImageData(0, 0, canvas.width, canvas.height);
  let ink = 0, last = 0;
  for (let y = 4; y < canvas.height - 4; ++y)
    for (let x = 6; x < canvas.width - 6; ++x)
      if (dots[4 * (y * canvas.width + x)] < 110) { ++ink; last = Math.max(last, x); }
  return { ink, last };
}
