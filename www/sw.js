// @ts-check
/**
 * Service worker: the page works with no network after the first visit.
 *
 * The next two lines are stamped when the site is made. The version is a hash of all files, so a
 * worker serves one whole version: all its files or none. As written here it keeps nothing.
 *
 * A newer version waits until somebody asks for it, or until no page is open. Pages of the version
 * before may then still be open in other tabs: its files stay until there are none.
 */
const VERSION = "dev";
const FILES = [];

const worker = /** @type {any} */ (self);
const SCOPE = worker.registration.scope;
/** Copies of the page at other addresses of the same host have caches of their own. */
const OURS = `footroom:${new URL(SCOPE).pathname}:`;
const CACHE = OURS + VERSION;
/** What caches were called before they told copies apart. */
const FORMER = /^footroom-[0-9a-f]{16}$/;
/** Names that change with the content. */
const HASHED = /[\w./-]+-[0-9a-f]{10}\.(?:js|css|wasm)\b/g;
/** Of a stored answer, these are not true any more. */
const SPENT = ["content-encoding", "content-length", "transfer-encoding"];

/**
 * A file as the host has it now, whole; whatever caches lie on the way are asked to look.
 * @param {string} path
 * @returns {Promise<[string, Response]>}
 */
async function fetched(path) {
  const cache = path.match(HASHED) ? "no-cache" : "reload";
  const response = await fetch(new Request(path, { cache }));
  if (!response.ok || response.redirected) throw new Error(`${path}: ${response.status}`);
  const headers = new Headers(response.headers);
  for (const name of SPENT) headers.delete(name);
  // An answer that breaks off ends here.
  return [path, new Response(await response.arrayBuffer(), { headers })];
}

/** All files or none: nothing is stored before all are there and belong together. */
async function install() {
  const files = await Promise.all(/** @type {string[]} */ (FILES).map(fetched));
  const page = files.find(([path]) => path === "./")?.[1];
  const names = (await page?.clone().text())?.match(HASHED) ?? [];
  const foreign = names.find((name) => !(/** @type {string[]} */ (FILES)).includes(name));
  if (foreign) throw new Error(`the page is of another version: ${foreign}`);
  try {
    const cache = await caches.open(CACHE);
    await Promise.all(files.map(([path, response]) => cache.put(path, response)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/** The caches of former versions of this copy. */
async function former() {
  const names = [];
  for (const name of await caches.keys()) {
    if (name === CACHE) continue;
    const ours = name.startsWith(OURS)
      || (FORMER.test(name) && await caches.match(SCOPE, { cacheName: name }));
    if (ours) names.push(name);
  }
  return names;
}

/**
 * Deletes what was stored for former versions, when no page can need it any more.
 * @param {number} current open pages that are known to be of this version
 */
async function tidy(current) {
  const pages = await worker.clients.matchAll({ type: "window", includeUncontrolled: true });
  const open = pages.filter((/** @type {any} */ page) => page.url.startsWith(SCOPE));
  if (open.length > current) return;
  const names = await former();
  // What a version to come has stored, or is about to, looks from here like a former one's.
  const { installing, waiting } = worker.registration;
  if (installing || waiting || worker.serviceWorker?.state === "redundant") return;
  for (const name of names) await caches.delete(name);
}

/** @param {Request} request */
async function answer(request) {
  const stored = await caches.match(request, { cacheName: CACHE, ignoreSearch: true });
  if (stored) return stored;
  // A page of the version before, in another tab, goes on with its own files; a new page is never of
  // that version.
  const before = request.mode === "navigate" ? [] : await former();
  for (const name of before) {
    const file = await caches.match(request, { cacheName: name });
    if (file) return file;
  }
  // What is of no version comes from the network, if there is one.
  return fetch(request).catch(() => Response.error());
}

worker.addEventListener("install", (/** @type {any} */ event) => event.waitUntil(install()));

worker.addEventListener("activate", (/** @type {any} */ event) => {
  event.waitUntil(tidy(0).then(() => worker.clients.claim()));
});

worker.addEventListener("message", (/** @type {any} */ event) => {
  if (event.data === "take over") worker.skipWaiting();
  // Said by a page that has just started, so that it is of this version.
  if (event.data === "tidy") event.waitUntil(tidy(1));
});

worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(SCOPE)) event.respondWith(answer(request));
});
