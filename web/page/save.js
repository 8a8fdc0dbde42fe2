import { element } from "./dom.js";

// Hands a file to the reader: the browser's download.
export function save(name, content, type) {
  const address = URL.createObjectURL(new Blob([content], { type }));
  element("a", { href: address, download: name.replace(/[^\p{L}\p{N} ._-]+/gu, "").trim().slice(0, 64) }).click();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}
