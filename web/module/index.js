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

function ask(name, ...texts) {
  // Over the heap: a long text does not fit on the stack, the loader's own way.
  const places = texts.map((text) => engine.allocateUTF8(String(text).slice(0, mostTaken)));
  const { done, refused, message } = JSON.parse(engine.ccall(name, "string", places.map(() => "number"), places));
  places.forEach((place) => engine._free(place));
  if (refused) throw new Refused(message, refused);
  return done;
}
const asText = (setup) => (typeof setup === "string" ? setup : JSON.stringify(setup));

export const report = (setup) => JSON.parse(ask("module_report", asText(setup)));
export const bench = (setup) => JSON.parse(ask("module_bench", asText(setup)));
export const answered = (setup, answer = {}) => JSON.parse(ask("module_answered", asText(setup), asText(answer)));
export const toLink = (setup) => ask("module_to_link", asText(setup));
export const fromLink = (link) => JSON.parse(ask("module_from_link", link));
