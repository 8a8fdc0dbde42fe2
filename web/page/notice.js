// What the page has to say beside the canvas: the cover while there is no program, and a strip at the foot.
import { pageText } from "./language.js";

const byId = (id) => document.getElementById(id);

// Says a text of language.js; without one, what it said, in other words.
let covering = "";
export function cover(key = covering, offerReload = !byId("reload").hidden) {
  covering = key;
  byId("message").textContent = pageText(key);
  byId("reload").textContent = pageText("start.reload");
  byId("reload").hidden = !offerReload;
  byId("cover").hidden = false;
}
export const uncover = (key = covering) => { if (key === covering) byId("cover").hidden = true; };
byId("reload").addEventListener("click", () => location.reload());

// One message at a time, with one thing that may be done about it.
export function notify(text, action = "", act = () => {}) {
  const [act_button, close] = byId("notice").querySelectorAll("button");
  byId("notice").querySelector("p").textContent = text;
  act_button.textContent = action;
  act_button.hidden = !action;
  act_button.onclick = () => { notify(""); act(); };
  close.textContent = pageText("start.close");
  close.onclick = () => notify("");
  byId("notice").hidden = !text;
}
