// The notebook as it is seen and worked with; loaded when it is first opened. What it works on is handed to it, since a
// script loaded later would have a state of its own.
import { element } from "./dom.js";
import { save } from "./save.js";

const longestTitle = 80; // of a set-up document

const saveJson = (name, text) => save(name, ".json", text, "application/json");

export function showNotebook({ notebook, check, say, close, openGuitar, edit, takeFiles }) {
  const dialog = document.getElementById("notebook");
  const language = document.documentElement.lang;
  const told = element("p", { className: "told", role: "status" });
  const when = (at) => new Date(at).toLocaleString(language, { dateStyle: "medium", timeStyle: "short" });
  const name = (setup) => notebook.titleOf(setup) || say("web.untitled");
  const button = (text, act, label = text) => {
    const made = element("button", { type: "button", textContent: text, onclick: act });
    if (label !== text) made.setAttribute("aria-label", label);
    return made;
  };
  function rename(record, item) {
    const field = element("input", { type: "text", maxLength: longestTitle, value: notebook.titleOf(record.setup) });
    field.setAttribute("aria-label", say("web.title"));
    const form = element("form", { className: "row", onsubmit: (event) => {
      event.preventDefault();
      const setup = JSON.stringify({ ...JSON.parse(record.setup), title: field.value.trim() });
      told.textContent = check(setup);
      if (told.textContent) return;
      if (notebook.isHere(record.id)) edit(setup);
      else notebook.put(record.id, setup);
      list();
    } }, field, element("button", { textContent: say("web.rename_done") }));
    item.querySelector(".row").replaceWith(form);
    field.select();
  }
  function what(setup) {
    const { now, next, log } = JSON.parse(setup);
    const notes = [now?.tuning, next?.tuning].filter(Boolean).map((tuning) => tuning.join(" "));
    return [[...new Set(notes)].join(" → "), now?.tail_mm === undefined ? "" : `${say("text.tail")} ${now.tail_mm.toLocaleString(language)} mm`, log?.length ? say("web.readings") + " " + log.length : ""].filter(Boolean).join("; ");
  }
  function history(record) {
    const past = notebook.pastOf(record.id);
    if (!past.length) return "";
    const back = ({ setup }) => {
      if (!notebook.isHere(record.id)) openGuitar(record.id);
      notebook.beginAnew();
      edit(setup);
      dialog.close();
    };
    return element("details", {}, element("summary", { textContent: `${say("web.history")} (${past.length})` }),
      element("ol", {}, ...past.reverse().map((entry) => element("li", {}, element("p", { textContent: `${when(entry.at)}: ${what(entry.setup)}` }),
        button(say("web.go_back"), () => back(entry), `${say("web.go_back")}: ${when(entry.at)}`)))));
  }
  function entry(record) {
    const title = name(record.setup);
    const item = element("li", {}, element("h3", { textContent: title }),
      element("p", { textContent: `${notebook.isHere(record.id) ? say("web.on_the_page") + "; " : ""}${when(record.at)}; ${what(record.setup)}` }));
    const labelled = (key, act) => button(say(key), act, `${say(key)}: ${title}`);
    item.append(element("div", { className: "row" },
      labelled("web.open", () => { told.textContent = openGuitar(record.id); if (!told.textContent) dialog.close(); }),
      labelled("web.rename", () => rename(record, item)),
      labelled("web.duplicate", () => {
        const setup = JSON.parse(record.setup), mark = ` (${say("web.copy_of")})`;
        notebook.add(JSON.stringify({ ...setup, title: title.slice(0, longestTitle - mark.length) + mark }));
        list();
      }),
      labelled("web.export", () => saveJson(title, record.setup)),
      labelled("web.delete", () => {
        const putBack = notebook.remove(record.id);
        list();
        told.replaceChildren(`${say("web.deleted")} ${title} `, button(say("web.put_back"), () => { putBack(); told.textContent = ""; list(); }));
      })), history(record));
    return item;
  }
  const files = element("input", { type: "file", accept: ".json,application/json", multiple: true, hidden: true,
    onchange: async () => { told.textContent = await takeFiles(files.files); files.value = ""; list(); } });
  const all = element("ul");
  function list() {
    const records = notebook.guitars();
    all.replaceChildren(...records.map(entry));
    if (!records.length) all.append(element("li", {}, element("p", { textContent: say("web.notebook_empty") })));
    everything.disabled = !records.length;
  }
  const everything = button(say("web.export_all"), () => saveJson("counterpull", notebook.exported(notebook.guitars())));
  dialog.replaceChildren(element("h2", { id: "notebook-title", textContent: say("ui.notebook") }), element("p", { textContent: say("web.notebook_note") }), told, all,
    element("div", { className: "row" }, button(say("web.import"), () => files.click()), everything,
      element("button", { type: "button", className: "close", autofocus: true, textContent: close, onclick: () => dialog.close() })), files);
  list();
  dialog.showModal();
}
