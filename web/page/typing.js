// On touch a number is typed into a real field laid over the drawn one, opened in the touch handler itself since only
// there will a phone bring up its keyboard. The field has a ± beside it where a sign is possible: many phones' number
// pads have none.
import { controls, program, tell } from "./program.js";

const canvas = document.getElementById("canvas");
const entry = document.getElementById("entry");
const sign = document.getElementById("sign");
let editing = null;
let start = null;

canvas.addEventListener("touchstart", (event) => {
  const touch = event.changedTouches[0];
  start = { x: touch.clientX, y: touch.clientY };
}, { passive: true });
canvas.addEventListener("touchend", (event) => {
  const { clientX: x, clientY: y } = event.changedTouches[0];
  if (!program.ready || !start || Math.hypot(x - start.x, y - start.y) > 10) return;
  const field = controls().find((c) => (c.role === "spinbutton" || c.role === "textbox") && !c.covered &&
    x >= c.rect[0] && x <= c.rect[2] && y >= c.rect[1] && y <= c.rect[3]);
  if (field) open(field);
});

function place() {
  const [left, top, right, bottom] = (controls().find((c) => c.id === editing.id) ?? editing).rect;
  // The keyboard has come up: the field stays above it.
  const view = window.visualViewport;
  const room = view ? view.offsetTop + view.height - (bottom - top) - 12 : top;
  Object.assign(entry.style, { left: left + "px", top: Math.min(top, room) + "px", width: right - left + "px",
    height: bottom - top + "px" });
  Object.assign(sign.style, { left: left - (bottom - top) - 4 + "px", top: entry.style.top, width: bottom - top + "px",
    height: bottom - top + "px" });
}
function open(field) {
  editing = field;
  entry.value = field.value;
  entry.setAttribute("aria-label", field.label);
  entry.inputMode = field.typed === "text" ? "text" : "decimal";
  place();
  entry.hidden = false;
  tell("typing", field.id);
  sign.hidden = field.typed !== "signed";
  entry.focus();
  entry.select();
}
// Drawn anew for the room that is left, and then found there.
window.visualViewport?.addEventListener("resize", () => requestAnimationFrame(() => requestAnimationFrame(() => { if (editing) place(); })));

const enter = () => { if (editing) tell("request", editing.id, entry.value); };
entry.addEventListener("input", enter);
entry.addEventListener("compositionend", enter);
entry.addEventListener("keydown", (event) => { if (event.key === "Enter" || event.key === "Escape") entry.blur(); });
entry.addEventListener("blur", () => { entry.hidden = sign.hidden = true; editing = null; tell("typing", ""); });
// Before the field loses the focus to the button.
sign.addEventListener("pointerdown", (event) => {
  event.preventDefault();
  const text = entry.value.trim();
  entry.value = /^[-−]/.test(text) ? text.slice(1) : "−" + text.replace(/^\+/, "");
  enter();
});
