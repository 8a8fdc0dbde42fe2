// Starts the program and carries between it and the page: screen, touch typing, the answer read aloud.
"use strict";

const canvas = document.getElementById("canvas");
const cover = document.getElementById("cover");
const spoken = document.getElementById("spoken");
const entry = document.getElementById("entry");
const reload = document.getElementById("reload");
const coarse = matchMedia("(pointer: coarse)");
const dark = matchMedia("(prefers-color-scheme: dark)");

function tell(text, offerReload) {
  document.getElementById("message").textContent = text;
  reload.hidden = !offerReload;
  cover.hidden = false;
}
reload.addEventListener("click", () => location.reload());

const inset = (side) => parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--inset-" + side)) || 0;
// In the order of platform_web.cpp's ScreenValue.
const screenNow = () => [canvas.clientWidth, canvas.clientHeight, devicePixelRatio, coarse.matches ? 1 : 0,
  dark.matches ? 1 : 0, inset("top"), inset("right"), inset("bottom"), inset("left")];

let ready = false;
let lastAnswer = "";
const call = (name, type, types = [], values = []) => Module.ccall("counterpull_" + name, type, types, values);
const controls = () => JSON.parse(call("controls", "string"));

var Module = {
  canvas,
  screen: screenNow(),
  onRuntimeInitialized() {
    ready = true;
    openAddress();
  },
  onAbort() { tell("The program stopped. What you entered since the page opened may be lost.", true); },
  onFrame() {
    cover.hidden = true;
    const answer = call("answer", "string");
    if (answer !== lastAnswer) spoken.textContent = lastAnswer = answer;
    if (!addressDue) addressDue = setTimeout(writeAddress, 400);
    // Not from inside the frame: printing waits for its dialog.
    if (call("wish", "string") === "print") setTimeout(() => window.print());
  },
};

// The address always carries the set-up. While editing it is replaced in place; a link opened from elsewhere is a
// step that "back" undoes. Written a little later, since browsers count how often it changes.
let addressDue = 0;
let knownLink = ""; // written or opened last: only what was edited since is written
function writeAddress() {
  addressDue = 0;
  const link = ready ? call("link", "string") : "";
  if (!link || link === knownLink) return;
  knownLink = link;
  history.replaceState(null, "", "#" + link);
}
function notify(text) {
  const notice = document.getElementById("notice");
  notice.querySelector("p").textContent = text;
  notice.hidden = !text;
}
document.querySelector("#notice button").addEventListener("click", () => notify(""));
function openAddress() {
  if (location.hash.length < 2 || location.hash === "#" + call("link", "string")) return;
  notify(call("open_link", "string", ["string"], [location.hash]));
  knownLink = call("link", "string");
}
addEventListener("hashchange", () => { if (ready) openAddress(); });

// For scripts and tests: the same door that the program's own controls use.
window.counterpull = {
  controls,
  answer: () => call("answer", "string"),
  document: () => call("document", "string"),
  link: () => call("link", "string"),
  open: (text) => call("open", "string", ["string"], [text]),
  operate: (id, value = "") => call("request", null, ["string", "string"], [id, value]),
  frames: () => call("frames", "number"),
};

// On paper the work sheet stands instead of the canvas. Titles are data: text, never markup.
function element(name, text, kind) {
  const made = document.createElement(name);
  made.textContent = text;
  if (kind) made.className = kind;
  return made;
}
function list(name, lines) {
  const made = document.createElement(name);
  made.append(...lines.map((line) => element("li", line)));
  return made;
}
function writeSheet() {
  const sheet = document.getElementById("sheet");
  sheet.replaceChildren();
  sheet.hidden = !ready;
  if (!ready) return;
  const page = JSON.parse(call("sheet", "string"));
  if (!page.steps) {
    sheet.append(element("h1", call("answer", "string")));
    return;
  }
  if (page.title) sheet.append(element("p", page.title, "title"));
  sheet.append(element("h1", page.answer), ...page.details.map((line) => element("p", line)));
  if (page.buy.length) sheet.append(element("h2", page.buy_title), list("ul", page.buy));
  const steps = document.createElement("ol");
  for (const step of page.steps) {
    const item = element("li", step.text);
    item.append(...step.cautions.map((line) => element("p", line, "caution")));
    if (step.blank) item.append(element("p", step.blank, "blank"));
    steps.append(item);
  }
  sheet.append(steps);
  if (page.back.length) sheet.append(element("h2", page.back_title), list("ul", page.back));
  sheet.append(element("p", page.closing));
}
window.addEventListener("beforeprint", writeSheet);

