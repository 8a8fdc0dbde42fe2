// Keeps the page for visits without a network. The page's files belong together, so they are kept and replaced
// together, under the version that packing gives them.
const version = "counterpull-VERSION";
const files = ["FILES"];

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(version).then((cache) => cache.addAll(files)));
});
self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys().then((names) => Promise.all(
    names.filter((name) => name.startsWith("counterpull-") && name !== version).map((name) => caches.delete(name)))));
});
// The reader has accepted the new version.
self.addEventListener("message", (event) => { if (event.data === "now") self.skipWaiting(); });
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(caches.open(version).then((cache) => cache.match(request, { ignoreSearch: true, ignoreVary: true }))
    .then((kept) => kept ?? fetch(request)));
});
