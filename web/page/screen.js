// The screen as the program is told of it, and every way in which it may change.
import { program, tell } from "./program.js";

const canvas = document.getElementById("canvas");
const coarse = matchMedia("(pointer: coarse)");
const dark = matchMedia("(prefers-color-scheme: dark)");
const inset = (side) => parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--inset-" + side)) || 0;

// In the order of platform_web.cpp's ScreenValue.
export const screenNow = () => [canvas.clientWidth, canvas.clientHeight, devicePixelRatio, coarse.matches ? 1 : 0,
  dark.matches ? 1 : 0, inset("top"), inset("right"), inset("bottom"), inset("left")];

function resized() {
  Module.screen = screenNow();
  if (!program.ready) return;
  // SDL listens to the window alone.
  window.dispatchEvent(new Event("resize"));
  tell("wake");
}
export function watchScreen() {
  new ResizeObserver(resized).observe(canvas);
  window.visualViewport?.addEventListener("resize", resized);
  for (const query of [coarse, dark]) query.addEventListener("change", resized);
  (function watchDensity() {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener("change", () => {
      resized();
      watchDensity();
    }, { once: true });
  })();
}
