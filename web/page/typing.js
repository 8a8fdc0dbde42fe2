// What is typed goes into a real field laid over the drawn one. On touch it is opened in the touch handler itself, since
// only there will a phone bring up its keyboard, with a ± beside it where a sign is possible: many phones' number pads
// have none. Else it is opened when the program asks for it.
import { controls, program, tell } from "./program.js";

const canvas = document.getElementById("canvas");
const entry = document.getElementById("entry");
const sign = document.getElementById("sign");
const narrowest = 92; // px
let editing = null;
let before = ""; // what it was opened
let start = null;

canvas.addEventListener("touchstart", (event) => {
  const { clientX: x, clientY: y } = event.changedTouches[0];
  start = { x, y, field: program.ready && controls().find(({ role, covered, seen: [left, top, right, bottom] }) =>
    (role === "spinbutton" || role === "textbox") && !covered &&
    x >= left && x <= right && y >= top && y <= bottom) };
}, { passive: true });
canvas.addEventListener("touchend", (event) => {
  const { clientX: x, clientY: y } = event.changedTouches[0];
  if (start?.field && Math.hypot(x - start.x, y - start.y) <= 10) open(start.field, true);
});
export function type(id) {
  const field = controls().find((control) => control.id === id);
  if (field) open(field, false);
}

function place([left, top, right, bottom]) {
  const height = bottom - top;
  // The program keeps the field in sight; where there is no room for it at all, at least what is typed is seen.
  const view = window.visualViewport;
  const seen = view ? Math.max(view.offsetTop, Math.min(top, view.offsetTop + view.height - height)) : top;
  // A word in a sentence is narrower than what is typed; the sign stands where there is room for it.
  const width = Math.max(right - left, narrowest), x = Math.min(left, canvas.clientWidth - width - 8);
  Object.assign(entry.style, { left: x + "px", top: seen + "px", width: width + "px", height: height + "px" });
  Object.assign(sign.style, { left: (x > height + 4 ? x - height - 4 : x + width + 4) + "px", top: entry.style.top, width: height + "px", height: height + "px" });
}
// With every frame that moved something: the box goes with its field, and where that is gone, it is closed.
export function follow() {
  if (!editing) return;
  const field = controls().find(({ id }) => id === editing);
  if (field) place(field.rect);
  else entry.blur();
}
function open(field, byTouch) {
  editing = field.id;
  before = field.value;
  entry.value = field.value === "–" ? "" : field.value; // nothing was entered yet
  entry.setAttribute("aria-label", field.label);
  entry.inputMode = field.typed === "text" ? "text" : "decimal";
  place(field.rect);
  entry.hidden = false;
  tell("typing", field.id);
  sign.hidden = !byTouch || field.typed !== "signed";
  entry.focus();
  entry.select();
}

const enter = () => { if (editing) tell("request", editing, entry.value); };
entry.addEventListener("input", enter);
entry.addEventListener("compositionend", enter);
entry.addEventListener("keydown", ({ key }) => {
  const leaves = key === "Enter" || key === "Escape";
  if (key === "Escape" && entry.inputMode !== "text") {
    entry.value = before;
    enter();
  }
  // A list goes by these keys while it is narrowed by what is typed.
  if (entry.inputMode === "text" && (leaves || key === "ArrowDown" || key === "ArrowUp"))
    for (const kind of ["keydown", "keyup"]) canvas.dispatchEvent(new KeyboardEvent(kind, { key, code: key, bubbles: true }));
  if (leaves) canvas.focus({ preventScroll: true });
});
// Some keyboards on a screen name no key: their Enter is known by what it would do.
entry.addEventListener("beforeinput", (event) => { if (event.inputType === "insertLineBreak") entry.blur(); });
entry.addEventListener("blur", () => { entry.hidden = sign.hidden = true; editing = null; tell("typing", ""); });
// Before the field loses the focus to the button.
sign.addEventListener("pointerdown", (event) => {
  event.preventDefault();
  const text = entry.value.trim();
  entry.value = /^[-−]/.test(text) ? text.slice(1) : "−" + text.replace(/^\+/, "");
  enter();
});
