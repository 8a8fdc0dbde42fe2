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

function ask(name, text) {
  const { done, refused, message } = JSON.parse(engine.ccall(name, "string", ["string"], [text]));
  if (refused) throw new Refused(message, refused);
  return done;
}
const asText = (setup) => (typeof setup === "string" ? setup : JSON.stringify(setup));

export const report = (setup) => JSON.parse(ask("module_report", asText(setup)));
export const toLink = (setup) => ask("module_to_link", asText(setup));
export const fromLink = (link) => JSON.parse(ask("module_from_link", link));
