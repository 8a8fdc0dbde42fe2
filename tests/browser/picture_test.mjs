// Drawings saved as pictures, in a real Chromium.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { test } from "node:test";
import { controls, desktop, inChromium, operate, still } from "./chromium.mjs";
import { shots } from "./site.mjs";

const { opened } = inChromium(8198);
async function saved(page, button) {
  const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#picture").getByRole("button", { name: button }).click()]);
  return { name: file.suggestedFilename(), data: readFileSync(await file.path()) };
}

test("each drawing is saved as SVG and PNG, with its title and what it shows", async () => {
  const page = await opened(desktop);
  await operate(page, "log.add", "in tune");
  await operate(page, "log[0].tail_mm", "0.5");
  const drawings = (await controls(page)).filter(({ id }) => id.endsWith(".save"));
  assert.ok(drawings.length >= 3, drawings.map(({ id }) => id).join());
  for (const { id } of drawings) {
    await operate(page, id);
    await page.locator("#picture[open] img").waitFor();
    const told = (await controls(page)).find((one) => one.id === id.replace(".save", ""));
    const svg = await saved(page, "Save as SVG");
    assert.equal(svg.name, "Ferry Street rehearsal guitar down to C.svg");
    const text = svg.data.toString();
    // Well formed, by the browser's own reader, and nothing lies outside.
    const read = await page.evaluate((source) => {
      const parsed = new DOMParser().parseFromString(source, "image/svg+xml");
      const words = [...parsed.querySelectorAll("text")].map((one) => one.textContent).join(" ");
      const holder = document.body.appendChild(document.importNode(parsed.documentElement, true));
      const frame = holder.getBoundingClientRect();
      const outside = [...holder.querySelectorAll("text")].map((one) => one.getBoundingClientRect())
        .filter((box) => box.left < frame.left || box.right > frame.right || box.top < frame.top || box.bottom > frame.bottom).length;
      holder.remove();
      return { words, outside, broken: parsed.querySelector("parsererror") !== null, drawn: parsed.querySelectorAll("g > *").length };
    }, text);
    assert.equal(read.broken, false);
    assert.equal(read.outside, 0);
    assert.ok(read.drawn > 5);
    assert.ok(read.words.includes("Ferry Street rehearsal guitar: down to C"), read.words);
    assert.ok(read.words.replace(/\s+/g, " ").includes(told.value.replace(/\s+/g, " ")), told.value);
    const png = await saved(page, "Save as PNG");
    assert.deepEqual([...png.data.subarray(0, 8)], [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]); // PNG, W3C recommendation, 5.2
    assert.equal(png.data.readUInt32BE(16), 2 * Math.round(Number(/width="([\d.]+)"/.exec(text)[1])));
    writeFileSync(`${shots}picture-${told.id.replace(" ", "-")}.png`, png.data);
    await page.locator("#picture").getByRole("button", { name: "Close" }).click();
  }
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("text in a picture has the width of its own face, and is not squeezed", async () => {
  const page = await opened(desktop);
  for (const id of ["side view.save", "back view.save"]) {
    await operate(page, id);
    await page.locator("#picture[open] img").waitFor();
    const { data } = await saved(page, "Save as SVG");
    // The face that the page is drawn with is on this machine; the browser's own measure of it.
    const squeezed = await page.evaluate(async (source) => {
      const texts = [...new DOMParser().parseFromString(source, "image/svg+xml").querySelectorAll("text")];
      const pen = document.createElement("canvas").getContext("2d");
      return texts.filter((one) => one.textContent.length > 3).map((one) => {
        const widths = ["400", "600"].map((weight) => {
          pen.font = `${weight} ${one.getAttribute("font-size")}px Inter`;
          return pen.measureText(one.textContent).width / Number(one.getAttribute("textLength"));
        });
        return { text: one.textContent, widths };
      }).filter(({ widths }) => widths.every((width) => Math.abs(width - 1) > 0.05));
    }, data.toString());
    assert.deepEqual(squeezed, []);
    await page.locator("#picture").getByRole("button", { name: "Close" }).click();
  }
  await page.context().close();
});

test("a title with markup in it is text in the picture too", async () => {
  const page = await opened(desktop);
  await page.evaluate(() => window.counterpull.open(JSON.stringify({ ...JSON.parse(window.counterpull.document()), title: "<script>alert(1)</script> & co" })));
  await still(page);
  await operate(page, "side view.save");
  await page.locator("#picture[open] img").waitFor();
  const { data } = await saved(page, "Save as SVG");
  assert.ok(data.toString().includes("&lt;script&gt;alert(1)&lt;/script&gt; &amp; co"));
  assert.ok(!data.toString().includes("<script"));
  await page.context().close();
});
