// The page under fingers, and on screens of every size. Screenshots go to .build/screenshots.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { test } from "node:test";
import { answered, controls, find, flicked, inChromium, phone, still } from "./chromium.mjs";
import { commandLine as run, root, shots } from "./site.mjs";

const { open } = inChromium(8170);

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
  for (let y = 690; y >= 400; y -= 20) { await send("touchMove", 200, y); await page.waitForTimeout(16); }
  await page.waitForTimeout(300); // at rest: no glide
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
  const way = await flicked(page, 800, 600);
  assert.ok(way > 200 + 20, `${way} px, the finger's way with it`);
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

