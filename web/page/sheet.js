// On paper the work sheet stands instead of the canvas.
import { element } from "./dom.js";
import { ask, program } from "./program.js";

const line = (name, text, className = "") => element(name, { className }, text);
const list = (lines) => element("ul", {}, ...lines.map((text) => line("li", text)));
function write() {
  const sheet = document.getElementById("sheet");
  sheet.replaceChildren();
  sheet.hidden = !program.ready;
  if (!program.ready) return;
  const page = JSON.parse(ask("sheet"));
  if (!page.steps) {
    sheet.append(line("h1", ask("answer")));
    return;
  }
  if (page.title) sheet.append(line("p", page.title, "title"));
  sheet.append(line("h1", page.answer), ...page.details.map((text) => line("p", text)));
  if (page.at_hand.length) sheet.append(line("h2", page.at_hand_title), list(page.at_hand));
  sheet.append(element("ol", {}, ...page.steps.map((step) => element("li", {}, step.text,
    ...step.cautions.map((text) => line("p", text, "caution")), ...(step.blank ? [line("p", step.blank, "blank")] : [])))));
  if (page.back.length) sheet.append(line("h2", page.back_title), list(page.back));
  sheet.append(line("p", page.closing));
}
addEventListener("beforeprint", write);
