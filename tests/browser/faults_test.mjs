// What goes wrong in browsers, in a real Chromium: each time there is a message that can be read, and nothing is lost.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { appendFileSync, cpSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { after, test } from "node:test";
import { answerOn, answered, desktop, guitars, inChromium, linkOn, notice, offlineReady, operate, phone, reload, setup, showNotebook, still, tapOpens, written } from "./chromium.mjs";
import { loseGraphics, returnGraphics, root, serve, shots } from "./site.mjs";

const { open, opened, opensAt, at } = inChromium(8199);

test("without WebGL the page says so", async () => {
  const page = await open(desktop, () => { HTMLCanvasElement.prototype.getContext = () => null; });
  await page.waitForFunction(() => /WebGL/.test(document.getElementById("message").textContent));
  await page.context().close();
});

test("where WebAssembly is missing, blocked or not delivered the page says so", async () => {
  const cover = (page, what) => page.waitForFunction((text) => document.getElementById("message").textContent.includes(text), what);
  const missing = await open(desktop, () => { delete window.WebAssembly; });
  await cover(missing, "cannot run WebAssembly");
  await missing.context().close();
  const blocked = await open(desktop, () => {
    for (const name of ["instantiate", "instantiateStreaming", "compile", "compileStreaming"])
      WebAssembly[name] = () => Promise.reject(new WebAssembly.CompileError("blocked by policy"));
  });
  await cover(blocked, "could not be loaded");
  assert.equal(await blocked.locator("#reload").isVisible(), true);
  await blocked.screenshot({ path: shots + "desktop-blocked.png" });
  await blocked.context().close();
  const cut = await open(phone, null, "about:blank");
  await cut.route(/\.wasm$/, (route) => route.abort());
  await cut.goto(at());
  await cover(cut, "could not be loaded");
  await cut.unroute(/\.wasm$/);
  await cut.locator("#reload").click();
  await answered(cut);
  await cut.context().close();
});

test("a browser that keeps nothing is worked with, and told of once", async () => {
  const page = await opened(desktop, () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; });
  await operate(page, "now.tail_mm", "-1.2");
  await notice(page, /keeps nothing/);
  await written(page);
  await page.locator("#notice .close").click();
  await operate(page, "now.tail_mm", "-1.3");
  await written(page);
  assert.equal(await page.locator("#notice").isVisible(), false);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("storage that fills up while the page is open: the last good state stays, and writing goes on when there is room", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.2");
  await written(page);
  await page.evaluate(() => {
    for (let size = 1 << 22; size >= 1; size >>= 1)
      try { for (let i = 0; ; ++i) localStorage.setItem(`somebody-else-${size}-${i}`, "x".repeat(size)); } catch { /* that much no more */ }
  });
  for (let i = 0; i < 5; ++i) { // more than there was
    await operate(page, "log.add", "in tune");
    await operate(page, `log[${i}].confirm`);
  }
  await written(page);
  await notice(page, /keeps nothing/);
  const [before] = await guitars(page);
  assert.deepEqual([before.now.tail_mm, before.log?.length ?? 0], [-1.2, 0], "what was kept before is still there, as it was");
  const link = await linkOn(page);
  assert.equal(new URL(page.url()).hash, "#" + link, "the address has it");
  await page.evaluate(() => { for (const name of Object.keys(localStorage)) if (name.startsWith("somebody")) localStorage.removeItem(name); });
  await operate(page, "now.tail_mm", "-1.4");
  await written(page);
  const kept = await guitars(page);
  assert.deepEqual(kept.map(({ now, log }) => [now.tail_mm, log.length]), [[-1.4, 5]], "the same guitar, and no other");
  await page.context().close();
});

