// Keeps the page for visits without a network. The page's files belong together, so they are kept and replaced
// together, under the version that packing gives them; but what not everybody wants (a language, hearing) from when it was
// first wanted on.
const version = "counterpull-" + VERSION;
const files = FILES, later = LATER; // put in by web/pack.mjs

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {any} */ (self));
const ours = () => caches.keys().then((names) => names.filter((name) => name.startsWith("counterpull-")));
const ofPage = /\/index\.html(?=[?#]|$)/; // which is kept by its folder's name
const named = /-[0-9a-f]{10}\./; // by its hash: it never changes
const fresh = (name) => new Request(name, { cache: named.test(name) ? "default" : "no-cache" });
const unhashed = (name) => name.replace(/^.*\/|-[0-9a-f]{10}(?=\.)/g, "");
async function wantedBefore() { // with another version
  const kept = [];
  for (const name of await ours()) kept.push(...await (await caches.open(name)).keys());
  const names = new Set(kept.map(({ url }) => unhashed(url)));
  return Object.values(later).flat().filter((name) => names.has(unhashed(name)));
}
worker.addEventListener("install", (event) => {
  event.waitUntil(wantedBefore().then(async (before) => (await caches.open(version)).addAll([...files, ...before].map(fresh))));
});
worker.addEventListener("activate", (event) => {
  event.waitUntil(ours().then((names) => Promise.all(names.filter((name) => name !== version).map((name) => caches.delete(name)))));
});
worker.addEventListener("message", (event) => {
  if (event.data === "now") worker.skipWaiting(); // the reader has accepted the new version
  const wanted = later[event.data];
  if (wanted) event.waitUntil(caches.open(version).then((cache) => cache.addAll(wanted)).catch(() => {})); // next time
});
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(worker.registration.scope)) return;
  const wanted = request.mode === "navigate" && ofPage.test(request.url) ? "./" : request;
  event.respondWith(caches.open(version).then((cache) => cache.match(wanted, { ignoreSearch: true, ignoreVary: true }))
    .catch(() => undefined) // what is kept cannot be had
    .then((kept) => kept ?? fetch(request)));
});
