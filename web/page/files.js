// Set-up documents and notebooks that come as files: chosen, or dropped on the page.
import { openGuitar, openUnkept } from "./address.js";
import { imported } from "./notebook.js";
import { notify } from "./notice.js";
import { ask, program, say } from "./program.js";

const largest = 20e6; // bytes; a notebook of hundreds of guitars is smaller

// Takes them into the notebook, and a single one onto the page. What came of it, in words.
export async function takeFiles(files) {
  const came = [], refused = [];
  for (const file of files) {
    const found = file.size > largest ? { came: [], refused: [say("web.too_large")] } : imported(await file.text(), (text) => ask("check", text));
    came.push(...found.came);
    refused.push(...found.refused.map((why) => `${file.name}: ${why}.`));
  }
  const [{ id, setup }] = came.length === 1 ? came : [{}];
  const problem = id ? openGuitar(id) : setup ? openUnkept(setup) : "";
  const kept = came.filter((one) => one.id).length;
  return [kept ? `${say("web.taken_in")} ${kept}.` : "", kept < came.length ? say("web.not_kept") : "", problem, ...refused].filter(Boolean).join(" ");
}

const bringsFiles = (event) => program.ready && event.dataTransfer?.types.includes("Files");
addEventListener("dragover", (event) => { if (bringsFiles(event)) event.preventDefault(); });
addEventListener("drop", async (event) => {
  if (!bringsFiles(event)) return;
  event.preventDefault();
  notify(await takeFiles(event.dataTransfer.files));
});
