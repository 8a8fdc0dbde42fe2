// The engine of Counterpull without its interface, in a page or in node.
import createEngine from "./engine.js";

const engine = await createEngine();

/** A document or link that was refused: `problems` says where, and what is expected there. */
export class Refused extends Error {
  constructor(message, problems) {
    super(message);
    this.name = "Refused";
    this.problems = problems;
  }
}

const mostTaken = 1100000; // characters; what is longer than a million bytes the engine refuses in its own words

// The engine's memory as it was at the beginning, without what was empty. Where a call is torn off amid its work, above all
// because memory ended, what it left there is of no use: the next call finds this again.
const { stackSave, stackRestore } = engine;
const stack = stackSave(), pageBytes = 1 << 16;
const beginning = [];
for (let at = 0; at < engine.HEAPU8.length; at += pageBytes) {
  if (new Uint32Array(engine.HEAPU8.buffer, at, pageBytes / 4).some((word) => word))
    beginning.push({ at, page: engine.HEAPU8.slice(at, at + pageBytes) });
}
function beginAnew() {
  engine.HEAPU8.fill(0);
  for (const { at, page } of beginning) engine.HEAPU8.set(page, at);
  stackRestore(stack);
}

// Over the heap: a long text does not fit on the stack, the loader's own way.
function place(text) {
  const at = engine.allocateUTF8(String(text).slice(0, mostTaken));
  if (!at) engine._module_no_memory(); // throws
  return at;
}
function ask(name, ...texts) {
  let told;
  try {
    const places = texts.map(place);
    told = engine.ccall(name, "string", places.map(() => "number"), places);
    places.forEach((at) => engine._free(at));
  } catch (problem) {
    beginAnew();
    throw problem;
  }
  const { done, refused, message } = JSON.parse(told);
  if (refused) throw new Refused(message, refused);
  return done;
}
const asText = (setup) => (typeof setup === "string" ? setup : JSON.stringify(setup));

export const report = (setup) => JSON.parse(ask("module_report", asText(setup)));
export const bench = (setup) => JSON.parse(ask("module_bench", asText(setup)));
export const answered = (setup, answer = {}) => JSON.parse(ask("module_answered", asText(setup), asText(answer)));
export const toLink = (setup) => ask("module_to_link", asText(setup));
export const fromLink = (link) => JSON.parse(ask("module_from_link", link));
