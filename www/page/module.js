// @ts-check
/**
 * The compiled calculations behind the views, each fetched and compiled once: the whole page, and what
 * the workers share.
 */

/** @param {URL} address */
async function compile(address) {
  try {
    return await WebAssembly.compileStreaming(fetch(address));
  } catch {
    // A host that does not name the kind of the file: compiled from its bytes.
    const response = await fetch(address);
    return WebAssembly.compile(await response.arrayBuffer());
  }
}

/** @type {Promise<WebAssembly.Module> | null} */
let office = null;
/** @type {Promise<WebAssembly.Module> | null} */
let planner = null;

/** @returns {Promise<WebAssembly.Module>} */
export function officeModule() {
  office ??= compile(new URL("../pkg/office_bg.wasm", import.meta.url));
  return office;
}

/** @returns {Promise<WebAssembly.Module>} */
export function plannerModule() {
  planner ??= compile(new URL("../pkg/planner_bg.wasm", import.meta.url));
  return planner;
}
