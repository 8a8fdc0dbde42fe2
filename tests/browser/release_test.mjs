// The page as the release has it: unpacked into a clean folder, sent by a server that knows nothing of it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { createServer } from "node:http";
import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";
import { answerOn, answered, documentOn, offlineReady, phone } from "./chromium.mjs";
import { chromiumFlags, commandLine, patience, root } from "./site.mjs";

const { version } = JSON.parse(readFileSync(root + "web/module/package.json", "utf8"));
const name = `counterpull-${version}`;
let folder, server, browser;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "counterpull-release-"));
  execFileSync("unzip", ["-q", `${root}.build/release/${name}.zip`, "-d", folder]);
  const site = join(folder, name, "site"), files = new Set(readdirSync(site));
  const types = { html: "text/html", js: "text/javascript", css: "text/css", svg: "image/svg+xml" }; // as a plain server has them
  server = createServer(({ url }, response) => {
    const file = url.split("?")[0].slice(1) || "index.html";
    if (!files.has(file)) return response.writeHead(404).end();
    return response.writeHead(200, { "Content-Type": types[file.split(".").pop()] ?? "application/octet-stream" }).end(readFileSync(join(site, file)));
  });
  await new Promise((listens) => { server.listen(0, "127.0.0.1", listens); });
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: chromiumFlags, timeout: 2 * patience });
});
after(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});

test("the page of the archive answers in the reader's language, and without a network", async () => {
  const context = await browser.newContext({ ...phone, locale: "pl-PL" });
  const page = await context.newPage();
  const said = async () => commandLine("report", await documentOn(page), "--language", "pl").includes(await answerOn(page));
  await page.goto(`http://localhost:${server.address().port}/`);
  await answered(page);
  assert.ok(await said());
  await offlineReady(page);
  await page.waitForFunction(async () => Boolean(await caches.match(performance.getEntriesByType("resource").find(({ name }) => /words-pl/.test(name)).name)));
  await context.setOffline(true);
  await page.reload();
  await answered(page);
  assert.ok(await said());
  await context.close();
});

test("the archive tells how it is served, and holds no file that the tests do not know of", () => {
  assert.deepEqual(readdirSync(join(folder, name)).sort(), ["LICENSE", "README.md", "counterpull", name + ".tgz", "serving", "site"]);
  const told = readFileSync(join(folder, name, "README.md"), "utf8");
  for (const wanted of ["https", "application/wasm", "no-cache", "Permissions-Policy", "`serving/nginx.conf`", "`site/`"]) assert.ok(told.includes(wanted), wanted);
  assert.ok(!/web\/|\.build|## How it is kept/.test(told), told);
});
