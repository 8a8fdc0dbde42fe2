// What a reader's system asks for: its own colours, and that nothing moves by itself.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answered, desktop, inChromium, phone, still } from "./chromium.mjs";
import { shots } from "./site.mjs";

const { open } = inChromium(8199);
// The colour drawn at a place of the canvas, from a picture of the page.
const pixel = async (page, x, y) => {
  const shot = (await page.screenshot()).toString("base64");
  return page.evaluate(async ([data, px, py]) => {
    const image = new Image();
    image.src = "data:image/png;base64," + data;
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [image.width, image.height];
    const context = canvas.getContext("2d");
    context.drawImage(image, 0, 0);
    return [...context.getImageData(px, py, 1, 1).data].slice(0, 3);
  }, [shot, x, y]);
};
const system = (page, name) => page.evaluate((colour) => {
  const probe = document.body.appendChild(document.createElement("i"));
  probe.style.color = colour;
  const list = getComputedStyle(probe).color.match(/\d+/g).map(Number);
  probe.remove();
  return list;
}, name);

test("forced colours are taken over into the drawing, and given back", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const page = await open({ ...desktop, colorScheme, bypassCSP: true });
    await answered(page);
    const own = await pixel(page, 5, 5);
    await page.emulateMedia({ forcedColors: "active", colorScheme });
    await still(page);
    assert.deepEqual(await pixel(page, 5, 5), await system(page, "Canvas"));
    assert.notDeepEqual(await pixel(page, 5, 5), own);
    await page.screenshot({ path: `${shots}desktop-forced-${colorScheme}.png` });
    await page.emulateMedia({ forcedColors: "none", colorScheme });
    await still(page);
    assert.deepEqual(await pixel(page, 5, 5), own);
    await page.context().close();
  }
});

test("with reduced motion a flick scrolls no further than the finger went", async () => {
  const travelled = {};
  for (const reducedMotion of ["no-preference", "reduce"]) {
    const page = await open({ ...phone, reducedMotion });
    await answered(page);
    await still(page);
    const top = () => page.evaluate(() => window.counterpull.controls().find(({ id }) => id === "section.next").rect[1]);
    const touch = (await page.context().newCDPSession(page));
    const send = (type, y) => touch.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x: 200, y }] });
    await send("touchStart", 700);
    for (let y = 690; y >= 540; y -= 15) await send("touchMove", y);
    await page.waitForTimeout(400); // a finger on the screen keeps it awake
    const held = await top();
    await send("touchMove", 525);
    await send("touchMove", 510);
    await send("touchEnd", 510);
    await still(page);
    travelled[reducedMotion] = held - await top();
    await page.context().close();
  }
  assert.ok(travelled.reduce <= 31, `${travelled.reduce} px for the 30 px of the finger`);
  assert.ok(travelled["no-preference"] > travelled.reduce + 10, JSON.stringify(travelled));
});
