// Packs the page: program and script get their content's hash into their names, each file a brotli and a gzip
// version beside it, and a size report is printed. pack.mjs BUILT_PROGRAM_FOLDER OUTPUT_FOLDER
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const [built, out] = process.argv.slice(2);
const limit = 300_000; // bytes under brotli, all files together; the goal is 260,000
const web = new URL("./", import.meta.url);
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

const hashed = (name, data) => {
  const hash = createHash("sha256").update(data).digest("hex").slice(0, 10);
  return name.replace(/(\.[^.]+)$/, `-${hash}$1`);
};
const files = new Map();
const wasm = readFileSync(`${built}/counterpull.wasm`);
const wasmName = hashed("counterpull.wasm", wasm);
files.set(wasmName, wasm);
const program = Buffer.from(readFileSync(`${built}/counterpull.js`, "utf8").replaceAll("counterpull.wasm", wasmName));
const programName = hashed("counterpull.js", program);
files.set(programName, program);
const start = Buffer.from(readFileSync(new URL("start.js", web), "utf8").replaceAll('"counterpull.js"', `"${programName}"`));
const startName = hashed("start.js", start);
files.set(startName, start);
const style = readFileSync(new URL("style.css", web));
const styleName = hashed("style.css", style);
files.set(styleName, style);
files.set("icon.svg", readFileSync(new URL("icon.svg", web)));
files.set("font-licence.txt", readFileSync(new URL("fonts/LICENCE-Inter.txt", web)));
files.set("index.html", Buffer.from(readFileSync(new URL("index.html", web), "utf8")
  .replaceAll('"start.js"', `"${startName}"`).replaceAll('"style.css"', `"${styleName}"`)));

let total = 0;
for (const [name, data] of files) {
  const brotli = brotliCompressSync(data, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: data.length } });
  writeFileSync(`${out}/${name}`, data);
  writeFileSync(`${out}/${name}.br`, brotli);
  writeFileSync(`${out}/${name}.gz`, gzipSync(data, { level: 9 }));
  if (name !== "font-licence.txt") total += brotli.length; // linked, not loaded
  console.log(`  ${name.padEnd(32)} ${(data.length / 1000).toFixed(1).padStart(7)} KB, brotli ${(brotli.length / 1000).toFixed(1).padStart(6)} KB`);
}
console.log(`  loaded by the page, brotli: ${(total / 1000).toFixed(1)} KB (goal 260, limit ${limit / 1000})`);
if (total > limit) process.exit(1);
