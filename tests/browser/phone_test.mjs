// The page under fingers, and on screens of every size. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import { bring, controls, drag, find, glided, inChromium, operate, phone, resize, setup, still, tap, tapOpens } from "./chromium.mjs";
import { commandLine as run, root, shots, until, withSecondTry } from "./site.mjs";

const { opened } = inChromium(8170);

test("on a phone the answer is first, a drag scrolls, and a tap types into a real field", async () => {
  const page = await opened(phone);
  await page.screenshot({ path: shots + "phone-412x915.png" });
  const { rect } = await find(page, "answer");
  assert.ok(rect[1] >= 0 && rect[3] < 300 && rect[2] <= 412);
  for (const control of await controls(page))
    if (["button", "checkbox", "combobox", "spinbutton", "option", "heading"].includes(control.role))
      assert.ok(control.rect[3] - control.rect[1] >= 44, `${control.id} is ${control.rect[3] - control.rect[1]} px high`);
  const before = (await find(page, "section.next")).y;
  await drag(page, [200, 700], [200, 400]);
  assert.ok((await find(page, "section.next")).y < before - 100, "a drag scrolls");
  await bring(page, "section.now");
  await tap(page, "section.now", async () => (await find(page, "section.now")).value === "open");
  await page.screenshot({ path: shots + "phone-now.png" });
  await bring(page, "now.tail_mm");
  const tailIs = (mm) => async () => (await setup(page)).now.tail_mm === mm;
  await tapOpens(page, "now.tail_mm");
  await page.locator("#entry").fill("-2,5");
  await until(tailIs(-2.5), "what was typed");
  await still(page);
  await page.screenshot({ path: shots + "phone-typing.png" });
  // Number pads of many phones have no minus.
  await withSecondTry(() => page.locator("#sign").tap(), tailIs(2.5), "the sign changed");
  assert.equal(await page.evaluate(() => document.activeElement.id), "entry");
  // The keyboard takes half of the screen: the field stays in what is left.
  await resize(page, { width: 412, height: 420 });
  await until(async () => {
    const field = await page.locator("#entry").boundingBox();
    return field.y >= 0 && field.y + field.height <= 420;
  }, "the field to stand above the keyboard");
  await resize(page, phone.viewport);
  await page.keyboard.press("Enter");
  await page.context().close();
});

test("a finger drawn sideways over a number changes it step by step, and does not scroll", async () => {
  const page = await opened(phone);
  await operate(page, "section.sharper");
  await bring(page, "guitar.spring.free_length_mm");
  const field = await find(page, "guitar.spring.free_length_mm");
  const x = (field.rect[0] + field.rect[2]) / 2, y = (field.rect[1] + field.rect[3]) / 2;
  const changed = async () => parseFloat((await find(page, field.id)).value) > parseFloat(field.value);
  await withSecondTry(() => drag(page, [x, y], [x + 45, y]), changed, field.id + " to have grown");
  assert.equal(await page.locator("#entry").isVisible(), false);
  await page.context().close();
});

test("a flick of the finger goes on after it is lifted, and comes to rest", async () => {
  const page = await opened(phone);
  const way = await glided(page, 800, 600, 200 + 20);
  assert.ok(way > 200 + 20, `${way} px, the finger's way with it`);
  await page.context().close();
});

test("turned on its side and back, a phone shows the answer", async () => {
  const page = await opened(phone);
  for (const viewport of [{ width: 915, height: 412 }, { width: 360, height: 740 }, phone.viewport]) {
    await resize(page, viewport);
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
    const page = await opened({ viewport: { width, height }, deviceScaleFactor, isMobile: small, hasTouch: small });
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

test("a sheet over the page, unseen: the focus goes there, what it covers is out of reach, and Escape leads back", async () => {
  const page = await opened(phone);
  const focused = () => page.evaluate(() => document.activeElement.getAttribute("aria-label") ?? document.activeElement.textContent);
  const name = (await find(page, "said.now.springs")).label;
  assert.ok((await page.locator("#mirror p").allTextContents()).includes("Answer: " + (await find(page, "answer")).value));
  const twin = page.locator("#mirror button").filter({ hasText: name });
  await twin.focus();
  await page.keyboard.press("Enter");
  await until(async () => await focused() === "Close", "the focus in the sheet");
  const covered = (await controls(page)).filter((one) => one.covered).length;
  assert.ok(covered > 20);
  assert.equal(await page.locator("#mirror > [inert]").count(), covered);
  await page.keyboard.press("Tab");
  assert.match(await focused(), /^Hook 1/);
  await page.keyboard.press("Escape");
  await until(async () => await focused() === name, "the focus where it was");
  assert.equal(await page.locator("#mirror > [inert]").count(), 0);
  await page.context().close();
});
