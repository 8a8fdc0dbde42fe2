// The notebook: set-ups kept in this browser, one record for each guitar, and beside it what the guitar was before. A tab
// works on one of them. Every writing leaves a stamp, so that a tab sees when another one wrote meanwhile: it then goes on
// with a record of its own, and neither is lost.
import { forget, keep, names, prefix, putAside, recall } from "./kept.js";

const guitar = (id) => "guitar." + id, past = (id) => "past." + id;
const format = "counterpull-notebook/1";
const mostKept = 200; // of what a guitar was before; the oldest go first
const newId = () => Date.now().toString(36) + Math.random().toString(36).slice(2, 8);
const tab = { // which guitar this tab works on, through loading again
  get id() { try { return sessionStorage.getItem(prefix + "here"); } catch { return null; } },
  set id(id) { try { id ? sessionStorage.setItem(prefix + "here", id) : sessionStorage.removeItem(prefix + "here"); } catch { /* then not */ } },
};
let here = null; // { id, stamp }
let sittingBegins = false; // the next change is the first of this sitting: what it was is kept
/** @type {(id: string) => void} */
let changedElsewhere = () => {};

const parsed = (text) => { try { return JSON.parse(text); } catch { return null; } };
function read(id) {
  const record = parsed(recall(guitar(id)));
  return parsed(record?.setup) ? { id, ...record } : null;
}
const ids = () => names().filter((name) => name.startsWith("guitar.")).map((name) => name.slice(7));
export const titleOf = (setup) => parsed(setup)?.title ?? "";
export const readingsOf = (setup) => parsed(setup)?.log?.length ?? 0;

// All that can be read, changed last first.
export const guitars = () => ids().map(read).filter(Boolean).sort((a, b) => b.at - a.at);
export const pastOf = (id) => (parsed(recall(past(id))) ?? []).filter(({ setup }) => parsed(setup));
export const isHere = (id) => here?.id === id;
export const setAside = (id) => putAside(guitar(id));
// Sets records aside that are torn; how many there were.
export function setTornAside() {
  const torn = ids().filter((id) => !read(id));
  torn.forEach(setAside);
  return torn.length;
}

// The stamp that the record has from now on; null where it could not be kept, and is as it was.
function write(id, setup, link) {
  const stamp = newId();
  return keep(guitar(id), JSON.stringify({ setup, link, at: Date.now(), stamp })) ? stamp : null;
}
// This tab works on that guitar from now on; its set-up. Null where there is none any more.
export function take(id) {
  const record = read(id);
  if (!record) return null;
  here = { id, stamp: record.stamp };
  tab.id = id;
  keep("last", id);
  sittingBegins = true;
  return record.setup;
}
// It works on what is nobody's yet: a record is made when that is changed.
export function leave() {
  here = null;
  tab.id = "";
}
// The guitar with that link: this tab's own if it is that, else any; null if none.
export function withLink(link) {
  const all = guitars().filter((record) => record.link === link);
  return (all.find(({ id }) => id === tab.id) ?? all[0])?.id ?? null;
}
export const last = () => [tab.id, recall("last")].find((id) => id && read(id)) ?? null;

// The set-up was changed. False where another tab had changed the guitar meanwhile, so that this became one more.
export function store(setup, link) {
  const before = here && read(here.id);
  const parted = before !== null && before.stamp !== here.stamp;
  if (before && !parted && (sittingBegins || readingsOf(before.setup) !== readingsOf(setup)))
    keep(past(here.id), JSON.stringify([...pastOf(here.id), { at: before.at, setup: before.setup }].slice(-mostKept)));
  const id = here && !parted ? here.id : newId();
  here = { id, stamp: write(id, setup, link) ?? here?.stamp };
  sittingBegins = false;
  tab.id = id;
  keep("last", id);
  return !parted;
}
// What was before is kept at the next change, whenever that is.
export const beginAnew = () => { sittingBegins = true; };

// The new record; null where it could not be kept.
export function add(setup, history = []) {
  const id = newId();
  if (!write(id, setup, "")) return null;
  if (history.length) keep(past(id), JSON.stringify(history));
  return id;
}
// Changes one that is not on the page.
export function put(id, setup) {
  write(id, setup, "");
}
// Returns what puts it back.
export function remove(id) {
  const texts = [guitar(id), past(id)].map((name) => [name, recall(name)]);
  for (const [name] of texts) forget(name);
  if (isHere(id)) leave();
  return () => { for (const [name, text] of texts) if (text) keep(name, text); };
}

export const exported = (some) => JSON.stringify({ format, guitars: some.map(({ id, setup }) => ({ setup: JSON.parse(setup),
  history: pastOf(id).map(({ at, setup: before }) => ({ at: new Date(at).toISOString(), setup: JSON.parse(before) })) })) }, null, 1);
// Takes in a set-up document or a whole notebook; `check(text)` says why a document is refused. Returns what came in, its id
// null where it could not be kept, and the refusals.
export function imported(text, check) {
  const whole = parsed(text);
  const entries = whole?.format === format && Array.isArray(whole.guitars) ? whole.guitars.map((entry, i) => ({ where: `guitars[${i}]: `,
    setup: JSON.stringify(entry?.setup ?? null), history: Array.isArray(entry?.history) ? entry.history : [] })) : [{ where: "", setup: text, history: [] }];
  const came = [], refused = [];
  for (const { where, setup, history } of entries) {
    const why = check(setup);
    if (why) refused.push(where + why);
    else came.push({ setup, id: add(setup, history.map((entry) => ({ at: Date.parse(entry?.at) || Date.now(), setup: JSON.stringify(entry?.setup ?? null) }))
      .filter((entry) => !check(entry.setup))) });
  }
  return { came, refused };
}

export const onChangeElsewhere = (act) => { changedElsewhere = act; };
addEventListener("storage", ({ key, newValue }) => { if (here && key === prefix + guitar(here.id) && newValue) changedElsewhere(here.id); });
