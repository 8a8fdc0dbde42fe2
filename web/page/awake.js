// While the bench is open the screen stays on, and what a foot switch sends (some key that turns a page) is Done wherever
// the focus is. On the canvas the program takes keys itself.
import { tell } from "./program.js";

let wanted = false;
let lock = null;

async function hold() {
  if (!wanted || document.hidden) return;
  // Lost whenever the page goes to the back. Where there is none, or the battery is low, the screen goes off as ever.
  const held = await navigator.wakeLock?.request("screen").catch(() => null);
  lock?.release();
  lock = held;
  if (!wanted) lock?.release();
}
document.addEventListener("visibilitychange", hold);

export function stayAwake(on) {
  wanted = on;
  if (on) hold();
  else lock?.release();
}

addEventListener("keydown", (event) => {
  const { key, target } = event;
  if (!wanted || event.ctrlKey || event.metaKey || event.altKey || target.matches?.("canvas, input[type=text], select, textarea")) return;
  const pages = ["PageDown", "ArrowRight", "ArrowDown"].includes(key);
  if (!pages && (![" ", "Enter"].includes(key) || target.matches?.("button, input"))) return; // those press what has the focus
  event.preventDefault();
  event.stopImmediatePropagation();
  if (!event.repeat) tell("request", "job.done", "");
}, { capture: true });
