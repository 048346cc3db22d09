// @ts-check
/**
 * What the browser keeps between visits, as long as it lets the page: the one way to its storage.
 *
 * All keys begin with the page's name, as other pages may live at the same address. Choices, of
 * which the latest stands, are read and written as they are. What several tabs change is held by
 * [hold]: it is written under a lock, brought together with what another tab has written meanwhile
 * by a rule that the calculation knows, and followed when another tab writes.
 *
 * @typedef {import("../pkg/office.js").KeptText} KeptText
 * @typedef {(base: string | undefined, mine: string, stored: string | undefined) => KeptText} Merge
 *
 * @typedef {object} Held
 * @property {string | null} base what stood there when this tab last looked
 * @property {string} mine
 * @property {Merge} merge
 * @property {(text: string, merged: KeptText) => boolean | void} changed another text than this tab's
 *   stands there now; false: this tab goes on from its own and will hand it over later
 * @property {((done: boolean) => void)[]} waiting those who wait for it to be written
 */

const PREFIX = "footroom.";
/** Keys without the prefix, as they once were. The first two may be another page's as well. */
const FORMER = ["language", "units", "guesses", "layouts", "learnt", "kept-case"];
const SHARED = 2;
/** Most names under which what cannot be read is put. */
const ASIDE_MAX = 100;

/** @type {Map<string, Held>} */
const held = new Map();

/** Storage, or null where the browser blocks it. */
const storage = (() => {
  try {
    return localStorage;
  } catch {
    return null;
  }
})();

/**
 * @param {string} key
 * @returns {string | null} null where nothing is kept, or nothing can be
 */
export function read(key) {
  try {
    return storage?.getItem(PREFIX + key) ?? null;
  } catch {
    return null;
  }
}

/**
 * @param {string} key
 * @param {string} value
 * @returns {boolean} false where storage is full or blocked
 */
function put(key, value) {
  try {
    if (!storage) return false;
    storage.setItem(PREFIX + key, value);
    return true;
  } catch {
    return false;
  }
}

/** Has it said that something cannot be kept. */
export const unkept = () => dispatchEvent(new Event("footroom-unkept"));

/**
 * Keeps a choice, or has it said that it cannot.
 * @param {string} key
 * @param {string} value
 */
export function write(key, value) {
  if (!put(key, value)) unkept();
}

/**
 * Carries a text over to the page that is loaded next in this tab.
 * @param {string} key
 * @param {string} text
 * @returns {boolean} false where storage is full or blocked
 */
export function carry(key, text) {
  try {
    sessionStorage.setItem(PREFIX + key, text);
    return true;
  } catch {
    return false;
  }
}

/**
 * What the page before has carried over; it is given once.
 * @param {string} key
 * @returns {string | null}
 */
export function carried(key) {
  try {
    const text = sessionStorage.getItem(PREFIX + key);
    sessionStorage.removeItem(PREFIX + key);
    return text;
  } catch {
    return null;
  }
}

/** Takes over what was kept under names without the prefix. */
function takeFormer() {
  FORMER.forEach((key, place) => {
    try {
      const text = storage?.getItem(key) ?? null;
      if (text === null || read(key) !== null || !put(key, text)) return;
      if (place >= SHARED) storage?.removeItem(key);
    } catch {
      // It stays where it is.
    }
  });
}
takeFormer();

/**
 * Keeps a text under another name, unless it is there already.
 * @param {string} key
 * @param {string} text
 * @returns {boolean} false when there is no room for it
 */
function putAside(key, text) {
  for (let i = 1; i <= ASIDE_MAX; i += 1) {
    const name = `${key}.aside${i > 1 ? i : ""}`;
    const there = read(name);
    if (there === text) return true;
    if (there === null) return put(name, text);
  }
  return false;
}

/**
 * Brings this tab's text together with what stands there, and writes it. It does not wait for
 * anything on the way, so nothing of this tab can come in between.
 * @param {string} key
 * @param {Held} it
 */
function settle(key, it) {
  const stored = read(key);
  const merged = it.merge(it.base ?? undefined, it.mine, stored ?? undefined);
  // Where there is not room for all, what stands there may have to stay as it is.
  const done = !(merged.full && merged.text === stored)
    && (!merged.aside || stored === null || putAside(key, stored))
    && (merged.text === stored || put(key, merged.text));
  const { mine } = it;
  // Before what a view says of its own.
  if (!done) unkept();
  if (done) it.base = it.mine = merged.text;
  for (const tell of it.waiting.splice(0)) tell(done);
  const news = merged.full || (done && (mine !== merged.text || merged.stay.length));
  if (news && it.changed(it.mine, merged) === false && done) it.base = it.mine = mine;
}

/**
 * Runs a task while no other tab is at the same key.
 * @param {string} key
 * @param {() => void} task
 */
function locked(key, task) {
  const { locks } = navigator;
  // Not where the page has no secure address: there it reads, merges and writes at once.
  if (!locks) return task();
  let begun = false;
  locks.request(PREFIX + key, () => {
    begun = true;
    task();
  }).catch((error) => {
    // The browser gives no lock, or the task went wrong.
    if (begun) throw error;
    task();
  });
}

/**
 * Holds what is kept under a key, as this tab sees it.
 * @param {string} key
 * @param {Merge} merge
 * @param {(text: string) => boolean} reads whether a text can be read
 * @param {Held["changed"]} changed
 * @returns {string | null} what stands there; it may be such as cannot be read
 */
export function hold(key, merge, reads, changed) {
  const already = held.get(key);
  if (already) return already.mine || null;
  const text = read(key);
  const base = text !== null && reads(text) ? text : null;
  // Here already, so that nothing depends on what is done next.
  if (text !== null && base === null) putAside(key, text);
  held.set(key, { base, mine: base ?? "", merge, changed, waiting: [] });
  return text;
}

/**
 * Keeps a text under a key that is held.
 * @param {string} key
 * @param {string} text
 * @returns {Promise<boolean>} false where storage is full or blocked
 */
export function keep(key, text) {
  const it = held.get(key);
  if (!it) return Promise.resolve(false);
  it.mine = text;
  return new Promise((done) => {
    it.waiting.push(done);
    // One turn of the lock is enough for all that has come until then.
    if (it.waiting.length === 1) locked(key, () => it.waiting.length && settle(key, it));
  });
}

/**
 * Follows what another tab has written.
 * @param {string} key
 * @param {string | null} before what that tab has seen there, which this tab may have changed
 */
function follow(key, before) {
  const it = held.get(key);
  const stored = read(key);
  // What waits to be written meets it under the lock.
  if (!it || stored === null || it.waiting.length || stored === it.base) return;
  const merged = it.merge(before ?? undefined, it.mine, stored);
  if (merged.aside || merged.full) return;
  if (merged.text !== it.mine && it.changed(merged.text, merged) === false) return;
  it.base = stored;
  it.mine = merged.text;
  // That tab wrote without having seen what this one had.
  if (merged.text !== stored) void keep(key, merged.text);
}

addEventListener("storage", ({ key, oldValue }) => {
  if (key?.startsWith(PREFIX)) follow(key.slice(PREFIX.length), oldValue);
});
/** A page that slept was told nothing. */
const wake = () => {
  for (const [key, it] of held) follow(key, it.base);
};
addEventListener("pageshow", wake);
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible") wake();
});
// What still waits for its turn would go with the page.
addEventListener("pagehide", () => {
  for (const [key, it] of held) if (it.waiting.length) settle(key, it);
});
