// Sharing a set-up: its link to copy, to hand to the system, or to read with a phone's camera.
import { link } from "./address.js";
import { pageText } from "./language.js";
import { ask, say } from "./program.js";

const dialog = document.getElementById("share");
const part = (name) => dialog.querySelector("." + name);

// The link as a picture, black on white whatever the paper.
async function drawCode(text) {
  const { squareCode } = await import(CODE); // its name, put in by web/pack.mjs
  const { path, size } = squareCode(text);
  const picture = part("code");
  const drawn = document.createElementNS("http://www.w3.org/2000/svg", "path");
  drawn.setAttribute("d", path);
  picture.setAttribute("viewBox", `0 0 ${size} ${size}`);
  picture.setAttribute("aria-label", say("web.code"));
  picture.replaceChildren(drawn);
}

// From a field, so that where the browser refuses the text stands there selected, to be copied by hand.
async function copy(field) {
  try {
    await navigator.clipboard.writeText(field.value);
  } catch {
    field.hidden = false;
    field.select();
    if (!document.execCommand("copy")) {
      part("told").textContent = say("web.copy_by_hand");
      return;
    }
  }
  part("told").textContent = say("web.copied");
}

export function share(title) {
  const address = link();
  dialog.querySelector("h2").textContent = say("ui.share");
  part("link").value = address;
  part("link").setAttribute("aria-label", say("web.link"));
  part("text").value = ask("plain") + address;
  part("text").setAttribute("aria-label", say("ui.answer"));
  part("text").hidden = true;
  part("copy").textContent = say("web.copy");
  part("copy-text").textContent = say("web.copy_text");
  part("send").textContent = say("web.send");
  part("close").textContent = pageText("start.close");
  part("hint").textContent = say("web.code_hint");
  part("told").textContent = "";
  part("code").replaceChildren(); // that of another link
  part("send").hidden = !navigator.share;
  part("send").onclick = () => navigator.share({ title, url: address }).catch(() => {}); // cancelled: nothing to say
  dialog.showModal();
  drawCode(address).catch(() => { part("told").textContent = say("web.code_failed"); });
}
part("copy").addEventListener("click", () => copy(part("link")));
part("copy-text").addEventListener("click", () => copy(part("text")));
part("close").addEventListener("click", () => dialog.close());
