// On paper the work sheet stands instead of the canvas. Titles are data: text, never markup.
import { ask, program } from "./program.js";

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
function write() {
  const sheet = document.getElementById("sheet");
  sheet.replaceChildren();
  sheet.hidden = !program.ready;
  if (!program.ready) return;
  const page = JSON.parse(ask("sheet"));
  if (!page.steps) {
    sheet.append(element("h1", ask("answer")));
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
addEventListener("beforeprint", write);
