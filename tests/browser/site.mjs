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
// document; the `which`-th of them. Null where there is none.
export const placeOf = ([label, which]) => {
  const named = (part) => (part.getAttribute("aria-label") ?? part.textContent) === label;
  const twin = [...document.querySelectorAll("#mirror :is(button, input, select)")].filter(named)[which];
  const box = twin?.getBoundingClientRect();
  return box ? [(box.left + box.right) / 2, (box.top + box.bottom) / 2] : null;
};

export const pause = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });
// Until `ask` answers truly; what it says then.
export async function until(ask, what, limit = 60000) {
  for (const end = Date.now() + limit; Date.now() < end; await pause(50)) {
    const answer = await ask().catch(() => null);
    if (answer) return answer;
  }
  throw new Error("waited in vain for " + what);
}
