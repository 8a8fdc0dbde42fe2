// The canvas says nothing to a screen reader and takes no Tab. So every control in it has a twin here, unseen and in the
// same place: the same role, label, value and state, in reading order, and operating the twin operates the control. The
// one that has the focus is framed in the drawing.
import { element } from "./dom.js";
import { controls, program, tell } from "./program.js";

const root = document.getElementById("mirror");
const twins = new Map(); // by the control's id
let under = null; // what had the focus before a sheet covered it
let touched = false; // a twin may show what the program did not take
export const operated = () => touched;

const builders = {
  button: () => element("button", { type: "button" }),
  checkbox: () => element("input", { type: "checkbox" }),
  combobox: () => element("select"),
  spinbutton: () => element("input", { type: "text", autocomplete: "off", spellcheck: false }),
  textbox: () => builders.spinbutton(),
  status: () => element("p"),
};

const isField = (role) => role === "spinbutton" || role === "textbox"; // that is typed into

// `whole` stands in the mirror, `part` is what has the focus, `why` says why a value is refused.
function twinOf({ id, role }) {
  const known = twins.get(id);
  if (known?.role === role) return known;
  known?.whole.remove();
  const part = role === "heading" ? builders.button() : builders[role]();
  const whole = role === "heading" ? element("h2") : isField(role) ? element("div") : part;
  if (whole !== part) whole.append(part);
  const twin = { role, whole, part, why: null, at: "" };
  if (isField(role)) {
    twin.why = element("span", { id: "why-" + id });
    whole.append(twin.why);
  }
  if (role === "button" || role === "heading") part.addEventListener("click", () => tell("request", id, ""));
  if (role === "checkbox") part.addEventListener("change", () => tell("request", id, ""));
  if (role === "combobox" || isField(role)) part.addEventListener("change", () => tell("request", id, part.value));
  part.addEventListener("focus", () => tell("show", id));
  part.addEventListener("blur", () => tell("show", ""));
  twins.set(id, twin);
  return twin;
}

const set = (part, name, value) => { if (part.getAttribute(name) !== value) part.setAttribute(name, value); };
const setText = (part, text) => { if (part.textContent !== text) part.textContent = text; };

function fill(select, options, chosen) {
  // Own values are none of those that can be picked.
  const all = options.includes(chosen) ? options : [chosen, ...options];
  if (select.options.length !== all.length || all.some((text, i) => select.options[i].text !== text))
    select.replaceChildren(...all.map((text) => element("option", { text, value: text })));
  if (select.value !== chosen) select.value = chosen;
}

function update(twin, { label, value, problem, enabled, covered, rect, options }) {
  const { role, whole, part, why } = twin;
  if (role === "button" || role === "heading") setText(part, label);
  else if (role === "status") setText(part, value.startsWith(label) ? value : `${label}: ${value}`);
  else set(part, "aria-label", label);
  if (role === "heading") set(part, "aria-expanded", String(value === "open"));
  if (role === "button") set(part, "aria-disabled", String(!enabled));
  if (role === "checkbox") part.checked = value === "on";
  if (role === "combobox") fill(part, options, value);
  if (isField(role)) {
    if (document.activeElement !== part || !part.dataset.typing) part.value = value;
    set(part, "aria-invalid", String(problem !== ""));
    setText(why, problem);
    if (problem) set(part, "aria-describedby", why.id);
    else part.removeAttribute("aria-describedby");
  }
  if (whole.inert !== covered) whole.inert = covered;
  const at = rect.join();
  if (at === twin.at) return;
  twin.at = at;
  const [left, top, right, bottom] = rect;
  Object.assign(whole.style, { left: left + "px", top: top + "px", width: right - left + "px", height: bottom - top + "px" });
}

export function mirror() {
  touched = false;
  const list = controls().filter(({ role }) => role !== "option"); // those of a list are its own
  const ids = new Set(list.map(({ id }) => id));
  for (const [id, { whole }] of twins) if (!ids.has(id)) { whole.remove(); twins.delete(id); }
  const focused = document.activeElement;
  let last = null;
  for (const control of list) {
    const twin = twinOf(control);
    update(twin, control);
    const next = last ? last.nextSibling : root.firstChild;
    if (twin.whole !== next) root.insertBefore(twin.whole, next);
    last = twin.whole;
  }
  const first = list.find(({ covered, role }) => !covered && role !== "status");
  if (root.contains(focused) && focused.closest("[inert]")) { // the sheet has it now
    under = focused;
    twins.get(first?.id)?.part.focus({ preventScroll: true });
  } else if (root.contains(focused)) { // what was put elsewhere in the list has lost it
    if (document.activeElement !== focused) focused.focus({ preventScroll: true });
  } else if (under && !list.some(({ covered }) => covered)) {
    if (focused === document.body && under.isConnected) under.focus({ preventScroll: true });
    under = null;
  }
}
// Escape closes the sheet over the page, as it does on the canvas.
addEventListener("keydown", ({ key, target }) => {
  if (key === "Escape" && root.contains(/** @type {any} */ (target)) && twins.has("over.close")) tell("request", "over.close", "");
}, { capture: true });
// A press on the canvas leaves the focus there, at no control. Tab goes on from the one that was pressed.
const [canvas, entry] = ["canvas", "entry"].map((id) => document.getElementById(id));
let pressed = "";
canvas.addEventListener("pointerdown", ({ clientX: x, clientY: y }) => {
  if (program.ready) pressed = controls().filter(({ seen: [left, top, right, bottom] }) => x >= left && x <= right && y >= top && y <= bottom).pop()?.id.split("/")[0];
});
addEventListener("keydown", (event) => { if (event.key === "Tab" && [canvas, entry].includes(/** @type {any} */ (event.target))) twins.get(pressed)?.part.focus({ preventScroll: true }); }, { capture: true });
root.addEventListener("input", ({ target }) => { touched = true; target.dataset.typing = "yes"; });
root.addEventListener("change", ({ target }) => { touched = true; delete target.dataset.typing; });
root.addEventListener("focusout", () => { touched = true; });
