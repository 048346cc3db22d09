// @ts-check
/**
 * Sheets as they are printed, and what is printed in place of a view of the page.
 *
 * @typedef {import("../../pkg/office.js").Paper} Paper
 * @typedef {import("../../pkg/office.js").Block} Block
 * @typedef {import("../views.js").Views} Views
 */
import { book } from "./files.js";
import { make, style } from "../../first/elements.js";
import { table } from "../../first/table.js";
import { drawing } from "../trusted.js";

/**
 * @param {Block} block
 * @param {"h3" | "h4"} [heading] its level
 */
export function blockOf(block, heading = "h4") {
  const made = make("section", `paper__block paper__block--${block.kind}`);
  if (block.style) made.classList.add(`paper__block--${block.style}`);
  if (block.kind === "heading") {
    made.append(make("h3", "paper__name", block.title),
      ...block.lines.map((line) => make("p", "paper__job", line)));
    return made;
  }
  if (block.title) made.append(make(heading, "paper__heading", block.title));
  if (block.kind === "answer") {
    made.append(...block.head.map((line) => make("p", "paper__number", line)),
      ...block.lines.map((line) => make("p", "paper__line", line)));
  } else if (block.kind === "lines") {
    for (const line of block.lines) made.append(make("p", "paper__write", line));
  } else if (block.kind === "link") {
    made.append(...block.lines.map((link) => make("p", "paper__link", link)));
  } else {
    if (block.svg) made.append(drawing(block.svg));
    made.append(...block.lines.map((line) => make("p", "paper__line", line)));
  }
  if (block.kind === "table") {
    made.append(table({ caption: "", head: block.head, rows: block.rows, note: "" }));
    // A row of one cell names the group of those under it.
    for (const row of made.querySelectorAll("tbody tr")) {
      if (row.children.length === 1) {
        row.classList.add("table__group");
        row.children[0].setAttribute("colspan", String(block.head.length));
      }
    }
  }
  return made;
}

/**
 * Sheets: each a table whose foot stands on every printed page.
 * @param {Paper} paper
 */
export function sheetsOf(paper) {
  const all = make("div", "papers");
  for (const { blocks } of paper.sheets) {
    const body = make("div", "paper__body");
    body.append(...blocks.map((block) => blockOf(block)));
    const foot = make("div", "paper__foot");
    foot.append(make("p", "paper__caution", paper.foot));
    const sheet = make("div", `paper paper--${paper.kind}`);
    sheet.append(body, foot);
    all.append(sheet);
  }
  return all;
}

/**
 * Prints sheets in place of the page while a view is open: the style sheet hides all else while the
 * mark stands.
 * @param {HTMLDetailsElement} fold of the view
 * @param {() => {kind: string, sheets: Element | null, back: Element | null}} lay makes the sheets;
 *   `back`: where they stand on the page
 */
export function printsInstead(fold, lay) {
  style("page/record/record.css");
  const { dataset } = document.documentElement;
  addEventListener("beforeprint", () => {
    if (!fold.open || dataset.print) return;
    const { kind, sheets, back } = lay();
    if (!sheets) return;
    document.body.append(sheets);
    dataset.print = kind;
    addEventListener("afterprint", () => {
      delete dataset.print;
      if (back) back.replaceChildren(sheets);
      else sheets.remove();
    }, { once: true });
  });
}

/**
 * Prints one of the further sheets of the record in place of a view.
 * @param {HTMLDetailsElement} fold of the view
 * @param {Views} views
 * @param {string} key of the sheet
 */
export function printsSheet(fold, views, key) {
  printsInstead(fold, () => {
    /** @type {Element | null} */
    let sheets = null;
    const address = location.href.split("#")[0];
    views.ask((whole) => {
      const paper = (/** @type {string} */ further) =>
        whole.paper("record", further, book(views), address);
      const [made, without] = [paper(key), paper("")];
      if (!made || !without) return;
      sheets = sheetsOf({ ...made, sheets: made.sheets.slice(without.sheets.length) });
    });
    return { kind: "record", sheets, back: null };
  });
}
