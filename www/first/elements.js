// @ts-check
/**
 * Elements of the page: found by their id, made, and with the styles that only some of them need.
 */

/**
 * @param {string} id
 * @returns {any}
 */
export const element = (id) => document.getElementById(id);

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {string} name
 * @param {string} [text]
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, name, text) {
  const made = document.createElement(tag);
  made.className = name;
  if (text !== undefined) made.textContent = text;
  return made;
}

/** @type {Promise<unknown>} The sheets of styles that were asked for so far. */
let styles = Promise.resolve();

/**
 * Fetches a sheet of styles that only some views need.
 * @param {string} address
 */
export function style(address) {
  if (document.querySelector(`link[href="${address}"]`)) return;
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = address;
  const before = styles;
  styles = new Promise((done) => {
    link.onload = link.onerror = done;
  }).then(() => before);
  document.head.append(link);
}

/** Until they are there, or cannot be had, what they are for would jump. */
export const styled = () => styles;

/**
 * Hands a file to the visitor.
 * @param {string} name
 * @param {Blob} content
 */
export function save(name, content) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/**
 * Writes a text where another stands: the same one costs nothing.
 * @param {Element} place
 * @param {string} text
 */
export function write(place, text) {
  if (place.textContent !== text) place.textContent = text;
}
