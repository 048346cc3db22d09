// @ts-check
/**
 * The line as it is found, beside the plan, and its way into the log. It uses the readings of the
 * set-up view.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { book, keepBook } from "./files.js";
import { printsSheet } from "./sheets.js";
import { element, make, style } from "../../first/elements.js";
import { keysScroll, table } from "../../first/table.js";

/** The readings that the set-up view has already. */
const READINGS = ["weight", "movement", "swings", "time"];

/** The fields that are added to them, with the keys of their labels. */
const ADDED = [
  ["temperature", "found_temperature"],
  ["height", "found_height"],
  ["depth", "found_depth"],
];

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/record/record.css");
  printsSheet(/** @type {HTMLDetailsElement} */ (place.closest("details")), views, "log");
  place.classList.add("found");
  const heading = make("h3", "group__heading");
  const help = make("p", "panel__note");
  /** @type {Map<string, {label: HTMLElement, unit: HTMLElement, fault: HTMLElement}>} */
  const rows = new Map();
  const fields = make("div", "found__fields");

  /**
   * @param {string} name
   * @param {string} type
   */
  function field(name, type) {
    const measured = ADDED.some(([part]) => part === name);
    const row = make("div", measured ? "field" : "field field--choice");
    const input = make("input", "field__input");
    input.id = `found-${name}`;
    input.type = type;
    input.autocomplete = "off";
    const label = make("label", "field__label");
    label.htmlFor = input.id;
    const unit = make("span", "field__unit");
    const fault = make("p", "field__fault");
    fault.id = `found-${name}-fault`;
    input.setAttribute("aria-describedby", fault.id);
    row.append(label, input);
    if (measured) row.append(unit);
    row.append(fault);
    rows.set(name, { label, unit, fault });
    fields.append(row);
    return input;
  }

  for (const [name] of ADDED) {
    const input = field(name, "text");
    input.addEventListener("change", () => {
      views.ask((whole) => whole.read(name, input.value));
      refresh();
    });
  }
  const all = make("p", "field__fault");
  const result = make("div", "found__result");
  result.setAttribute("role", "status");
  const reading = make("p", "found__reading");
  const alert = make("p", "found__alert");
  const sentence = make("p", "found__sentence");
  const remarks = make("ul", "found__remarks");
  const compared = make("div", "panel__scroll");
  keysScroll(compared, () => heading.textContent ?? "");
  result.append(reading, alert, sentence, remarks, compared);
  const signed = make("div", "found__fields");
  place.append(heading, help, fields, all, result, signed);
  const date = field("date", "date");
  const name = field("name", "text");
  const note = field("note", "text");
  // The browser's own day: an entry is of today unless another day is chosen.
  date.valueAsDate = new Date();
  for (const input of [date, name, note]) {
    signed.append(/** @type {HTMLElement} */ (input.parentElement));
  }
  const enter = make("button", "button button--main found__enter");
  enter.type = "button";
  const said = make("p", "found__said");
  said.setAttribute("role", "status");
  signed.append(enter, said);

  enter.addEventListener("click", () => views.ask((whole) => {
    const fault = whole.enter(book(views), date.value, name.value, note.value);
    said.classList.toggle("field__fault", Boolean(fault));
    said.textContent = fault ?? views.page.texts().log_entered;
    if (fault) return;
    note.value = "";
    void keepBook(views);
    dispatchEvent(new Event("footroom-book"));
  }));
  for (const part of READINGS) {
    element(`read-${part}`)?.addEventListener("change", refresh);
  }

  function refresh() {
    const texts = views.page.texts();
    heading.textContent = texts.found_open;
    help.textContent = texts.found_help;
    for (const [part, key] of [...ADDED, ["date", "date_label"], ["name", "name_label"],
      ["note", "note_label"]]) {
      const row = rows.get(part);
      if (row) row.label.textContent = texts[key];
    }
    enter.textContent = texts.log_enter;
    said.textContent = "";
    views.ask((whole) => {
      const view = whole.found_line();
      for (const [part, row] of rows) {
        const fault = view?.problems.find((problem) => problem.field === part);
        row.fault.textContent = fault?.message ?? "";
        element(`found-${part}`)?.setAttribute("aria-invalid", String(Boolean(fault)));
      }
      const other = view?.problems.find((problem) => !rows.has(problem.field)
        && !READINGS.includes(problem.field));
      all.textContent = other?.message ?? "";
      const unit = (/** @type {string} */ part, /** @type {string} */ text) => {
        const row = rows.get(part);
        if (row) row.unit.textContent = text;
      };
      unit("temperature", view?.temperature_unit ?? "");
      unit("height", view?.length_unit ?? "");
      unit("depth", view?.length_unit ?? "");
      reading.textContent = view?.reading ?? "";
      alert.textContent = view?.alert ?? "";
      sentence.textContent = view?.sentence ?? "";
      // Under a warning no number stands out.
      sentence.classList.toggle("found__sentence--plain", Boolean(view?.alert));
      remarks.replaceChildren(...(view?.remarks ?? []).map((text) =>
        make("li", "found__remark", text)));
      result.classList.toggle("found__result--outside", view?.outside ?? false);
      compared.replaceChildren(...(view?.table.rows.length ? [table(view.table)] : []));
    });
  }
  return { refresh };
}
