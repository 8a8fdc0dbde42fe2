// Runs the hearing (hearing.cpp) beside the page: samples come from the tap's port, what is heard goes to the page.
const told = 6, ofString = 6, ofTarget = 4;
const apart = 50; // ms
/** @type {any} */
let hearing = null;
let wanted = [], edition = 0, strings = 0, due = false, toldAt = 0;

// Its address is put in by web/pack.mjs. It asks nothing of us but to be let go on.
const imports = new Proxy({}, { get: () => new Proxy({}, { get: () => () => 0 }) });
async function program() {
  try {
    return await WebAssembly.instantiateStreaming(fetch(HEARING), imports);
  } catch { // a server that does not call it application/wasm
    const answer = await fetch(HEARING);
    if (!answer.ok) throw new Error(HEARING + ": " + answer.status);
    return WebAssembly.instantiate(await answer.arrayBuffer(), imports);
  }
}
function expect() {
  strings = wanted.length / ofTarget;
  new Float64Array(hearing.memory.buffer, hearing.hearing_targets(), wanted.length).set(wanted);
}
// After all that is in the queue, so that a slow device tells seldom instead of late; no oftener than an eye follows.
function tellSoon() {
  if (due || performance.now() - toldAt < apart) return;
  due = true;
  later.port2.postMessage(0);
}
const later = new MessageChannel();
later.port1.onmessage = () => {
  due = false;
  toldAt = performance.now();
  const numbers = new Float64Array(hearing.memory.buffer, hearing.hearing_told(), told + 2 * ofString * strings).slice();
  postMessage({ edition, numbers });
};
function hear({ data }) {
  new Float32Array(hearing.memory.buffer, hearing.hearing_samples(), data.length).set(data);
  hearing.hearing_hear(data.length);
  tellSoon();
}

onmessage = async ({ data: { begin, ...given } }) => {
  wanted = given.targets; // others may come while the program is on its way
  edition = given.edition; // goes back with what is heard
  try {
    if (begin) {
      const { instance } = await program();
      hearing = instance.exports;
      hearing._initialize?.();
      expect();
      hearing.hearing_begin(strings, begin.rate);
      begin.port.onmessage = hear;
      postMessage("begun");
    } else if (hearing) {
      expect();
      hearing.hearing_expect(strings);
    }
  } catch (problem) {
    postMessage("not loaded");
    throw problem;
  }
};
