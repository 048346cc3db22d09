// @ts-check
/**
 * The log of the line's readings, as the book of the device has it. All words come from the
 * calculation.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { book, keepBook } from "./files.js";
import { command } from "./command.js";
import { printsSheet } from "./sheets.js";
import { make, style } from "../../first/elements.js";
import { table } from "../../first/table.js";

/**
 * @param {HTMLElement} inside
 * @param {Views} views
 */
export function open(inside, views) {
  style("page/record/record.css");
  printsSheet(/** @type {HTMLDetailsElement} */ (inside.closest("details")), views, "log");

  function fill() {
    const texts = views.page.texts();
    views.ask((whole) => {
      const log = whole.log(book(views));
      const list = table(log.table);
      [...list.tBodies[0].rows].forEach((row, i) => {
        const remove = command(texts.log_remove, () => {
          book(views).remove(log.places[i]);
          void keepBook(views);
          fill();
        }, "button--quiet group__tool");
        remove.setAttribute("aria-label", `${texts.log_remove}: ${log.table.rows[i][0]}`);
        row.insertCell().append(remove);
      });
      if (log.places.length) list.tHead?.rows[0].append(make("td", "table__head"));
      const box = make("div", "panel__scroll");
      box.append(log.places.length ? list : make("p", "panel__note", texts.log_empty));
      if (log.places.length) {
        box.tabIndex = 0;
        box.setAttribute("role", "region");
        box.setAttribute("aria-label", texts.log_open);
      }
      inside.replaceChildren(make("p", "panel__note", texts.log_help), box,
        make("p", "panel__note", log.note));
    });
  }

  addEventListener("footroom-book", fill);
  return { refresh: fill };
}
