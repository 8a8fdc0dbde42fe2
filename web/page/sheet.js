// On paper the work sheet stands instead of the canvas: one page with what is on the guitar and what is wanted, the
// springs from behind, the steps, and room for what is read.
// Loaded when something is first touched or typed, since a browser prints without waiting.
import { element } from "./dom.js";

const blanks = 3; // rows for readings
// A number and its unit stay on one line.
const whole = (text) => text.replace(/([\d⅛¼⅜½⅝¾⅞]) (?=(mm|in|N|lbf|kgf|Hz|%|cents?|turns?|Umdreh\w*)\b|%)/gi, "$1\u00a0");
const line = (name, text, className = "") => element(name, { className }, whole(text));
const things = (title, list) => (list.length ? [element("p", { className: "things" }, element("b", {}, title), " " + whole(list.join("; ")))] : []);

function drawn(name, setting, ...inside) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(setting)) made.setAttribute(key, value);
  made.append(...inside);
  return made;
}
// The bay with the neck to the right and the bass side below: holes in the block, hooks on the claw, a line for a spring.
function bay({ bass, hook_mm: hooks, hole_mm: holes }, springs, title) {
  const half = Math.max(...[...hooks, ...holes].map(Math.abs)) + 8, block = 10, claw = 100;
  const y = (across) => half - across;
  const dot = (x, across, taken) => drawn("circle", { cx: x, cy: y(across), r: 2.2, class: taken ? "taken" : "" });
  const taken = (place, which) => springs.some((spring) => spring[place] === which);
  return element("figure", {}, drawn("svg", { viewBox: `0 0 120 ${2 * half}`, role: "img" },
    drawn("path", { d: `M${block} 3v${2 * half - 6}M${claw} 3v${2 * half - 6}` }),
    ...springs.map(([hook, hole]) => drawn("path", { d: `M${block} ${y(holes[hole])}L${claw} ${y(hooks[hook])}`, class: "spring" })),
    ...holes.map((across, i) => dot(block, across, taken(1, i))), ...hooks.map((across, i) => dot(claw, across, taken(0, i))),
    ...hooks.map((across, i) => drawn("text", { x: claw + 6, y: y(across) + 3 }, i + 1))),
  element("figcaption", {}, title + " · ↓ " + bass));
}
const room = ({ title, heads }) => element("div", { className: "room" }, line("h2", title), element("table", {},
  element("tr", {}, ...heads.map((head) => line("th", head))),
  ...Array.from({ length: blanks }, () => element("tr", {}, ...heads.map(() => element("td"))))));

export function writeSheet(sheet, page) {
  const date = new Date().toLocaleDateString(document.documentElement.lang, { dateStyle: "long" });
  sheet.append(line("p", date, "date"));
  if (page.title) sheet.append(line("p", page.title, "title"));
  sheet.append(line("h1", page.answer),
    element("div", { className: "head" },
      element("div", {}, ...page.strung.map((text) => line("p", text)), ...page.details.map((text) => line("p", text))),
      bay(page.hooks, page.hooks.now, page.hooks.now_title), bay(page.hooks, page.hooks.next, page.hooks.next_title)));
  sheet.append(...things(page.at_hand_title, page.at_hand), element("ol", {}, ...page.steps.map((step) => element("li", {}, whole(step.text),
    ...(step.blank ? [" ", line("span", step.blank, "blank")] : []), ...step.cautions.map((text) => line("p", text, "caution"))))));
  sheet.append(room(page.readings), ...things(page.back_title, page.back), line("p", page.closing));
}
