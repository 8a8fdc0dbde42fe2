// The address always carries the set-up, and the browser keeps it. While editing it is replaced in place; a link
// opened from elsewhere is a step that "back" undoes.
import { keep, putAside, recall } from "./kept.js";
import { notify } from "./notice.js";
import { ask, program, say, tell } from "./program.js";

let due = 0;
let known = ""; // written or opened last: only what was edited since is written
let preferences = "";

export const link = () => new URL("#" + ask("link"), location.href).href;

// Written a little later, since browsers count how often the address changes.
export function changed() {
  due ||= setTimeout(write, 400);
}
function write() {
  clearTimeout(due);
  due = 0;
  if (!program.ready) return;
  const chosen = ask("preferences");
  if (chosen !== preferences) keep("preferences", preferences = chosen);
  const fragment = ask("link");
  if (!fragment || fragment === known) return;
  known = fragment;
  history.replaceState(null, "", "#" + fragment);
  keep("setup", ask("document"));
}
// A page that goes to the back may never be woken again.
addEventListener("pagehide", () => { if (due) write(); });
document.addEventListener("visibilitychange", () => { if (due && document.hidden) write(); });

// The link in the address, if there is one to open.
function openAddress() {
  if (location.hash.length < 2 || location.hash === "#" + ask("link")) return false;
  notify(ask("open_link", location.hash));
  known = ask("link");
  return true;
}
addEventListener("hashchange", () => { if (program.ready) openAddress(); });

// At the start: a link opened from elsewhere comes first, then what was on the page last, then the example.
export function begin() {
  preferences = recall("preferences");
  if (preferences) tell("prefer", preferences);
  if (openAddress()) return;
  const last = recall("setup");
  const problem = last && ask("open", last);
  if (problem) {
    putAside(last);
    notify(say("web.unreadable") + " (" + problem + ")");
  }
  known = ask("link");
}
