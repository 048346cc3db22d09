// @ts-check
/**
 * A table as the calculation gives it.
 *
 * @typedef {import("../pkg/footroom.js").Table} Table
 */
import { make } from "./elements.js";

/**
 * @param {Table} data
 * @returns {HTMLTableElement}
 */
export function table(data) {
  const made = make("table", "table");
  if (data.caption) made.append(make("caption", "table__caption", data.caption));
  const head = made.createTHead().insertRow();
  for (const text of data.head) {
    // A column without a name has no header: an empty one would be read out as such.
    const cell = make(text ? "th" : "td", "table__head", text);
    if (cell.tagName === "TH") cell.setAttribute("scope", "col");
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
 * Lets keys scroll a place, which then says what it is, as long as it holds more than it shows.
 * @param {HTMLElement} place
 * @param {() => string} name
 */
export function keysScroll(place, name) {
  const look = () => {
    const more = place.scrollWidth > place.clientWidth || place.scrollHeight > place.clientHeight;
    if (more) {
      place.tabIndex = 0;
      place.setAttribute("role", "region");
      place.setAttribute("aria-label", name());
    } else {
      for (const said of ["tabindex", "role", "aria-label"]) place.removeAttribute(said);
    }
  };
  const sizes = new ResizeObserver(look);
  const watch = () => {
    sizes.disconnect();
    for (const part of [place, ...place.children]) sizes.observe(part);
  };
  watch();
  new MutationObserver(watch).observe(place, { childList: true });
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
