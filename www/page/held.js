// @ts-check
/**
 * What several tabs change, held by the rule that the calculation knows for its key.
 */
import { kept_merge, kept_reads } from "../pkg/office.js";
import { hold as holdBy, keep } from "../first/kept.js";

export { keep };

/**
 * Holds what is kept under a key, as this tab sees it.
 * @param {string} key
 * @param {import("../first/kept.js").Held["changed"]} changed
 * @returns {string | null} what stands there; it may be such as cannot be read
 */
export function hold(key, changed) {
  return holdBy(key, (base, mine, stored) => kept_merge(key, base, mine, stored),
    (text) => kept_reads(key, text), changed);
}
