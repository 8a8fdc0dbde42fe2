// How long the page takes on a slow phone, beside an empty window of the same libraries (empty_page.cpp) in the same run:
// first answer on screen on a first and a second visit, and script time per frame while a number is dragged.
// Chromium with phone emulation, 1.6 Mbit/s and 150 ms, processor 4 times slower. Graphics are drawn by software here,
// which phones do not: their frames are faster than these. page.mjs [ROUNDS]
import { readFileSync, rmSync, mkdirSync, writeFileSync } from "node:fs";
import { brotliCompressSync } from "node:zlib";
import { chromium } from "playwright-core";
import { chromiumFlags, root, serve } from "../browser/site.mjs";

const rounds = Number(process.argv[2] ?? 3);
const phone = { viewport: { width: 412, height: 915 }, deviceScaleFactor: 2.6, isMobile: true, hasTouch: true };

// The empty window, packed as the page is.
const emptyFolder = root + ".build/site-empty";
rmSync(emptyFolder, { recursive: true, force: true });
mkdirSync(emptyFolder, { recursive: true });
const put = (name, data) => {
  writeFileSync(`${emptyFolder}/${name}`, data);
  writeFileSync(`${emptyFolder}/${name}.br`, brotliCompressSync(data));
};
const wasm = "counterpull_empty-0000000000.wasm", script = "counterpull_empty-0000000000.js";
put(wasm, readFileSync(root + ".build/page/shell/counterpull_empty.wasm"));
put(script, readFileSync(root + ".build/page/shell/counterpull_empty.js", "utf8").replaceAll("counterpull_empty.wasm", wasm));
put("start.js", `var Module = { canvas: document.getElementById("canvas"), onFrame() { document.getElementById("cover").hidden = true; } };`);
put("style.css", "html, body, canvas { margin: 0; width: 100%; height: 100%; touch-action: none; }");
put("index.html", `<!doctype html><meta charset="utf-8"><meta name="viewport" content="width=device-width"><link rel="stylesheet" href="style.css">
<canvas id="canvas" tabindex="0"></canvas><p id="cover">…</p><script src="start.js"></script><script src="${script}"></script>`);

const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags });
const sites = { empty: await serve(8290, emptyFolder), page: await serve(8310) };

async function visit(context, site, slow) {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  if (slow > 1) {
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 100_000 });
    await session.send("Emulation.setCPUThrottlingRate", { rate: slow });
  }
  await page.addInitScript(() => {
    window.spent = [];
    const ask = window.requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (call) => ask((time) => {
      const began = performance.now();
      call(time);
      window.spent.push(performance.now() - began);
    });
    document.addEventListener("DOMContentLoaded", () => {
      const cover = document.getElementById("cover");
      new MutationObserver(() => { if (cover.hidden) window.shown ??= performance.now(); }).observe(cover, { attributes: true });
    });
  });
  await page.goto(site.address);
  const shown = await (await page.waitForFunction(() => window.shown, null, { timeout: 60000 })).jsonValue();
  return { page, session, shown };
}

// Script time of each frame while a finger drags a number to and fro.
async function drag({ page, session }) {
  await page.waitForTimeout(1500);
  const at = await page.evaluate(async () => {
    if (!window.counterpull) return { x: 150, y: 18 };
    window.counterpull.operate("section.now");
    await new Promise((done) => { setTimeout(done, 800); });
    const { rect } = window.counterpull.controls().find((c) => c.id === "now.tail_mm");
    return { x: (rect[0] + rect[2]) / 2, y: Math.min((rect[1] + rect[3]) / 2, 900) };
  });
  await page.evaluate(() => { window.spent.length = 0; });
  const mouse = (type, x) => session.send("Input.dispatchMouseEvent", { type, x, y: at.y, button: "left", buttons: 1, clickCount: 1 });
  await mouse("mousePressed", at.x);
  for (let step = 0; step < 60; ++step) {
    await mouse("mouseMoved", at.x + 40 * Math.sin(step / 6));
    await page.waitForTimeout(16);
  }
  await mouse("mouseReleased", at.x);
  const spent = (await page.evaluate(() => window.spent)).sort((a, b) => a - b);
  return { median: spent[spent.length >> 1], late: spent[Math.floor(0.95 * spent.length)] };
}

const middle = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];
const found = {};
const note = (what, name, value) => { ((found[what] ??= {})[name] ??= []).push(value); };
for (let round = 0; round < rounds; ++round)
  for (const [name, site] of Object.entries(sites)) {
    const context = await browser.newContext(phone);
    const first = await visit(context, site, 4);
    note("first visit, ms", name, first.shown);
    const frames = await drag(first);
    note("script per frame, 4x slower, median ms", name, frames.median);
    note("script per frame, 4x slower, 95 % ms", name, frames.late);
    await first.page.close();
    const second = await visit(context, site, 4);
    note("second visit, ms", name, second.shown);
    await second.page.close();
    const fast = await visit(context, site, 1);
    const plain = await drag(fast);
    note("script per frame, median ms", name, plain.median);
    note("script per frame, 95 % ms", name, plain.late);
    await context.close();
  }
console.log("on an emulated phone, middle of " + rounds + " rounds".padEnd(20) + "page    empty window    ratio");
for (const [what, { page, empty }] of Object.entries(found))
  console.log(`${what.padEnd(44)} ${middle(page).toFixed(2).padStart(9)} ${middle(empty).toFixed(2).padStart(12)} ${(middle(page) / middle(empty)).toFixed(2).padStart(10)}`);
await browser.close();
for (const site of Object.values(sites)) await site.stop();
