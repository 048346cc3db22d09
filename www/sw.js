// @ts-check
/**
 * Service worker: the page works with no network after the first visit.
 *
 * The next two lines are stamped when the site is made. The version is a hash of all files, so a
 * worker serves one whole version: all its files or none. As written here it keeps nothing.
 */
const VERSION = "dev";
const FILES = [];

const CACHE = `footroom-${VERSION}`;
const worker = /** @type {any} */ (self);

worker.addEventListener("install", (/** @type {any} */ event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES)));
});

worker.addEventListener("activate", (/** @type {any} */ event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith("footroom-") && name !== CACHE) await caches.delete(name);
    }
    await worker.clients.claim();
  })());
});

worker.addEventListener("message", (/** @type {any} */ event) => {
  if (event.data === "take over") worker.skipWaiting();
});

worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== location.origin) return;
  event.respondWith((async () => {
    const cache = await caches.open(CACHE);
    const found = await cache.match(request, { ignoreSearch: true });
    return found ?? fetch(request);
  })());
});
