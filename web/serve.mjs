// Serves the packed page on this machine. serve.mjs FOLDER PORT; takes the next free port where it is taken.
import { createServer } from "node:http";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync } from "node:fs";

const [folder, wanted = "8080"] = process.argv.slice(2);
const types = { html: "text/html; charset=utf-8", js: "text/javascript", css: "text/css", svg: "image/svg+xml", json: "application/json",
  wasm: "application/wasm", png: "image/png", webmanifest: "application/manifest+json", txt: "text/plain; charset=utf-8" };
// One page alone may stand in a frame of somebody else's.
const policy = (name) => "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; connect-src 'self'; " +
  "img-src 'self' blob:; base-uri 'none'; object-src 'none'; form-action 'none'; frame-ancestors " + (name === "embed.html" ? "*" : "'none'");
// Only what the folder holds is ever served, so no path can leave it; by name, since it may be packed anew meanwhile.
const holds = (name) => readdirSync(folder).includes(name) && !/\.(br|gz)$/.test(name);
// A file with the coding it is sent in; null where there is none.
function fileOf(name, accepted) {
  try {
    if (!holds(name)) return null;
    const coding = /\bbr\b/.test(accepted) && existsSync(`${folder}/${name}.br`) ? "br"
      : /\bgzip\b/.test(accepted) && existsSync(`${folder}/${name}.gz`) ? "gzip" : "";
    return { coding, body: readFileSync(`${folder}/${name}${coding === "br" ? ".br" : coding === "gzip" ? ".gz" : ""}`) };
  } catch { // gone between one look and the next
    return null;
  }
}

const server = createServer((request, response) => {
  const path = (request.url ?? "/").split(/[?#]/)[0];
  const name = path === "/" ? "index.html" : path.slice(1);
  const file = fileOf(name, request.headers["accept-encoding"] ?? "");
  if (!file) {
    response.writeHead(404, { "Content-Type": "text/plain" }).end("Not here.\n");
    return;
  }
  const { coding, body } = file;
  const headers = {
    "Content-Type": types[name.split(".").pop()] ?? "application/octet-stream",
    // Asked about again at each visit, but sent again only when it has changed.
    ETag: `"${createHash("sha256").update(body).digest("hex").slice(0, 20)}"`,
    "Cache-Control": /-[0-9a-f]{10}\.(js|css|wasm|json|bin)$/.test(name) ? "public, max-age=31536000, immutable" : "no-cache",
    "Content-Security-Policy": policy(name),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Permissions-Policy": "microphone=(" + (name === "embed.html" ? "" : "self") + ")",
    Vary: "Accept-Encoding",
  };
  if (coding) headers["Content-Encoding"] = coding;
  if (request.headers["if-none-match"] === headers.ETag) response.writeHead(304, headers).end();
  else response.writeHead(200, headers).end(request.method === "HEAD" ? undefined : body);
});

let port = Number(wanted);
server.on("error", (/** @type {NodeJS.ErrnoException} */ error) => {
  if (error.code !== "EADDRINUSE" || port >= Number(wanted) + 20) throw error;
  server.listen(++port, "127.0.0.1");
});
server.on("listening", () => console.log(`Counterpull is at http://localhost:${port}/ (stop with Ctrl+C)`));
server.listen(port, "127.0.0.1");