test("everything that is kept is torn: the page opens with the example, says so, and throws nothing away", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.2");
  await operate(page, "log.add", "in tune");
  await operate(page, "log[0].confirm");
  await written(page);
  await page.evaluate(() => {
    for (const name of Object.keys(localStorage)) localStorage.setItem(name, "\u0000{\"at\": [" + name);
    for (const name of Object.keys(sessionStorage)) sessionStorage.setItem(name, "[]");
    history.replaceState(null, "", location.pathname);
  });
  await reload(page);
  assert.match(await answerOn(page), /^Loosen each claw screw 1 turn/);
  await notice(page, /cannot be read/);
  const aside = await page.evaluate(() => Object.entries(localStorage).filter(([name]) => name.startsWith("counterpull.unreadable.guitar.")));
  assert.equal(aside.length, 1);
  assert.ok(aside[0][1].startsWith("\u0000{"), "as it was");
  await operate(page, "now.tail_mm", "-1.3");
  await written(page);
  await reload(page);
  assert.equal((await setup(page)).now.tail_mm, -1.3);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a torn record is told of where a link is opened too, whole or cut", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.7");
  const link = await linkOn(page);
  for (const [opens, told] of [[link, /^Something kept.*cannot be read/], [link.slice(0, 9), /^.{10,}Something kept.*cannot be read/]]) {
    await page.evaluate(() => localStorage.setItem("counterpull.guitar.torn", "{"));
    await opensAt(page, opens);
    await notice(page, told);
  }
  await page.context().close();
});

test("killed while a number is being typed: what was typed is back", async () => {
  const page = await opened(phone);
  await tapOpens(page, "said.now.tail_mm");
  await page.locator("#entry").fill("-2.2");
  await written(page);
  const context = page.context();
  const crashed = page.waitForEvent("crash");
  (await context.newCDPSession(page)).send("Page.crash").catch(() => {}); // never answers
  await crashed;
  await page.close();
  const next = await context.newPage();
  await next.goto(at());
  await answered(next);
  assert.equal((await setup(next)).now.tail_mm, -2.2);
  await context.close();
});

test("the graphics context lost ten times comes back ten times", async () => {
  const page = await opened(desktop);
  await operate(page, "now.tail_mm", "-1.7");
  const before = await page.screenshot();
  for (let i = 0; i < 10; ++i) {
    await page.evaluate(loseGraphics);
    const frames = await page.evaluate(() => window.counterpull.frames());
    await page.evaluate(returnGraphics);
    await page.waitForFunction((count) => window.counterpull.frames() > count, frames);
  }
  await still(page);
  assert.equal((await setup(page)).now.tail_mm, -1.7);
  assert.ok(before.equals(await page.screenshot()), "it looks as before");
  assert.deepEqual(page.problems.filter((text) => !/CONTEXT_LOST|context lost/i.test(text)), []);
  await page.context().close();
});

test("graphics that are away for long are told of, and the page works on when they are back", async () => {
  const page = await opened(desktop);
  await page.evaluate(loseGraphics);
  await page.waitForFunction(() => !document.getElementById("cover").hidden && /graphics/.test(document.getElementById("message").textContent));
  await page.evaluate(returnGraphics);
  await answered(page);
  await operate(page, "now.tail_mm", "-1.7");
  assert.equal((await setup(page)).now.tail_mm, -1.7);
  await page.context().close();
});

test("a program that stops, in its first frame or a later one, is told of", async () => {
  const stopped = () => !document.getElementById("cover").hidden && /stopped/.test(document.getElementById("message").textContent);
  const first = await open(desktop, () => { WebGLRenderingContext.prototype.drawElements = () => { throw new Error("as a driver may"); }; });
  await first.waitForFunction(stopped);
  assert.equal(await first.locator("#reload").isVisible(), true);
  await first.context().close();
  const later = await opened(desktop);
  await later.evaluate(() => { setTimeout(() => { throw new Error("an extension's"); }); });
  await still(later);
  assert.equal(await later.locator("#cover").isVisible(), false, "what others throw stops nothing");
  await later.evaluate(() => { WebGLRenderingContext.prototype.drawElements = () => { throw new WebAssembly.RuntimeError("unreachable"); }; });
  await later.evaluate(() => window.counterpull.operate("now.tail_mm", "-1.7"));
  await later.waitForFunction(stopped);
  await later.context().close();
  const embedded = await open(desktop, () => { // its first call stops it
    let program = null;
    const stops = { get: () => () => { throw new WebAssembly.RuntimeError("unreachable"); }, set() {} };
    Object.defineProperty(globalThis, "Module", { get: () => program, set(given) { program ??= Object.defineProperty(given, "ccall", stops); } });
  }, at() + "embed.html");
  await embedded.waitForFunction(() => /stopped/.test(document.getElementById("card").textContent));
  await embedded.context().close();
});

