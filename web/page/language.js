// The language of the page: chosen by the reader, else the browser's. English comes with the scripts (PAGE_WORDS, put in by
// web/pack.mjs from engine/words) and with the program; another language is two files (LANGUAGES), its words and the letters
// that English lacks, fetched beside the program.
import { recall } from "./kept.js";
import { ask, give, tell } from "./program.js";

// The first of the reader's that there is: each as it is, then shorter by a subtag at a time (RFC 4647, 3.4 "Lookup").
function lookup(ranges) {
  const there = ["en", ...Object.keys(LANGUAGES)];
  for (const range of ranges)
    for (let subtags = range.toLowerCase().split("-"); subtags.length; subtags.pop())
      if (there.includes(subtags.join("-"))) return subtags.join("-");
  return "en";
}
const ofBrowser = lookup(navigator.languages ?? []);
function chosen() {
  try { return JSON.parse(recall("preferences")).language; } catch { return ""; } // none, or torn
}
const first = chosen() in LANGUAGES || chosen() === "en" ? chosen() : ofBrowser;
let inProgram = "en";
let failed = "";
let pageWords = PAGE_WORDS;
const fetched = new Map();
async function part(name) {
  const answer = await fetch(name);
  if (!answer.ok) throw answer;
  return answer;
}
function filesOf(code) {
  if (!fetched.has(code)) fetched.set(code, Promise.all(LANGUAGES[code].map(part)).then(([words, faces]) => Promise.all([words.text(), faces.arrayBuffer()])));
  return fetched.get(code);
}

// Nothing where the language has other words for it, and they are not there yet.
export const pageText = (key) => pageWords[key];
function markPage(code, words) {
  pageWords = words;
  document.documentElement.lang = code;
  document.title = pageText("start.title");
}
// Done when the page says its own words in the reader's language, or when they cannot be had: asked for again later.
export const wordsThere = first === "en" ? Promise.resolve() : filesOf(first).then(([words]) => markPage(first, JSON.parse(words))).catch(() => fetched.delete(first));

// To be called when the program has come up, before its first frame.
export const tellLanguage = () => tell("device_language", ofBrowser);
// Gives the program the words of the language that it is to speak; true where they had to be given.
export async function speak() {
  const wanted = ask("language");
  if (wanted === inProgram || wanted === failed) return false;
  let words = "";
  try {
    if (wanted in LANGUAGES) {
      const [text, faces] = await filesOf(wanted);
      words = text;
      give("faces", faces.byteLength, new Uint8Array(faces));
      tell("speak", wanted, words);
      navigator.serviceWorker?.ready.then(({ active }) => active.postMessage(wanted)); // to be kept (sw.js)
    }
  } catch (problem) {
    fetched.delete(wanted);
    failed = wanted;
    throw problem;
  }
  failed = "";
  inProgram = wanted;
  markPage(wanted, words ? JSON.parse(words) : PAGE_WORDS);
  return true;
}
