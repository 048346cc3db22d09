// @ts-check
/**
 * A table as the calculation gives it.
 *
 * @typedef {import("../pkg/footroom.js").Table} Table
 */
import { make } from "./form.js";

/**
 * @param {Table} data
 * @returns {HTMLTableElement}
 */
export function table(data) {
  const made = make("table", "table");
  if (data.caption) made.append(make("caption", "table__caption", data.caption));
  const head = made.createTHead().insertRow();
  for (const text of data.head) {
    const cell = make("th", "table__head", text);
    cell.scope = "col";
    head.append(cell);
  }
  const body = made.createTBody();
  for (const row of data.rows) {
    const line = body.insertRow();
    for (const text of row) {
      const cell = make("td", "table__cell", text);
      // Where the cells stand one under another, each says what it is.
      cell.dataset.label = data.head[line.cells.length];
      // A number stays beside its unit, and inches beside their feet.
      if (/^\S*\d\S*( \S+| ft [\d/ ]+ in| [\d/]+ in)?$/.test(text)) {
        cell.classList.add("table__cell--value");
      }
      line.append(cell);
    }
  }
  return made;
}

/**
 * A table that scrolls by itself where it is wider than its place.
 * @param {HTMLTableElement} made
 * @param {string} name
 */
export function scrolled(made, name) {
  const region = make("div", "panel__scroll");
  region.tabIndex = 0;
  region.setAttribute("role", "region");
  region.setAttribute("aria-label", name);
  region.append(made);
  return region;
}

/**
 * Lets a narrow page lay the rows out as blocks, each number with what it is.
 * @param {HTMLTableElement} made
 */
export function asBlocks(made) {
  made.classList.add("table--blocks");
  keepRoles(made);
}

/**
 * Lets a narrow page put the last column under the others when it holds words.
 * @param {HTMLTableElement} made
 */
export function withRemarks(made) {
  const last = [...made.tBodies[0].rows].map((row) => row.cells[row.cells.length - 1]);
  if (last.some((cell) => cell.classList.contains("table__cell--value"))) return;
  made.classList.add("table--remarks");
  made.style.setProperty("--numbers", String(made.rows[0].cells.length - 2));
  keepRoles(made);
}

/**
 * The roles stay although it is laid out as no table.
 * @param {HTMLTableElement} made
 */
function keepRoles(made) {
  const roles = { tr: "row", "thead th": "columnheader", "tbody th": "rowheader",
    "td": "cell", "thead, tbody": "rowgroup" };
  made.setAttribute("role", "table");
  for (const [tag, role] of Object.entries(roles)) {
    for (const part of made.querySelectorAll(tag)) part.setAttribute("role", role);
  }
}
