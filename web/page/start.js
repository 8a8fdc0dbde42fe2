// Starts the program and carries between it and the page.
import { load } from "./load.js";
import { stayAwake } from "./awake.js";
import { begin, changed, edit, keepAsOwn, openGuitar } from "./address.js";
import { takeFiles } from "./files.js";
import { pageText, speak, tellLanguage, wordsThere } from "./language.js";
import { mirror, operated } from "./mirror.js";
import * as notebook from "./notebook.js";
import { cover, notify, uncover } from "./notice.js";
import { element } from "./dom.js";
import { keepOffline } from "./offline.js";
import { ask, controls, count, give, program, say, tell } from "./program.js";
import { screenNow, watchScreen } from "./screen.js";
import { share } from "./share.js";
import { follow, type } from "./typing.js";

const canvas = document.getElementById("canvas");
let shown = false;
let ready = false; // in words of the right language
let mirrorDue = 0;

function inWords() {
  speak().catch(() => notify(say("web.no_words"))).then(() => { ready = true; tell("wake"); });
}

globalThis.Module = {
  canvas,
  screen: screenNow(),
  onRuntimeInitialized() {
    program.ready = true;
    tellLanguage();
    begin();
    inWords();
  },
  onAbort() { cover(program.ready ? "start.stopped" : "start.not_loaded", true); },
  onFrame(different, controlsDiffer, wished) {
    if (!shown && ready) {
      shown = true;
      uncover();
      keepOffline().catch(() => {}); // refused by the browser: the page works, from the network
    }
    if (different) {
      inWords();
      document.documentElement.dataset.paper = JSON.parse(ask("preferences")).paper; // what is no canvas follows the choice too
      document.getElementById("spoken").textContent = ask("spoken");
      changed();
    }
    if (controlsDiffer) follow();
    if (controlsDiffer || operated()) mirrorDue ||= window.setTimeout(() => { mirrorDue = 0; mirror(); }, 100);
    if (!wished) return;
    const wish = ask("wish");
    // Not from inside the frame: printing waits for its dialog.
    if (wish === "print") loadSheet().then(() => window.print()).catch(notLoaded);
    if (wish === "awake" || wish === "asleep") stayAwake(wish === "awake");
    if (wish === "own" || wish === "mine") keepAsOwn(wish === "own");
    if (wish === "share") setTimeout(() => share(ask("answer")));
    if (wish === "notebook") openNotebook().catch(notLoaded);
    if (wish === "picture") openPicture().catch(notLoaded);
    if (wish.startsWith("type ")) type(wish.slice(5));
    if (wish === "listen" || wish === "deaf") hear(wish);
    if (wish === "draw") import(DRAWN_WORDS).then(({ drawWords }) => drawWords(ask("words_to_draw"), (...picture) => give("picture_of_word", ...picture))).catch(() => {});
  },
};

// For scripts and tests: the same door that the program's own controls use.
window.counterpull = {
  controls,
  answer: () => ask("answer"),
  document: () => ask("document"),
  guitars: notebook.guitars,
  link: () => ask("link"),
  open: (text) => ask("open", text),
  operate: (id, value = "") => tell("request", id, value),
  frames: () => count("frames"),
};

cover("start.loading", false);
wordsThere.then(() => { if (!document.getElementById("cover").hidden) cover(); });
// Blocked, or the network went: the loader only throws. A program that stops in a frame draws no other.
for (const kind of ["error", "unhandledrejection"]) addEventListener(kind, (/** @type {any} */ { error, reason }) => {
  if (!shown || (error ?? reason) instanceof WebAssembly.RuntimeError) cover(program.ready ? "start.stopped" : "start.not_loaded", true);
});
watchScreen();
const notLoaded = () => notify(pageText("start.part_not_loaded"));
let sheet = null; // the script that writes the work sheet, once it is loaded
const loadSheet = async () => { sheet ??= await import(SHEET); };
for (const kind of ["pointerdown", "keydown"]) addEventListener(kind, () => loadSheet().catch(() => {}), { once: true, capture: true });
addEventListener("beforeprint", () => {
  const paper = document.getElementById("sheet");
  paper.hidden = !program.ready;
  paper.replaceChildren();
  if (!program.ready) return;
  const page = JSON.parse(ask("sheet"));
  if (sheet && page.steps) sheet.writeSheet(paper, page);
  else paper.append(element("h1", {}, ask("answer")));
});
async function hear(wish) {
  try {
    const hearing = await import(LISTENING); // its name, put in by web/pack.mjs
    hearing[wish](JSON.parse(ask("targets")), tell, pageText);
  } catch { // not loaded
    tell("deaf", pageText("start.part_not_loaded"));
  }
}
async function openPicture() {
  const { showPicture } = await import(PICTURE);
  showPicture({ svg: ask("picture"), text: ask("answer"), name: notebook.titleOf(ask("document")) || "counterpull", title: say("ui.save_picture"), say, close: pageText("start.close") });
}
async function openNotebook() {
  const { showNotebook } = await import(NOTEBOOK);
  showNotebook({ notebook, check: (text) => ask("check", text), say, close: pageText("start.close"), openGuitar, edit, takeFiles });
}
canvas.addEventListener("pointerdown", () => canvas.focus({ preventScroll: true }));
// Undo and redo, but for a field's own while it is typed into.
addEventListener("keydown", (event) => {
  const key = event.key.toLowerCase();
  if (!program.ready || event.altKey || !(event.ctrlKey || event.metaKey) || !/^[zy]$/.test(key) || event.target.matches?.("input[type=text], textarea")) return;
  event.preventDefault();
  tell("request", key === "y" || event.shiftKey ? "redo" : "undo", "");
}, { capture: true });
// Keys that are the browser's own do not reach SDL, which would swallow them.
addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || /^F\d+$/.test(event.key) || event.key === "Tab" || event.target !== canvas)
    event.stopImmediatePropagation();
}, { capture: true });

// A graphics context that went away comes back by itself, or the page offers to load again.
canvas.addEventListener("webglcontextlost", (event) => {
  event.preventDefault();
  const waiting = setTimeout(() => cover("start.lost", true), 3000);
  canvas.addEventListener("webglcontextrestored", () => {
    clearTimeout(waiting);
    uncover("start.lost");
  }, { once: true });
});

// The program asks the canvas again and is given this same context.
const graphics = canvas.getContext("webgl", { alpha: false, depth: false, stencil: false, antialias: false, powerPreference: "low-power" });
if (!window.WebAssembly) cover("start.no_wasm");
else if (!graphics) cover("start.no_webgl");
else load(() => cover("start.not_loaded", true));
