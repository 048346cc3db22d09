// @ts-check
/**
 * The views under the drop: checks, set-up figures, searches. All words come from the calculation.
 *
 * @typedef {import("../pkg/footroom.js").Desk} Desk
 * @typedef {import("../pkg/footroom.js").View} View
 * @typedef {import("../pkg/footroom.js").Table} Table
 * @typedef {import("../pkg/footroom.js").Reading} Reading
 */
import { make } from "./form.js";

/**
 * @param {string} id
 * @returns {any}
 */
const element = (id) => document.getElementById(id);

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
    for (const text of row) line.append(make("td", "table__cell", text));
  }
  return made;
}

/**
 * The table of the checks. A verdict that asks for an input leads to it.
 * @param {View} view
 * @param {Record<string, string>} texts
 * @param {(path: string) => void} focus
 */
export function showChecks(view, texts, focus) {
  const head = ["what", "demand", "capacity", "ratio", "required", "verdict", "source"]
    .map((key) => texts[`col_${key}`]);
  const made = table({ caption: "", head, rows: [], note: "" });
  made.classList.add("table--checks");
  for (const check of view.checks) {
    const line = made.tBodies[0].insertRow();
    const name = make("th", "table__cell", check.label);
    name.scope = "row";
    line.append(name);
    for (const text of [check.demand, check.capacity, check.ratio, check.required, check.verdict,
      check.source]) {
      const cell = make("td", "table__cell", text);
      // Where the rows stand one under another, each number says what it is.
      cell.dataset.label = head[line.cells.length];
      line.append(cell);
    }
    const verdict = line.cells[5];
    verdict.classList.add("verdict", `verdict--${check.verdict_kind}`);
    if (!check.field) continue;
    const link = make("button", "verdict__link", check.verdict);
    link.type = "button";
    link.addEventListener("click", () => focus(check.field));
    verdict.replaceChildren(link);
  }
  // The roles stay although a narrow page lays the rows out as blocks.
  const roles = { tr: "row", "thead th": "columnheader", "tbody th": "rowheader",
    td: "cell" };
  made.setAttribute("role", "table");
  for (const [tag, role] of Object.entries(roles)) {
    for (const part of made.querySelectorAll(tag)) part.setAttribute("role", role);
  }
  element("checks-table").replaceChildren(made);
  element("checks-tally").textContent = view.checks_tally;
}

export class Views {
  /**
   * @param {(task: (desk: Desk) => void) => void} ask runs a task on the desk, or reports its end
   * @param {(task: (desk: Desk) => void) => void} change changes the case and shows it
   * @param {() => Record<string, string>} texts
   */
  constructor(ask, change, texts) {
    this.ask = ask;
    this.texts = texts;
    element("set-up").addEventListener("toggle", () => this.showSetUp());
    for (const id of ["read-weight", "read-movement", "read-time"]) {
      element(id).addEventListener("change", () => this.showSetUp());
    }
    for (const what of ["delay", "places"]) {
      element(`search-${what}`).addEventListener("click", () => this.search(what));
    }
    element("search-load").addEventListener("click", () => change((d) => d.load_found()));
  }

  /** The case has changed, or its words. */
  refresh() {
    element("search-result").textContent = "";
    element("search-load").hidden = true;
    this.showSetUp();
  }

  /** The figures take a while, so they are made only where they are looked at. */
  showSetUp() {
    if (!element("set-up").open) return;
    this.ask((d) => {
      const shown = d.set_up(element("read-weight").value, element("read-movement").value,
        element("read-time").value);
      element("set-up-tables").replaceChildren(...(shown?.tables ?? []).map(table));
      element("set-up-note").textContent = shown?.note ?? "";
      element("read-weight-unit").textContent = shown?.weight_unit ?? "";
      element("read-movement-unit").textContent = shown?.length_unit ?? "";
      element("read-weight").placeholder = shown?.weight_usual ?? "";
      this.tell("read-by-weight", shown?.by_weight);
      this.tell("read-by-swings", shown?.by_swings);
    });
  }

  /**
   * @param {string} id
   * @param {Reading | null | undefined} reading
   */
  tell(id, reading) {
    element(id).textContent = reading?.sentence ?? "";
    element(id).classList.toggle("field__fault", reading?.bad ?? false);
  }

  /** @param {string} what */
  search(what) {
    const result = element("search-result");
    result.textContent = this.texts().search_running;
    element("search-load").hidden = true;
    // First the words, then the work that holds the page up.
    requestAnimationFrame(() => setTimeout(() => this.ask((d) => {
      const found = d.search(what);
      result.textContent = found?.sentence ?? "";
      element("search-load").hidden = !found?.loadable;
    })));
  }
}
