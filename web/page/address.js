// What is on the page, and where it comes from and goes to: the address, which always carries the set-up, and the notebook.
// While editing, the address is replaced in place; a set-up opened is a step that "back" undoes.
import { keep, recall, whenNotKept } from "./kept.js";
import * as notebook from "./notebook.js";
import { notify } from "./notice.js";
import { ask, program, say, tell } from "./program.js";

let due = 0;
let known = ""; // written or opened last: only what was edited since is written
let preferences = "";

whenNotKept(() => notify(say("web.not_kept")));

export const link = () => new URL("#" + ask("link"), location.href).href;

// Written a little later, since browsers count how often the address changes.
export function changed() {
  due ||= window.setTimeout(() => write(), 400);
}
function write({ inAddress = true } = {}) {
  clearTimeout(due);
  due = 0;
  if (!program.ready) return;
  const chosen = ask("preferences");
  if (chosen !== preferences) keep("preferences", preferences = chosen);
  const fragment = ask("link");
  if (!fragment || fragment === known) return;
  known = fragment;
  if (inAddress) history.replaceState(null, "", "#" + fragment);
  if (!notebook.store(ask("document"), fragment)) notify(say("web.parted"));
}
// A page that goes to the back may never be woken again.
addEventListener("pagehide", () => { if (due) write(); });
document.addEventListener("visibilitychange", () => { if (due && document.hidden) write(); });

// The link in the address, if there is one to open. It is nobody's until it is changed, unless it is in the notebook. Why
// it cannot be opened, or ""; null where there is none.
function openAddress() {
  if (location.hash.length < 2 || location.hash === "#" + ask("link")) return null;
  const problem = ask("open_link", location.hash);
  notify(problem);
  known = ask("link");
  if (problem) return problem;
  const own = notebook.withLink(known);
  if (own) notebook.take(own);
  else notebook.leave();
  tell("whose", own ? "own" : "linked");
  return "";
}
addEventListener("hashchange", () => {
  if (!program.ready) return;
  write({ inAddress: false }); // there the next one stands already
  openAddress();
});

// Changes the set-up on the page to another of the same guitar; can be undone there.
export function edit(setup) {
  ask("open", setup);
  write();
}

// Why a guitar of the notebook cannot be put on the page, or "".
export function openGuitar(id) {
  write();
  const kept = notebook.take(id);
  return kept === null ? say("web.changed_elsewhere") : open(kept);
}
// The same of a set-up that the notebook has no room for.
export function openUnkept(setup) {
  write();
  notebook.leave();
  return open(setup);
}
function open(setup) {
  const problem = ask("begin", setup);
  if (problem) notebook.leave();
  else tell("whose", "own");
  const fragment = ask("link");
  if (fragment !== known) history.pushState(null, "", "#" + (known = fragment));
  return problem;
}
// A guitar of the reader's own: what is on the page, or one that is begun. The one before stays in the notebook.
export function keepAsOwn(anew) {
  write();
  if (anew) {
    notebook.leave();
    tell("begin_own");
  }
  tell("whose", "own");
  const fragment = ask("link");
  if (!fragment) return;
  if (fragment !== known) history.pushState(null, "", "#" + (known = fragment));
  notebook.store(ask("document"), fragment);
}
notebook.onChangeElsewhere((id) => notify(say("web.changed_elsewhere"), say("web.show_it"), () => notify(openGuitar(id))));

// At the start: a link opened from elsewhere comes first, then what was on the page last, then the example.
export function begin() {
  preferences = recall("preferences");
  if (preferences) tell("prefer", preferences);
  const torn = notebook.setTornAside(), refused = openAddress();
  if (torn) notify([refused, say("web.unreadable")].filter(Boolean).join(" "));
  if (refused !== null) return;
  const last = notebook.last();
  const problem = last && ask("begin", notebook.take(last));
  if (problem) {
    notebook.leave();
    notebook.setAside(last);
    notify(say("web.unreadable") + " (" + problem + ")");
  } else if (last) tell("whose", "own");
  known = ask("link");
}
