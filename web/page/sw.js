// Keeps the page for visits without a network. The page's files belong together, so they are kept and replaced
// together, under the version that packing gives them; but hearing, which not everybody wants, from when it was first
// wanted on.
const version = "counterpull-VERSION";
const files = ["FILES"], later = ["LATER"];

const ours = () => caches.keys().then((names) => names.filter((name) => name.startsWith("counterpull-")));
async function listened() { // with a version before
  for (const name of await ours()) {
    const cache = await caches.open(name);
    if ((await cache.keys()).some(({ url }) => /\/hearing-[^/]*\.wasm$/.test(url))) return true;
  }
  return false;
}
self.addEventListener("install", (event) => {
  event.waitUntil(listened().then(async (before) => (await caches.open(version)).addAll(before ? [...files, ...later] : files)));
});
self.addEventListener("activate", (event) => {
  event.waitUntil(ours().then((names) => Promise.all(names.filter((name) => name !== version).map((name) => caches.delete(name)))));
});
self.addEventListener("message", (event) => {
  if (event.data === "now") self.skipWaiting(); // the reader has accepted the new version
  if (event.data === "listens") event.waitUntil(caches.open(version).then((cache) => cache.addAll(later)).catch(() => {})); // next time
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(caches.open(version).then((cache) => cache.match(request, { ignoreSearch: true, ignoreVary: true }))
    .then((kept) => kept ?? fetch(request)));
});
