// What this browser keeps, by name. Nothing of it leaves the device. A browser that keeps nothing (private window, full
// disk) is worked with all the same.
export const prefix = "counterpull.";
let told = false;
let notKept = () => {};
export const whenNotKept = (act) => { notKept = act; }; // the first time

// False where it cannot be kept.
export function keep(name, text) {
  try {
    localStorage.setItem(prefix + name, text);
    return true;
  } catch {
    if (!told) notKept();
    told = true;
    return false;
  }
}
export function recall(name) {
  try {
    return localStorage.getItem(prefix + name) ?? "";
  } catch {
    return "";
  }
}
export function forget(name) {
  try { localStorage.removeItem(prefix + name); } catch { /* then it was never kept */ }
}
export function names() {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(prefix)).map((key) => key.slice(prefix.length));
  } catch {
    return [];
  }
}
// What can no longer be read is put aside, not thrown away.
export function putAside(name) {
  if (keep("unreadable." + name, recall(name))) forget(name);
}
