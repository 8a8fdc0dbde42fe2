// The packed ES module, installed into an empty folder and run there by node, as its README shows; compared with the
// command line; its types checked by the TypeScript compiler.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { appendFileSync, cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { commandLine, root } from "./browser/site.mjs";

let folder, module;
const run = (command, ...options) => execFileSync(command, options, { cwd: folder, encoding: "utf8" });
const examples = readdirSync(root + "tests/examples").filter((name) => name.endsWith(".json"))
  .map((name) => readFileSync(root + "tests/examples/" + name, "utf8"));
const { version } = JSON.parse(readFileSync(root + "web/module/package.json", "utf8"));
const readme = /```js\n([\s\S]*?)```/.exec(readFileSync(root + "web/module/README.md", "utf8"))[1];

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "counterpull-module-"));
  writeFileSync(folder + "/package.json", JSON.stringify({ name: "a-user", version: "1.0.0", type: "module", private: true }));
  run("npm", "install", "--offline", "--no-audit", "--no-fund", "--silent", `${root}.build/module/counterpull-${version}.tgz`);
  module = await import(pathToFileURL(folder + "/node_modules/counterpull/index.js").href);
});
after(() => rmSync(folder, { recursive: true, force: true }));

test("the README's example runs, and says what the command line says", () => {
  writeFileSync(folder + "/example.js", readme);
  const lines = run("node", "example.js").trim().split("\n");
  const link = /fromLink\("(.*)"\)/.exec(readme)[1];
  const told = JSON.parse(commandLine("report", commandLine("open", link), "--json"));
  assert.equal(lines[0], `left alone the tail stands at ${told.untouched.tail_mm.toFixed(1)} mm`);
  assert.equal(lines[1], `${told.advice[0].springs.length} springs, ${told.advice[0].turns.toFixed(2)} turns`);
  assert.equal(lines[2], "next.strings[2].gauge_in: 0.46 is outside 0.005 to 0.150");
});

// Reports are compared in same_answers_test.mjs.
test("links are those of the command line, and open to the same report", () => {
  for (const text of examples) {
    const setup = JSON.parse(text);
    const link = module.toLink(setup);
    assert.equal(link, commandLine("link", text).trim());
    assert.deepEqual(module.report(module.fromLink("#" + link)), module.report(text));
  }
});

test("the job goes step by step as on the command line, to its end", () => {
  let text = readFileSync(root + "tests/examples/lower-and-heavier.json", "utf8");
  for (let steps = 0; steps < 60; ++steps) {
    const step = module.bench(text);
    const native = JSON.parse(commandLine("bench", text, "--json"));
    for (const key of ["step", "of", "do", "say", "cautions", "reading", "tuning"]) assert.deepEqual(step[key], native[key]);
    if (step.do === "finished") return;
    const answer = {};
    for (const { field, string, needed, expected } of step.asks)
      if (needed && field === "tail_mm") answer.tail_mm = expected ?? 0;
      else if (needed) (answer.cents ??= step.tuning.map(() => null))[step.tuning.length - string] = expected ?? 5;
    text = JSON.stringify(module.answered(text, answer));
  }
  assert.fail("no end in 60 steps");
});

test("what is refused throws, with every place and what is expected there", () => {
  const setup = JSON.parse(examples[0]);
  setup.now.tail_mm = "low";
  delete setup.next.strings;
  assert.throws(() => module.report(setup), (/** @type {any} */ error) => {
    assert.ok(error instanceof module.Refused);
    assert.deepEqual(error.problems.map(({ path }) => path).sort(), ["next.strings", "now.tail_mm"]);
    assert.match(error.message, /and 1 more/);
    return error.problems.every(({ expected }) => expected.length > 3);
  });
  assert.throws(() => module.fromLink("Axyz"), module.Refused);
  assert.throws(() => module.report("{"), /line 1/);
  // Megabytes are refused like anything else, and the next question is answered.
  assert.throws(() => module.report("[".repeat(1 << 24)), /at most 1000000 bytes/);
  assert.throws(() => module.fromLink("A".repeat(1 << 24)), /too long/);
  assert.equal(module.report(examples[0]).format, "counterpull-report/1");
});

test("where memory ends, wherever that is, it is said, and the next question is answered as before", async () => {
  const opened = folder + "/opened"; // the same module, into which one can look
  cpSync(folder + "/node_modules/counterpull", opened, { recursive: true });
  appendFileSync(opened + "/index.js", "export { engine };");
  const text = readFileSync(root + "tests/examples/three-readings-in.json", "utf8");
  const message = JSON.parse(readFileSync(root + "engine/words/en.json", "utf8"))["usage.no_memory"];
  const { grow } = WebAssembly.Memory.prototype;
  WebAssembly.Memory.prototype.grow = () => { throw new RangeError("as of a browser that gives no more"); };
  try {
    for (const [name, ...given] of [["report", text], ["bench", text], ["answered", text, "{}"], ["toLink", text], ["fromLink", module.toLink(text)]]) {
      const short = await import(pathToFileURL(opened + "/index.js") + "?" + name); // an engine of its own
      const before = short[name](...given);
      let ended = 0;
      for (let left = 64; ; left = Math.ceil(left * 1.3)) {
        const kept = short.engine._malloc(left);
        for (let size = 1 << 23; size >= 16; size >>= 1) while (short.engine._malloc(size));
        short.engine._free(kept);
        let answer;
        try {
          answer = short[name](...given);
        } catch (error) {
          assert.ok(error instanceof RangeError, String(error));
          assert.equal(error.message, message);
          ++ended;
          assert.deepEqual(short[name](...given), before);
          continue;
        }
        assert.deepEqual(answer, before);
        break;
      }
      assert.ok(ended > 10, `${name}: ${ended} times`);
    }
  } finally {
    WebAssembly.Memory.prototype.grow = grow;
  }
});

test("its types hold for the example, and catch a slip", () => {
  const check = (text) => {
    writeFileSync(folder + "/example.ts", text);
    try {
      run(root + "tests/node_modules/.bin/tsc", "--noEmit", "--strict", "--module", "nodenext", "--target", "es2022", "example.ts");
      return "";
    } catch (error) {
      return error.stdout;
    }
  };
  const typed = readme.replace("advice[0].turns.toFixed", "advice[0].turns?.toFixed");
  assert.equal(check(typed), "");
  assert.match(check(typed.replace("gauge_in", "gauge")), /'gauge' does not exist/);
});
