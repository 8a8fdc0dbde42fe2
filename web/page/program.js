// The door to the program: what platform_web.cpp exports, by name.
export const program = { ready: false };
const mostTaken = 1100000; // characters; what is longer than a million bytes the engine refuses in its own words

// Texts go over the heap: the loader's own way, over the stack, ends the program where a text is long.
function call(name, returns, texts) {
  const { ccall, allocateUTF8, _free } = globalThis.Module;
  const places = texts.map((text) => allocateUTF8(String(text).slice(0, mostTaken)));
  const told = ccall("counterpull_" + name, returns, places.map(() => "number"), places);
  places.forEach((place) => _free(place));
  return told;
}
// Calls with texts and returns a text.
export const ask = (name, ...texts) => call(name, "string", texts);
// Calls with texts for its effect.
export const tell = (name, ...texts) => { call(name, null, texts); };
// Calls with numbers, and at the end bytes, not many: they go over the stack.
export function give(name, ...values) {
  const bytes = values.at(-1);
  globalThis.Module.ccall("counterpull_" + name, null, values.map((value) => (value === bytes ? "array" : "number")), values);
}
export const count = (name) => call(name, "number", []);
// A phrase in the page's language (engine/words).
export const say = (key) => ask("text", key);
export const controls = () => JSON.parse(ask("controls"));
