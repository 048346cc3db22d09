// @ts-check
/**
 * The log of the line's readings, as the book of the device has it: an entry, its file, and the
 * entries so far. All words come from the calculation.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { book, keepBook, saveFile } from "./files.js";
import { command } from "./command.js";
import { entry } from "./entry.js";
import { opener } from "./exchange.js";
import { printsSheet } from "./sheets.js";
import { make, style } from "../../first/elements.js";
import { scrolled, table } from "../../first/table.js";

/**
 * @param {HTMLElement} inside
 * @param {Views} views
 */
export function open(inside, views) {
  style("page/record/record.css");
  printsSheet(/** @type {HTMLDetailsElement} */ (inside.closest("details")), views, "log");
  const signed = entry(views, "log");
  const list = make("div", "log__list");
  const tools = make("div", "group__tools");
  inside.classList.add("log");
  inside.append(signed.form, tools, list);

  function fill() {
    const texts = views.page.texts();
    views.ask((whole) => {
      const log = whole.log(book(views));
      const made = table(log.table);
      [...made.tBodies[0].rows].forEach((row, i) => {
        const remove = command(texts.log_remove, () => {
          book(views).remove(log.places[i]);
          void keepBook(views);
          dispatchEvent(new Event("footroom-book"));
        }, "button--quiet group__tool");
        remove.setAttribute("aria-label", `${texts.log_remove}: ${log.table.rows[i][0]}`);
        row.insertCell().append(remove);
      });
      made.tHead?.rows[0].append(make("td", "table__head"));
      list.replaceChildren(
        log.places.length ? scrolled(made, texts.log_open)
          : make("p", "panel__note", texts.log_empty),
        make("p", "panel__note", texts.log_help), make("p", "panel__note", log.note));
    });
  }

  function refresh() {
    const texts = views.page.texts();
    signed.refresh();
    tools.replaceChildren(
      command(texts.file_site, () => saveFile(views, "site"), "group__tool"),
      ...opener(views, texts.file_open));
    fill();
  }

  addEventListener("footroom-book", fill);
  return { refresh };
}
