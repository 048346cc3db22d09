// @ts-check
/**
 * The compiled calculation behind the views: fetched and compiled once, and shared with the workers.
 */

/** @type {Promise<WebAssembly.Module> | null} */
let compiled = null;

async function compile() {
  const address = new URL("../pkg/office_bg.wasm", import.meta.url);
  try {
    return await WebAssembly.compileStreaming(fetch(address));
  } catch {
    // A host that does not name the kind of the file: compiled from its bytes.
    const response = await fetch(address);
    return WebAssembly.compile(await response.arrayBuffer());
  }
}

/** @returns {Promise<WebAssembly.Module>} */
export function officeModule() {
  compiled ??= compile();
  return compiled;
}