test("a square code that cannot be had leaves none of the link before", async () => {
  const page = await opened(desktop);
  await operate(page, "share");
  await page.locator("#share .code path").waitFor({ state: "attached" });
  await page.locator("#share .close").click();
  await operate(page, "now.tail_mm", "-1.7");
  await page.evaluate(() => { document.createElementNS = () => { throw new Error("none"); }; });
  await operate(page, "share");
  await page.waitForFunction(() => /could not be drawn/.test(document.querySelector("#share .told").textContent));
  assert.equal(await page.locator("#share .code path").count(), 0);
  await page.context().close();
});

// The page packed once more from sources that differ: every script and the program, so that their names do too, and a page
// that can be told from this one.
function nextPacking() {
  const next = root + ".build/next", packed = root + ".build/site-next";
  rmSync(next, { recursive: true, force: true });
  for (const part of ["web", "engine/words"]) cpSync(root + part, `${next}/${part}`, { recursive: true, filter: (name) => !/\/(toolchain|module)$/.test(name) });
  symlinkSync(root + "web/toolchain", next + "/web/toolchain");
  cpSync(root + ".build/page/shell", next + "/built", { recursive: true, filter: (name) => !/\.(a|o)$|CMakeFiles/.test(name) });
  for (const name of readdirSync(next + "/web/page").filter((name) => name.endsWith(".js"))) appendFileSync(`${next}/web/page/${name}`, "globalThis.packing = 'next';\n");
  appendFileSync(next + "/built/counterpull.js", "\n;\n");
  const index = next + "/web/page/index.html";
  writeFileSync(index, readFileSync(index, "utf8").replace(/(<meta name="description" content=")/, "$1next: "));
  execFileSync("node", [next + "/web/pack.mjs", next + "/built", packed]);
  const before = readdirSync(root + ".build/site");
  assert.ok(readdirSync(packed).some((name) => /^start-/.test(name) && !before.includes(name)));
  return packed;
}

test("a new version is offered; accepted in one tab, another that is open works on and loses nothing", async () => {
  let served = await serve(8230);
  after(() => served.stop());
  const page = await opened(desktop, null, served.address);
  await offlineReady(page);
  await reload(page); // now the worker serves it
  await operate(page, "now.tail_mm", "-1.7");
  await written(page);
  const other = await page.context().newPage();
  await other.goto(served.address);
  await answered(other);
  await served.stop();
  served = await serve(8230, nextPacking());
  await page.bringToFront();
  await page.reload();
  await notice(page, /new version/);
  const offered = await page.context().newPage();
  await offered.goto(served.address);
  await notice(offered, /new version/);
  await page.bringToFront();
  const version = () => page.evaluate(() => document.querySelector("meta[name=description]").content);
  assert.doesNotMatch(await version(), /next/);
  await page.screenshot({ path: shots + "desktop-update.png" });
  await page.locator("#notice .act").click();
  await page.waitForFunction(() => /next/.test(document.querySelector("meta[name=description]").content));
  await answered(page);
  assert.equal((await setup(page)).now.tail_mm, -1.7);
  // One that had the offer too is brought to it by its own button.
  await offered.bringToFront();
  await offered.locator("#notice .act").click();
  await offered.waitForFunction(() => /next/.test(document.querySelector("meta[name=description]").content));
  await offered.close();
  // The other tab is still the version before, whose files are nowhere any more.
  await other.bringToFront();
  await operate(other, "now.tail_mm", "-1.9");
  await written(other);
  await operate(other, "notebook");
  // Its dialog may be remembered by the browser; else it is said that it cannot be had.
  await other.waitForFunction(() => document.querySelector("#notebook[open] h2") || /could not be loaded/.test(document.getElementById("notice").textContent));
  await reload(other);
  assert.equal((await setup(other)).now.tail_mm, -1.9);
  await showNotebook(other);
  await page.context().close();
});

test("a new version keeps the language of the reader for a visit without a network, and no other", async () => {
  let served = await serve(8260);
  after(() => served.stop());
  const page = await opened({ ...desktop, locale: "fr-FR" }, null, served.address);
  await offlineReady(page);
  const kept = () => page.evaluate(async () => (await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name)).keys()).map(({ url }) => url)))).flat()
    .map((url) => url.match(/(words|faces)-[a-z]+/)?.[0]).filter(Boolean).sort());
  await page.waitForFunction(async () => Boolean(await caches.match(performance.getEntriesByType("resource").find(({ name }) => /faces-fr/.test(name)).name)));
  assert.deepEqual(await kept(), ["faces-fr", "words-fr"]);
  await served.stop();
  served = await serve(8260, nextPacking());
  await page.reload();
  await page.locator("#notice .act").click();
  await page.waitForFunction(() => /next/.test(document.querySelector("meta[name=description]").content));
  await answered(page);
  await page.waitForFunction(async () => (await caches.keys()).length === 1);
  assert.deepEqual(await kept(), ["faces-fr", "words-fr"]);
  await served.stop();
  await reload(page);
  assert.equal(await page.locator("html").getAttribute("lang"), "fr");
  await page.goto(served.address + "index.html"); // by its other name
  await answered(page);
  await page.context().close();
});

