// @ts-check
/**
 * What was begun on the page and is not in its address, carried over when it is loaded again: inputs
 * that cannot be used yet or whose answer is still being made, and readings of the set-up.
 *
 * @typedef {import("../pkg/office.js").Page} Page
 * @typedef {import("./views.js").Views} Views
 * @typedef {{inputs: string | undefined, readings: Record<string, string>, fold: string,
 *   address: string}} Work
 */
import { element } from "../first/elements.js";
import { carry, carried, unkept } from "../first/kept.js";

const KEY = "work";
/** The fields whose texts are nowhere else. */
const READINGS = "#reading input, #layout-name";

/**
 * @param {Page} page
 * @returns {boolean} false, and the visitor is told, where it would be lost
 */
export function saveWork(page) {
  /** @type {Work} */
  const work = { inputs: page.unfinished(), readings: {}, fold: "", address: location.href };
  for (const field of document.querySelectorAll(READINGS)) {
    const input = /** @type {HTMLInputElement} */ (field);
    if (input.value && input.id) work.readings[input.id] = input.value;
  }
  work.fold = document.querySelector("details[name=folds][open]")?.id ?? "";
  const saved = carry(KEY, JSON.stringify(work));
  if (!saved) unkept();
  return saved;
}

/**
 * Saves what would end with the page, however it is left.
 * @param {(task: (page: Page) => void) => void} ask
 */
export function saveOnLeaving(ask) {
  addEventListener("pagehide", () => ask((page) => {
    if (page.unfinished()) saveWork(page);
  }));
  // Nothing was lost: the page is there again as it was.
  addEventListener("pageshow", ({ persisted }) => persisted && carried(KEY));
}

/**
 * @param {(task: (page: Page) => void) => void} change changes the case and shows it
 * @param {Views} views
 */
export async function resumeWork(change, views) {
  const text = carried(KEY);
  if (!text) return;
  /** @type {Work} */
  let work;
  try {
    work = JSON.parse(text);
  } catch {
    return;
  }
  const { inputs, readings, fold, address } = { ...work };
  // Another case may have been opened meanwhile.
  if (address !== location.href) return;
  if (inputs) change((page) => page.resume(inputs));
  for (const [id, value] of Object.entries(readings)) {
    const view = id === "layout-name" ? "compare" : "reading";
    const place = /** @type {HTMLDetailsElement} */ (element(view));
    place.open = true;
    await views.openLate(view);
    const input = /** @type {HTMLInputElement | null} */ (element(id));
    if (!input) continue;
    input.value = value;
    input.dispatchEvent(new Event("change", { bubbles: true }));
  }
  const open = /** @type {HTMLDetailsElement | null} */ (element(fold));
  if (open) open.open = true;
}
