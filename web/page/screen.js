// The screen as the program is told of it, and every way in which it may change.
import { element } from "./dom.js";
import { program, tell } from "./program.js";

const canvas = document.getElementById("canvas");
const coarse = matchMedia("(pointer: coarse)");
const dark = matchMedia("(prefers-color-scheme: dark)");
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const demands = matchMedia("(forced-colors: active)");
// A system colour as the program packs it: 0xAABBGGRR.
const systemColour = (name) => {
  const probe = element("i", { hidden: true });
  probe.style.color = name;
  document.body.append(probe);
  const [red, green, blue] = getComputedStyle(probe).color.match(/\d+/g).map(Number);
  probe.remove();
  return ((255 << 24) | (blue << 16) | (green << 8) | red) >>> 0;
};
// What an on-screen keyboard covers of the canvas; it takes nothing from the layout itself. A page pinched larger shows
// less too, and is no keyboard.
const covered = () => {
  const view = window.visualViewport;
  return view && view.scale < 1.01 && document.activeElement?.id === "entry" ? Math.max(0, canvas.clientHeight - view.offsetTop - view.height) : 0;
};
const inset = (side) => parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--inset-" + side)) || 0;

// In the order of platform_web.cpp's ScreenValue.
export const screenNow = () => [canvas.clientWidth, canvas.clientHeight, devicePixelRatio, coarse.matches ? 1 : 0,
  dark.matches ? 1 : 0, inset("top"), inset("right"),
  Math.max(inset("bottom"), covered()), inset("left"), calm.matches ? 1 : 0, ...(demands.matches ? [1, ...["Canvas", "CanvasText", "LinkText"].map(systemColour)] : [0])];

function resized() {
  Module.screen = screenNow();
  if (!program.ready) return;
  // SDL listens to the window alone.
  window.dispatchEvent(new Event("resize"));
  tell("wake");
}
export function watchScreen() {
  new ResizeObserver(resized).observe(canvas);
  for (const what of ["resize", "scroll"]) window.visualViewport?.addEventListener(what, resized);
  for (const query of [coarse, dark, calm, demands]) query.addEventListener("change", resized);
  (function watchDensity() {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener("change", () => {
      resized();
      watchDensity();
    }, { once: true });
  })();
}
