// @ts-check
/**
 * What a rescue plan has to answer for the case at hand: the blocks of the printed sheet.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { blockOf, printsSheet } from "./sheets.js";
import { make, style } from "../../first/elements.js";
import { asBlocks } from "../../first/table.js";

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/record/record.css");
  printsSheet(/** @type {HTMLDetailsElement} */ (place.closest("details")), views, "rescue");
  place.classList.add("rescue");

  function refresh() {
    views.ask((whole) => {
      const blocks = whole.rescue().map((block) => blockOf(block, "h3"));
      place.replaceChildren(...(blocks.length ? blocks
        : [make("p", "panel__note", views.page.texts().record_none)]));
      for (const made of place.querySelectorAll("table")) asBlocks(made);
    });
  }

  return { refresh };
}