test("a hostile link, of markup or of megabytes, is refused in words and the page works on", async () => {
  const page = await open(desktop);
  page.on("dialog", () => assert.fail("a script ran"));
  await answered(page);
  const answer = await answerOn(page);
  for (const hostile of ["<img src=x onerror=alert(1)>", "'\"><script>alert(1)</script>", "javascript:alert(1)", "%00%ff%fe", "A".repeat(1 << 20)]) {
    await opensAt(page, hostile);
    assert.ok((await notice(page, /.{10}/)).length < 400, hostile.slice(0, 40));
    assert.equal(await page.locator("#notice :is(img, script)").count(), 0);
    assert.equal(await answerOn(page), answer);
  }
  // A file of megabytes goes the same way.
  assert.match(await page.evaluate(() => window.counterpull.open("[".repeat(1 << 24))), /at most 1000000 bytes/);
  await operate(page, "now.tail_mm", "-1.1");
  await written(page);
  assert.equal((await setup(page)).now.tail_mm, -1.1);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test("a clock that is wrong, and put right, costs nothing", async () => {
  const page = await open(desktop, () => {
    const ahead = Number(sessionStorage.getItem("test.ahead")), now = Date.now;
    Date.now = () => now() + ahead;
  });
  await answered(page);
  // Decades behind, then ahead, then as it is: each sitting goes on from the one before.
  const years = [-50, 80, 0];
  for (const [i, ahead] of years.entries()) {
    await page.evaluate((by) => sessionStorage.setItem("test.ahead", String(by)), ahead * 365.25 * 86400e3);
    await reload(page);
    if (i > 0) assert.equal((await setup(page)).now.tail_mm, -i - 2);
    await operate(page, "now.tail_mm", String(-i - 3));
    await written(page);
  }
  const kept = await guitars(page);
  assert.deepEqual(kept.map(({ now }) => now.tail_mm), [-years.length - 2]);
  await showNotebook(page);
  const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#notebook").getByRole("button", { name: "Export all" }).click()]);
  const { guitars: [whole] } = JSON.parse(readFileSync(await file.path(), "utf8"));
  const year = new Date().getFullYear();
  assert.deepEqual(whole.history.map(({ at: when }) => Math.round((Number(when.slice(0, 4)) - year) / 10) * 10), years.slice(0, 2));
  assert.deepEqual(page.problems, []);
  await page.context().close();
});
