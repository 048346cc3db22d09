// @ts-check
/**
 * The two places where a text becomes more than a text: the address of a script, and a drawing. The
 * page's policy lets only what passes here become either (Trusted Types, where the browser has them);
 * elsewhere the same rules hold without its help.
 */

/** What the calculation's drawings are made of; with anything else in it a drawing is refused. */
const PARTS = new Set("svg title path clipPath g text".split(" "));
const SAYINGS = new Set(("xmlns role viewBox font-family stroke-linecap stroke-linejoin "
  + "shape-rendering d fill stroke stroke-width stroke-dasharray id clip-path x y font-size "
  + "text-anchor font-weight").split(" "));

/** @param {string} address */
function script(address) {
  const folder = new URL("./", document.baseURI);
  const { href, pathname } = new URL(address, folder);
  if (!href.startsWith(folder.href) || !pathname.endsWith(".js")) {
    throw new TypeError(`no script of this page: ${address}`);
  }
  return href;
}

/** @param {string} svg */
function markup(svg) {
  if (!svg.startsWith("<svg ")) throw new TypeError("no drawing");
  return svg;
}

/** @type {{createScriptURL: (address: string) => any, createHTML: (svg: string) => any}} */
const policy = /** @type {any} */ (globalThis).trustedTypes?.createPolicy("footroom", {
  createScriptURL: script,
  createHTML: markup,
}) ?? { createScriptURL: script, createHTML: markup };

/**
 * The address of a script of the page.
 * @param {string | URL} address
 * @returns {string}
 */
export function scriptAddress(address) {
  return policy.createScriptURL(String(address));
}

/**
 * A drawing that the calculation wrote.
 * @param {string} svg
 */
export function drawing(svg) {
  const read = new DOMParser().parseFromString(policy.createHTML(svg), "image/svg+xml");
  for (const part of read.querySelectorAll("*")) {
    const names = [...part.attributes].map(({ name }) => name);
    if (!PARTS.has(part.localName) || !names.every((name) => SAYINGS.has(name))) {
      throw new TypeError(`no part of a drawing: ${part.localName} ${names.join(" ")}`);
    }
  }
  return document.importNode(read.documentElement, true);
}
