// The door to the program: what platform_web.cpp exports, by name.
export const program = { ready: false };
const ccall = (...how) => globalThis.Module.ccall(...how);

// Calls with texts and returns a text.
export const ask = (name, ...texts) => ccall("counterpull_" + name, "string", texts.map(() => "string"), texts);
// Calls with texts for its effect.
export const tell = (name, ...texts) => { ccall("counterpull_" + name, null, texts.map(() => "string"), texts); };
export const count = (name) => ccall("counterpull_" + name, "number", [], []);
// A phrase in the page's language (engine/words).
export const say = (key) => ask("text", key);
export const controls = () => JSON.parse(ask("controls"));
