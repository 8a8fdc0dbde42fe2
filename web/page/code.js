// A text as a square code: the SVG path of its dark modules and the size of the whole, in modules, with the quiet zone
// that a camera needs (ISO/IEC 18004: four modules).
import { encode } from "uqr";

export function squareCode(text) {
  const { data, size } = encode(text, { ecc: "M", border: 4 });
  const path = data.map((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : "")).join("")).join("");
  return { path, size };
}
