// Draws words of which the program's typeface lacks a letter (shell/drawn_words.h), each in the program's styles of text.
const styles = [[400, 16], [600, 16], [400, 14], [600, 22]]; // weight, height of a line
const widest = 2046; // dots
const ofLine = 0.83, baseline = 0.8; // an em, and where letters stand, in the program's own faces

export function drawWords(wanted, give) {
  const context = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  for (const line of wanted.split("\n").slice(0, -1)) {
    const [, place, word] = /^(\d+) (.*)$/s.exec(line);
    styles.forEach(([weight, size], style) => give(+place, style, ...picture(context, word, weight, size * devicePixelRatio)));
  }
}

// Its width, its height, and how much of each dot is ink. What has colours of its own is drawn in ink all the same, the
// lighter the paler.
function picture(context, word, weight, line) {
  const { canvas } = context;
  const font = `${weight} ${ofLine * line}px Inter, system-ui, sans-serif`;
  context.font = font;
  canvas.width = Math.min(widest, Math.ceil(context.measureText(word).width) + 2);
  canvas.height = Math.ceil(1.15 * line);
  context.font = font; // a canvas of another size has forgotten it
  context.fillText(word, 1, baseline * line, canvas.width - 2);
  const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
  const ink = new Uint8Array(width * height);
  for (let dot = 0; dot < ink.length; ++dot) {
    const [red, green, blue, alpha] = data.subarray(4 * dot, 4 * dot + 4);
    ink[dot] = alpha * (1 - 0.7 * (0.3 * red + 0.6 * green + 0.1 * blue) / 255);
  }
  return [width, height, ink];
}
