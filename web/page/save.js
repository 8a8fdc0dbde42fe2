import { element } from "./dom.js";

const longest = 64; // characters of a name, without what it ends in

// Hands a file to the reader: the browser's download.
export function save(name, ending, content, type) {
  const address = URL.createObjectURL(new Blob([content], { type }));
  element("a", { href: address, download: ([...name.replace(/[^\p{L}\p{N} ._-]+/gu, "")].slice(0, longest).join("").trim() || "counterpull") + ending }).click();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}
