// What the browser tests share: the page served, the command line to compare with, and the page as a person meets it,
// over anything that can evaluate in it.
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));
export const shots = root + ".build/screenshots/";
mkdirSync(shots, { recursive: true });
export const chromiumFlags = ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
  "--ignore-gpu-blocklist", "--disable-background-networking", "--disable-component-update"];

// The packed page at an address of its own; `stop` ends it, as a network that is gone.
export async function serve(port, folder = root + ".build/site") {
  const server = spawn("node", [root + "web/serve.mjs", folder, String(port)]);
  const address = await new Promise((resolve, reject) => {
    server.stdout.on("data", (text) => { const at = /http:\S+/.exec(text); if (at) resolve(at[0]); });
    server.on("exit", () => reject(new Error("the server stopped")));
  });
  const gone = new Promise((resolve) => { server.on("exit", resolve); });
  return { address, stop: () => { server.kill(); return gone; } };
}

export const commandLine = (verb, input, ...options) =>
  execFileSync(process.env.COUNTERPULL_BINARY ?? root + ".build/counterpull/counterpull", [verb, "-", ...options], { input }).toString();
// The sentence that the command line answers a set-up document with.
export function answerOf(document) {
  const lines = commandLine("report", document).split("\n");
  return lines[JSON.parse(document).title ? 2 : 0];
}

// Run in the page: where the control with this label is drawn, found as a screen reader finds it, by its twin in the
// document; the first of them. Null where there is none.
export const placeOf = (label) => {
  const named = (part) => (part.getAttribute("aria-label") ?? part.textContent) === label;
  const box = [...document.querySelectorAll("#mirror :is(button, input, select)")].find(named)?.getBoundingClientRect();
  return box ? [(box.left + box.right) / 2, (box.top + box.bottom) / 2] : null;
};
// Run in the page: done when nothing is drawn any more and the twins stand where the drawing has them. By the page's own
// order, not by ours: what is due is drawn with the browser's next frame, and the twins follow it by a timer shorter than
// this one, however slow the machine.
export const atRest = async () => {
  const { frames } = window.counterpull;
  for (let last = -1; last !== frames();) {
    last = frames();
    for (let i = 0; i < 3; ++i) await new Promise((done) => { requestAnimationFrame(done); });
    await new Promise((done) => { setTimeout(done, 150); });
  }
  return true;
};
// Run in the page: whether it would open without a network.
export const keptForOffline = () => navigator.serviceWorker.getRegistration().then((worker) => Boolean(worker?.active));
// Run in the page: takes the graphics context away, done when the page has been told; gives it back.
export const loseGraphics = () => new Promise((done) => {
  const canvas = document.getElementById("canvas");
  canvas.addEventListener("webglcontextlost", () => setTimeout(done), { once: true });
  window.graphics ??= canvas.getContext("webgl").getExtension("WEBGL_lose_context");
  window.graphics.loseContext();
});
export const returnGraphics = () => window.graphics.restoreContext();

export const patience = 60000; // ms that any wait may take on a machine busy with something else
export const pause = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });
// Until `ask` answers truly; what it says then.
export async function until(ask, what, limit = patience) {
  for (const end = Date.now() + limit; Date.now() < end; await pause(50)) {
    const answer = await ask().catch(() => null);
    if (answer) return answer;
  }
  throw new Error("waited in vain for " + what);
}
// Does what a busy browser may drop (a tap, a key), and does it once more where nothing has come of it after a while; only
// for what does no harm where the first came late. What `came` says in the end.
export async function withSecondTry(act, came, what) {
  await act();
  const answer = await until(came, what, 10000).catch(() => null);
  if (answer) return answer;
  console.log("once more, for " + what); // a page that always needs it has lost something itself
  await act();
  return until(came, what);
}
