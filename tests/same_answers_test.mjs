// The same documents answered by the command line from g++, by the one from clang++ (under sanitizers) and by the module
// under node: equal in all nine digits of every number, except where readings are fitted, or what one would teach.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { before, test } from "node:test";
import { root } from "./browser/site.mjs";

// A fit ends where a last digit of an elementary function (libm, musl's and glibc's) is told as about the ninth.
const usual = 1e-8; // of a number, or of one millimetre, turn or cent
// A float close to running away magnifies that, in what one turn does and what follows from it.
const most = 1e-6, most_unusual = 0.02; // the share of documents

const random_documents = 300;
const folders = ["tests/examples/", "tests/fuzz/found/"];
const kept = folders.flatMap((folder) => readdirSync(root + folder).map((name) => readFileSync(root + folder + name, "utf8")));
let documents, module;
before(async () => {
  const drawn = execFileSync(root + ".build/tests/tests/counterpull_properties", ["documents", String(random_documents)],
    { encoding: "utf8", maxBuffer: 1 << 26 });
  documents = [...kept, ...JSON.parse(drawn).map((setup) => JSON.stringify(setup))];
  module = await import(root + ".build/module/index.js");
});

function native(build, document) {
  try {
    return JSON.parse(execFileSync(`${root}.build/${build}/counterpull`, ["report", "-", "--json"],
      { input: document, encoding: "utf8", stdio: ["pipe", "pipe", "pipe"], env: { ...process.env, LLVM_PROFILE_FILE: "/dev/null" } }));
  } catch (error) {
    assert.equal(error.status, 1, error.stderr); // refused; 1 is not how a sanitizer ends
    return { refused: error.stderr.trim().replace("counterpull: standard input: ", "") };
  }
}
function wasm(document) {
  try {
    return module.report(document);
  } catch (error) {
    assert.ok(error instanceof module.Refused, String(error));
    return { refused: error.message };
  }
}

// [how far apart, where] for each pair of numbers that is not the same; any other difference is infinitely far.
function differences(a, b, path = "") {
  if (a === b) return [];
  if (typeof a === "number" && typeof b === "number") return [[Math.abs(a - b) / Math.max(1, Math.abs(a)), path]];
  if (!a || !b || typeof a !== "object" || typeof b !== "object") return [[Infinity, path]];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((key) => differences(a[key], b[key], path + "." + key));
}

// clang++ calls the same libm, so that fits are the same too.
for (const { name, answer, may_differ } of [{ name: "clang++", answer: (document) => native("watched", document), may_differ: false }, { name: "WebAssembly", answer: wasm, may_differ: true }])
  test(`${name} answers as g++ does`, (t) => {
    let same = 0, refused = 0;
    const apart = []; // of each document the worst
    for (const document of documents) {
      const there = native("counterpull", document);
      const found = differences(there, answer(document));
      if (there.refused) refused += 1;
      if (!found.length) same += 1;
      else if (may_differ && (JSON.parse(document).log?.length || found.every(([, path]) => path.startsWith(".test_reading.")))) apart.push(found.sort((a, b) => b[0] - a[0])[0]);
      else assert.fail(`${found[0]} in ${document}`);
    }
    apart.sort((a, b) => b[0] - a[0]);
    const [worst, middle] = [0, apart.length >> 1].map((i) => apart[i] ?? [0, "nothing"]);
    const unusual = apart.filter(([by]) => by > usual).length;
    t.diagnostic(`${same} of ${documents.length} the same to nine digits (${refused} of them refused), ${apart.length} apart: ` +
      `in the middle by ${middle[0].toExponential(1)}, ${unusual} by more than ${usual}, the most by ${worst[0].toExponential(1)} in ${worst[1]}`);
    assert.ok(worst[0] < most && unusual <= most_unusual * documents.length, String(worst));
  });
