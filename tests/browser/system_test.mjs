// What a reader's system asks for: its own colours, and that nothing moves by itself.
import assert from "node:assert/strict";
import { test } from "node:test";
import { desktop, glided, inChromium, phone } from "./chromium.mjs";
import { shots, until } from "./site.mjs";

const { opened } = inChromium(8199);
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
const drawnIn = (page, colour) => until(async () => String(await pixel(page, 5, 5)) === String(colour), "the colour " + colour);
const system = (page, name) => page.evaluate((colour) => {
  const probe = document.body.appendChild(document.createElement("i"));
  probe.style.color = colour;
  const list = getComputedStyle(probe).color.match(/\d+/g).map(Number);
  probe.remove();
  return list;
}, name);

test("forced colours are taken over into the drawing, and given back", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const page = await opened({ ...desktop, colorScheme, bypassCSP: true });
    const own = await pixel(page, 5, 5);
    await page.emulateMedia({ forcedColors: "active", colorScheme });
    const theirs = await system(page, "Canvas");
    assert.notDeepEqual(theirs, own);
    await drawnIn(page, theirs);
    await page.screenshot({ path: `${shots}desktop-forced-${colorScheme}.png` });
    await page.emulateMedia({ forcedColors: "none", colorScheme });
    await drawnIn(page, own);
    await page.context().close();
  }
});

test("with reduced motion a flick scrolls no further than the finger went", async () => {
  const travelled = {};
  for (const reducedMotion of ["no-preference", "reduce"]) {
    const page = await opened({ ...phone, reducedMotion });
    travelled[reducedMotion] = await glided(page, 700, 600, reducedMotion === "reduce" ? 50 : 120);
    await page.context().close();
  }
  assert.ok(travelled.reduce > 50 && travelled.reduce <= 101, `${travelled.reduce} px for the 100 px of the finger`);
  assert.ok(travelled["no-preference"] > 120, JSON.stringify(travelled));
});
