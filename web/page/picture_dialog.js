// A drawing as a picture: looked at, and saved as SVG or as PNG of twice its size. Loaded when it is first asked for.
import { element } from "./dom.js";
import { save } from "./save.js";

const scale = 2;

async function png(picture) {
  const canvas = element("canvas", { width: picture.naturalWidth * scale, height: picture.naturalHeight * scale });
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => { canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("no picture"))), "image/png"); });
}

export function showPicture({ svg, title, text, name, say, close }) {
  const dialog = document.getElementById("picture");
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  const picture = element("img", { src: address, alt: text });
  const told = element("p", { className: "told", role: "status" });
  const button = (label, act, setting = {}) => element("button", { type: "button", onclick: act, ...setting }, label);
  dialog.onclose = () => URL.revokeObjectURL(address);
  dialog.replaceChildren(element("h2", { id: "picture-title" }, title), picture, element("div", { className: "row" },
    button(say("web.save_svg"), () => save(name, ".svg", svg, "image/svg+xml")),
    button(say("web.save_png"), () => png(picture).then((made) => save(name, ".png", made, "image/png"), () => { told.textContent = say("web.no_png"); })),
    button(close, () => dialog.close(), { className: "close", autofocus: true })), told);
  dialog.showModal();
}
