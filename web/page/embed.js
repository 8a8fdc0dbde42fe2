// One answer, fit for a frame in somebody else's page: the set-up comes with the address. The program calculates without
// drawing anything, so that no graphics are needed and the text can be read and copied.
import { element } from "./dom.js";
import { load } from "./load.js";
import { pageText, speak, tellLanguage, wordsThere } from "./language.js";
import { ask, program, say } from "./program.js";

const card = document.getElementById("card");
let shown = false;
const line = (name, text) => element(name, {}, text);

function show() {
  if (!program.ready) return;
  const problem = location.hash.length > 1 ? ask("open_link", location.hash) : "";
  const whole = element("a", { href: "./" + location.hash, target: "_blank", rel: "noopener" }, say("web.open_whole"));
  if (problem) {
    card.replaceChildren(line("p", problem), whole);
    return;
  }
  const answer = ask("answer"); // first, whatever the text heads it with
  const rest = ask("plain").trim().split("\n").filter((text) => text !== answer);
  card.replaceChildren(line("h1", answer), ...rest.map((text) => line("p", text)), whole);
}
addEventListener("hashchange", show);

const notLoaded = () => card.replaceChildren(line("p", pageText(program.ready ? "start.stopped" : "start.not_loaded")));
globalThis.Module = {
  noInitialRun: true,
  onRuntimeInitialized() {
    program.ready = true;
    tellLanguage();
    speak().catch(() => {}).then(show).then(() => { shown = true; }); // without its words it speaks English
  },
  onAbort: notLoaded,
};
const loading = line("p", pageText("start.loading"));
card.replaceChildren(loading);
wordsThere.then(() => { loading.textContent = pageText("start.loading"); });
// Blocked, or the network went: the program's loader only throws. Or it stopped.
for (const kind of ["error", "unhandledrejection"]) addEventListener(kind, (/** @type {any} */ { error, reason }) => {
  if (!shown || (error ?? reason) instanceof WebAssembly.RuntimeError) notLoaded();
});
load(notLoaded);
