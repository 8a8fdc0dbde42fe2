// What the scripts find beside what browsers and node have, for the type check (tests/run).
declare const PROGRAM: string, WASM: string, CODE: string, LISTENING: string, NOTEBOOK: string, PICTURE: string, SHEET: string, DRAWN_WORDS: string;
declare const WORKER: string, TAP: string, HEARING: string, VERSION: string; // put in by web/pack.mjs, as these are
declare const FILES: string[], LATER: Record<string, string[]>, LANGUAGES: Record<string, [string, string]>;
declare const PAGE_WORDS: Record<string, string>, LISTENING_WORDS: Record<string, string>;
declare var Module: any; // Emscripten's
interface Window { [what: string]: any } // the page's own door, and what tests leave there
declare module "uqr";
declare module "*/engine.js"; // made by web/module/pack
// What is found by a selector or is an event's target may be of any kind: what the scripts ask such ones for.
interface Element { value?: any; content?: any; hidden?: any; onclick?: any; focus?: any; blur?: any }
interface EventTarget { matches?: any; dataset?: any }
interface Document {
  getElementById(id: "canvas"): HTMLCanvasElement;
  getElementById(id: "entry"): HTMLInputElement;
  getElementById(id: "share" | "notebook" | "picture"): HTMLDialogElement;
}
