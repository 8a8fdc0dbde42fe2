// The page leaves numbers to the browser (web/libraries/libc_lean.c): to the last digit and bit they are those of the
// system's C library (glibc's, which is exact), as a program whose functions were put in another order for packing.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { before, test } from "node:test";
import { orderFunctions } from "../web/order_functions.mjs";
import { root } from "./browser/site.mjs";

const folder = root + ".build/page_numbers/";
let page, told;
before(async () => {
  mkdirSync(folder, { recursive: true });
  execFileSync("cc", ["-O1", "-w", root + "tests/page_numbers.c", "-o", folder + "system"]);
  execFileSync("emcc", ["-O2", "-w", root + "tests/page_numbers.c", root + "web/libraries/libc_lean.c", "-o", folder + "page.js",
    "-sMODULARIZE=1", "-sENVIRONMENT=node", "-sFILESYSTEM=0", "-sEXPORTED_FUNCTIONS=_main,_number_said,_others_said",
    "-sEXPORTED_RUNTIME_METHODS=UTF8ToString"], { env: { ...process.env, NODE_PATH: "/usr/share/nodejs" } });
  const built = readFileSync(folder + "page.wasm"), ordered = orderFunctions(built);
  assert.ok(!ordered.equals(built)); // or the order would not be tested
  page = await createRequire(import.meta.url)(folder + "page.js")({ wasmBinary: ordered });
  told = (place) => page.UTF8ToString(place);
});

// Numbers as they come from people and from sums, of all sizes, and those halfway between two that are said.
function cases() {
  let state = 1;
  const random = (below) => { // the generator of Park and Miller, so that every run is the same
    state = state * 48271 % 2147483647;
    return state % below;
  };
  const share = () => random(2 ** 30) / 2 ** 30;
  const kinds = [
    () => double((random(2 ** 30) * 4 + random(4)) >>> 0, (random(2 ** 30) * 4 + random(4)) >>> 0), // any at all
    () => (random(2e6) - 1e6) / 2 ** random(24),
    () => (random(2e9) - 1e9) / 10 ** random(10),
    () => share() * 10 ** random(15),
    () => (share() - 0.5) * 10 ** (random(20) - 15),
    () => (2 * random(1e6) + 1) * 0.5 / 10 ** random(6),
    () => random(2 ** 30) * 2 ** random(20) + random(2) * 0.5,
  ];
  const values = Array.from({ length: 60000 }, (_, index) => kinds[index % kinds.length]()).filter(Number.isFinite);
  const edges = [0, -0, 0.5, 1.5, 2.5, -0.5, 0.125, 0.375, 100000000.5, 100000001.5, 5e-324, Number.MAX_VALUE, 999999999.5,
    9.9999999995, 1e15, 123456789012, 0.0001, 0.00001, 4097.00048828125, 1e21, -1e-7];
  const all = edges.flatMap((value) => Array.from({ length: 16 }, (_, digits) => [value, digits, 1]));
  all.push(...values.map((value) => [value, random(3) ? 9 : random(18), 1]));
  // So large a number is never said with its decimals (format.cpp).
  const plain = all.filter(([value]) => Math.abs(value) < 1e15).map(([value]) => [value, random(16), 0]);
  return [...all, ...plain];
}
const view = new DataView(new ArrayBuffer(8));
function double(high, low) {
  view.setUint32(0, high);
  view.setUint32(4, low);
  return view.getFloat64(0);
}
function bits(value) {
  view.setFloat64(0, value);
  return [view.getUint32(0), view.getUint32(4)];
}

test("numbers are written and read as the system's C library does", (t) => {
  const all = cases().map(([value, digits, shortest]) => [...bits(value), digits, shortest]);
  const input = all.map(([high, low, ...rest]) => [high.toString(16), low.toString(16), ...rest].join(" ")).join("\n") + "\n";
  const [others, ...said] = spawnSync(folder + "system", { input, encoding: "utf8", maxBuffer: 1 << 28 }).stdout.trimEnd().split("\n");
  assert.equal(said.length, all.length);
  all.forEach((one, index) => assert.equal(told(page._number_said(...one)), said[index], one.join(" ")));
  assert.equal(told(page._others_said()), others);
  t.diagnostic(`${all.length} numbers`);
});
