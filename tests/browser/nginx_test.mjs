// The sample configuration in the real nginx (unpacked by tests/run): every file is sent as `web/run` sends it, and a
// browser opens the page and keeps it.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { after, before, test } from "node:test";
import { answerOn, desktop, inChromium, offlineReady, reload } from "./chromium.mjs";
import { root, until } from "./site.mjs";

const packages = root + ".build/nginx/";
const port = 8461, address = `http://localhost:${port}/`;
const { opened, at } = inChromium(port + 1); // the same files by serve.mjs
const names = readdirSync(root + ".build/site").filter((name) => !/\.(br|gz)$/.test(name));
let folder, nginx;

before(async () => {
  folder = mkdtempSync(tmpdir() + "/counterpull-nginx-");
  symlinkSync(root + ".build/site", folder + "/counterpull");
  const sample = readFileSync(root + "web/serving/nginx.conf", "utf8");
  assert.match(sample, /listen 8080;/);
  writeFileSync(folder + "/site.conf", sample.replace("listen 8080;", `listen ${port};`));
  writeFileSync(folder + "/nginx.conf", `
    load_module ${packages}usr/lib/nginx/modules/ngx_http_brotli_static_module.so;
    daemon off; master_process off; pid nginx.pid; error_log stderr crit;
    events {}
    http {
      access_log off;
      client_body_temp_path 1; proxy_temp_path 2; fastcgi_temp_path 3; uwsgi_temp_path 4; scgi_temp_path 5;
      include site.conf;
    }`);
  nginx = spawn(packages + "usr/sbin/nginx", ["-p", folder, "-c", "nginx.conf"], { stdio: ["ignore", "ignore", "inherit"] });
  await until(async () => (await fetch(address)).ok, "nginx");
});
after(() => {
  nginx?.kill();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

test("every file has the type, policy, keeping and compression that web/run gives it", async () => {
  const told = ["content-type", "content-encoding", "cache-control", "content-security-policy", "x-content-type-options", "referrer-policy", "permissions-policy"];
  assert.ok(names.length > 15);
  for (const name of ["", ...names])
    for (const accepted of ["br", "gzip", "identity"]) {
      const headers = { "Accept-Encoding": accepted };
      const [here, there] = await Promise.all([address, at()].map((from) => fetch(from + name, { headers })));
      assert.equal(here.status, 200, name);
      for (const header of told) assert.equal(here.headers.get(header), there.headers.get(header), `${header} of ${name} (${accepted})`);
      assert.deepEqual(Buffer.from(await here.arrayBuffer()), Buffer.from(await there.arrayBuffer()), name);
      const again = await fetch(address + name, { headers: { ...headers, "If-None-Match": here.headers.get("etag") } });
      assert.equal(again.status, 304, name);
    }
  for (const outside of ["nothing.html", "..%2f..%2fnginx.conf", "site.conf"]) assert.notEqual((await fetch(address + outside)).status, 200, outside);
});

test("a browser opens the page from it, and opens it again when it is gone", async () => {
  const page = await opened(desktop, null, address);
  const answer = await answerOn(page);
  await offlineReady(page);
  const ended = new Promise((resolve) => { nginx.on("exit", resolve); });
  nginx.kill();
  await ended;
  await reload(page);
  assert.equal(await answerOn(page), answer);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});
