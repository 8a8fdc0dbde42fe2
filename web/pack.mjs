// Packs the page: scripts bundled, what belongs together under its content's hash, each file with a brotli and a gzip
// version beside it, and a size report. pack.mjs BUILT_PROGRAM_FOLDER OUTPUT_FOLDER
import { createHash } from "node:crypto";
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { orderFunctions } from "./order_functions.mjs";

const [built, out] = process.argv.slice(2);
const limit = 290_000; // bytes under brotli, all files of a first visit together; the goal is 260,000
const hearingLimit = 60_000;
const here = fileURLToPath(new URL("./", import.meta.url));
const { buildSync } = createRequire(here + "toolchain/package.json")("esbuild");
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

const hash = (...data) => data.reduce((sum, part) => sum.update(part), createHash("sha256")).digest("hex").slice(0, 10);
const files = new Map(); // in the order in which they are written
// Adds a file under its hash and returns the name that it got.
const addHashed = (name, data) => {
  const hashed = name.replace(/(\.[^.]+)$/, `-${hash(data)}$1`);
  files.set(hashed, Buffer.from(data));
  return hashed;
};
const source = (name) => readFileSync(here + "page/" + name, "utf8");
// A page speaks English until its scripts run.
const page = (name) => source(name).replace(/\{(start\.\w+)\}/g, (_, key) => pageWords[key]);

const wasm = addHashed("counterpull.wasm", orderFunctions(readFileSync(`${built}/counterpull.wasm`)));
const program = addHashed("counterpull.js", readFileSync(`${built}/counterpull.js`, "utf8"));

// English is in the program, but for what is said before there is one, and while it listens: that is in the scripts. Of
// each other language two files, words and letters.
const words = (language, wanted) => Object.fromEntries(Object.entries(JSON.parse(readFileSync(`${here}../engine/words/${language}.json`, "utf8"))).filter(([key]) => wanted(key)));
const pageWords = words("en", (key) => key.startsWith("start.")), listeningWords = words("en", (key) => key.startsWith("listening."));
const languages = {};
for (const name of readdirSync(here + "../engine/words").filter((name) => name.endsWith(".json") && name !== "en.json")) {
  const language = name.replace(".json", "");
  languages[language] = [addHashed("words-" + name, JSON.stringify(words(language, (key) => !key.startsWith("usage.")))),
    addHashed(`faces-${language}.bin`, readFileSync(`${built}/faces-${language}.bin`))];
}

// The page's own scripts: one that starts, and those that are loaded when first asked for.
const bundle = (name, names) => buildSync({
  entryPoints: [here + "page/" + name], bundle: true, format: "esm", minify: true, write: false, target: ["es2020"],
  nodePaths: [here + "toolchain/node_modules"], legalComments: "none", external: ["./code-*", "./drawn_words-*", "./listening-*", "./notebook_dialog-*", "./picture_dialog-*", "./sheet-*"],
  define: Object.fromEntries(Object.entries(names).map(([key, value]) => [key, JSON.stringify(value)])),
}).outputFiles[0].contents;
const shared = { PROGRAM: program, WASM: wasm, PAGE_WORDS: pageWords, LANGUAGES: languages };
const code = addHashed("code.js", bundle("code.js", {}));
const [notebook, picture, sheet, drawn] = ["notebook_dialog.js", "picture_dialog.js", "sheet.js", "drawn_words.js"].map((name) => addHashed(name, bundle(name, {})));
// Hearing: three files and the script that fetches them, when the microphone is first asked for.
const hearing = addHashed("hearing.wasm", readFileSync(`${built}/hearing.wasm`));
const worker = addHashed("hearing_worker.js", bundle("../hearing/hearing_worker.js", { HEARING: "./" + hearing }));
const tap = addHashed("hearing_tap.js", bundle("../hearing/hearing_tap.js", {}));
const listening = addHashed("listening.js", bundle("listening.js", { WORKER: "./" + worker, TAP: "./" + tap, LISTENING_WORDS: listeningWords }));
const start = addHashed("start.js", bundle("start.js", { ...shared, CODE: "./" + code, LISTENING: "./" + listening, NOTEBOOK: "./" + notebook, PICTURE: "./" + picture, SHEET: "./" + sheet, DRAWN_WORDS: "./" + drawn }));

const embed = addHashed("embed.js", bundle("embed.js", shared));
const styled = (name) => addHashed(name, buildSync({ stdin: { contents: source(name), loader: "css" }, minify: true, write: false }).outputFiles[0].contents);
const style = styled("style.css"), embedStyle = styled("embed.css");
files.set("icon.svg", Buffer.from(source("icon.svg")));
for (const size of [180, 512]) // what home screens ask for
  files.set(`icon-${size}.png`, execFileSync("rsvg-convert", ["-w", `${size}`, "-h", `${size}`, here + "page/icon-full.svg"]));
files.set("manifest.webmanifest", Buffer.from(source("manifest.webmanifest")));
files.set("font-licence.txt", readFileSync(here + "fonts/LICENCE-Inter.txt"));
files.set("index.html", Buffer.from(page("index.html").replaceAll('"start.js"', `"${start}"`)
  .replaceAll('"style.css"', `"${style}"`).replaceAll('"counterpull.js"', `"${program}"`).replaceAll('"counterpull.wasm"', `"${wasm}"`)));
files.set("embed.html", Buffer.from(page("embed.html").replaceAll('"embed.js"', `"${embed}"`).replaceAll('"embed.css"', `"${embedStyle}"`)));
// Kept for visits without a network; the page itself stands for its folder's name too.
const later = { ...languages, hearing: [hearing, worker, tap, listening] };
const onlyLater = Object.values(later).flat();
const kept = ["./", ...[...files.keys()].filter((name) => name !== "index.html" && !onlyLater.includes(name))];
files.set("sw.js", Buffer.from(bundle("sw.js", { VERSION: hash(...files.values()), FILES: kept, LATER: later })));

const onRequest = new Set([...onlyLater, code, notebook, picture, sheet, drawn, embed, embedStyle, "embed.html", "icon-180.png", "icon-512.png", "font-licence.txt"]); // not part of a first visit
let total = 0, afterwards = 0;
for (const [name, data] of files) {
  // Short blocks suit a program, whose sections differ, and so do short distances of their own: half a KB.
  const brotli = brotliCompressSync(data, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGBLOCK]: 16, [constants.BROTLI_PARAM_NDIRECT]: 4, [constants.BROTLI_PARAM_SIZE_HINT]: data.length } });
  writeFileSync(`${out}/${name}`, data);
  if (!name.endsWith(".png")) {
    writeFileSync(`${out}/${name}.br`, brotli);
    writeFileSync(`${out}/${name}.gz`, gzipSync(data, { level: 9 }));
  }
  if (!onRequest.has(name)) total += brotli.length;
  else if (kept.includes(name)) afterwards += brotli.length;
  const when = !onRequest.has(name) ? "" : kept.includes(name) ? " (afterwards, for use offline)" : " (when asked for)";
  console.log(`  ${name.padEnd(32)} ${(data.length / 1000).toFixed(1).padStart(7)} KB, brotli ${(brotli.length / 1000).toFixed(1).padStart(6)} KB${when}`);
}
console.log(`  loaded by a first visit, brotli: ${(total / 1000).toFixed(1)} KB (goal 260, limit ${limit / 1000}); afterwards, for use offline: ${(afterwards / 1000).toFixed(1)} KB`);
const ofHearing = brotliCompressSync(files.get(hearing)).length;
if (total > limit || ofHearing > hearingLimit) process.exit(1);
