// @ts-check
/** What the views keep in the browser between visits, as long as it lets them. */

/**
 * @param {string} key
 * @returns {string | null} null where nothing is kept, or nothing can be
 */
export function read(key) {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/**
 * @param {string} key
 * @param {string | null} value null forgets it
 * @returns {boolean} false where storage is full or blocked
 */
export function write(key, value) {
  try {
    if (value === null) localStorage.removeItem(key);
    else localStorage.setItem(key, value);
    return true;
  } catch {
    return false;
  }
}