function resized() {
  Module.screen = screenNow();
  if (!ready) return;
  // SDL listens to the window alone.
  window.dispatchEvent(new Event("resize"));
  call("wake", null);
}
new ResizeObserver(resized).observe(canvas);
if (window.visualViewport) visualViewport.addEventListener("resize", () => {
  // The keyboard has come up: the field stays above it.
  const room = visualViewport.offsetTop + visualViewport.height - entry.offsetHeight - 12;
  if (editing) entry.style.top = Math.min(Number(entry.dataset.top), room) + "px";
  Module.screen = screenNow();
  if (ready) call("wake", null);
});
for (const query of [coarse, dark]) query.addEventListener("change", resized);
(function watchDensity() {
  matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener("change", () => {
    resized();
    watchDensity();
  }, { once: true });
})();
canvas.addEventListener("pointerdown", () => canvas.focus({ preventScroll: true }));

// Keys that are the browser's own do not reach SDL, which would swallow them.
window.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || /^F\d+$/.test(event.key) || document.activeElement === entry)
    event.stopImmediatePropagation();
}, { capture: true });

// On touch a number is typed into a real field laid over the drawn one, opened in the touch handler itself
// since only there will a phone bring up its keyboard.
let editing = null;
let touchStart = null;
canvas.addEventListener("touchstart", (event) => {
  const touch = event.changedTouches[0];
  touchStart = { x: touch.clientX, y: touch.clientY };
}, { passive: true });
canvas.addEventListener("touchend", (event) => {
  const { clientX: x, clientY: y } = event.changedTouches[0];
  if (!ready || !touchStart || Math.hypot(x - touchStart.x, y - touchStart.y) > 10) return;
  const field = controls().find((c) => c.role === "spinbutton" &&
    x >= c.rect[0] && x <= c.rect[2] && y >= c.rect[1] && y <= c.rect[3]);
  if (field) openEntry(field);
});
function openEntry(field) {
  editing = field.id;
  const [left, top, right, bottom] = field.rect;
  Object.assign(entry.style, { left: left + "px", top: top + "px", width: right - left + "px", height: bottom - top + "px" });
  entry.dataset.top = top;
  entry.value = field.value;
  entry.setAttribute("aria-label", field.label);
  entry.inputMode = /tuning/.test(field.id) ? "text" : "decimal";
  entry.hidden = false;
  entry.focus();
  entry.select();
}
const enter = () => editing && window.counterpull.operate(editing, entry.value);
entry.addEventListener("input", enter);
entry.addEventListener("compositionend", enter);
entry.addEventListener("keydown", (event) => { if (event.key === "Enter" || event.key === "Escape") entry.blur(); });
entry.addEventListener("blur", () => { entry.hidden = true; editing = null; });

// A graphics context that went away comes back by itself, or the page offers to load again.
canvas.addEventListener("webglcontextlost", (event) => {
  event.preventDefault();
  const waiting = setTimeout(() => tell("The drawing was lost: the graphics of this device went away.", true), 3000);
  canvas.addEventListener("webglcontextrestored", () => clearTimeout(waiting), { once: true });
});

function hasWebGL() {
  try {
    const probe = document.createElement("canvas").getContext("webgl");
    if (probe) probe.getExtension("WEBGL_lose_context")?.loseContext();
    return !!probe;
  } catch { return false; }
}
if (!window.WebAssembly) tell("This browser cannot run WebAssembly, which the page calculates with. Any browser of the last years can.");
else if (!hasWebGL()) tell("This page draws with WebGL, which is missing or switched off in this browser. Try another browser, or switch hardware acceleration on.");
else {
  const program = document.createElement("script");
  program.src = "counterpull.js";
  program.onerror = () => tell("The program could not be loaded. Check the connection.", true);
  document.head.append(program);
}
