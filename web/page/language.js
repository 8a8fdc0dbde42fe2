// The language of the page: chosen by the reader, else the browser's. What is said before there is a program comes with
// the scripts (PAGE_WORDS, put in by web/pack.mjs from engine/words); the program has its English, other words are a
// file (WORD_FILES), fetched beside it.
import { recall } from "./kept.js";
import { ask, tell } from "./program.js";

const ofBrowser = (navigator.languages ?? []).map((name) => name.slice(0, 2)).find((code) => code in PAGE_WORDS) ?? "en";
function chosen() {
  try { return JSON.parse(recall("preferences")).language; } catch { return ""; } // none, or torn
}
let current = chosen() in PAGE_WORDS ? chosen() : ofBrowser;
let inProgram = "en";
let failed = "";
const fetched = new Map();
function fileOf(code) {
  if (!fetched.has(code)) fetched.set(code, fetch(WORD_FILES[code]).then((answer) => { if (!answer.ok) throw answer; return answer.text(); }));
  return fetched.get(code);
}

export const pageText = (key) => PAGE_WORDS[current][key];
function markPage() {
  document.documentElement.lang = current;
  document.title = pageText("start.title");
}
markPage();
if (current in WORD_FILES) fileOf(current).catch(() => {}); // asked for again when it is needed

// To be called when the program has come up, before its first frame.
export const tellLanguage = () => tell("device_language", ofBrowser);
// Gives the program the words of the language that it is to speak; true where they had to be given.
export async function speak() {
  const wanted = ask("language");
  if (wanted === inProgram || wanted === failed) return false;
  try {
    if (wanted in WORD_FILES) tell("speak", wanted, await fileOf(wanted));
  } catch (problem) {
    fetched.delete(wanted);
    failed = wanted;
    throw problem;
  }
  failed = "";
  inProgram = current = wanted;
  markPage();
  return true;
}
