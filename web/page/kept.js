// What this browser keeps of the last visit: the set-up as a document, and what the reader chose. Nothing of it
// leaves the device. A browser that keeps nothing (private window, full disk) is worked with all the same.
import { notify } from "./notice.js";
import { say } from "./program.js";

const names = { setup: "counterpull.setup", preferences: "counterpull.preferences", unreadable: "counterpull.unreadable" };
let told = false;

export function keep(what, text) {
  try {
    localStorage.setItem(names[what], text);
  } catch {
    if (!told) notify(say("web.not_kept"));
    told = true;
  }
}
export function recall(what) {
  try {
    return localStorage.getItem(names[what]) ?? "";
  } catch {
    return "";
  }
}
// A set-up that can no longer be read is put aside, not thrown away.
export function putAside(text) {
  keep("unreadable", text);
  try { localStorage.removeItem(names.setup); } catch { /* then it was never kept */ }
}
