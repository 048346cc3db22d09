// @ts-check
/**
 * Today's reading: what it says of the line in one sentence, the line as it is found beside the plan,
 * and its way into the log. The first fields stand in the page.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { book } from "./files.js";
import { entry } from "./entry.js";
import { clearReadings } from "./line_store.js";
import { printsSheet } from "./sheets.js";
import { element, make, style } from "../../first/elements.js";
import { keysScroll, table } from "../../first/table.js";

/** The fields of each way to read the tension. */
const WAYS = { weight: ["weight", "movement"], swings: ["swings", "time"] };

/** What else is measured, with the keys of the labels. */
const ADDED = [["height", "found_height"], ["depth", "found_depth"]];

/** @param {string} name */
const input = (name) => /** @type {HTMLInputElement} */ (
  element(`read-${name}`) ?? element(`found-${name}`));

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/record/record.css");
  printsSheet(/** @type {HTMLDetailsElement} */ (place.closest("details")), views, "log");
  place.classList.add("found");
  const result = make("div", "found__result");
  result.setAttribute("role", "status");
  const verdict = make("p", "found__verdict");
  verdict.id = "found-verdict";
  const alert = make("p", "found__alert");
  const reading = make("p", "found__reading");
  const sentence = make("p", "found__sentence");
  const remarks = make("ul", "found__remarks");
  const compared = make("div", "panel__scroll");
  keysScroll(compared, () => verdict.textContent ?? "");
  result.append(verdict, alert, reading, sentence, remarks, compared);
  const other = make("p", "field__fault");

  const also = make("details", "found__also");
  const alsoName = make("summary", "found__summary");
  const help = make("p", "panel__note");
  also.append(alsoName, help);
  /** @type {Map<string, HTMLElement>} What is wrong with each field. */
  const faults = new Map();
  /** @type {[HTMLElement, string][]} */
  const labels = [];
  for (const [name, key] of ADDED) {
    const row = make("div", "field");
    const label = make("label", "field__label");
    const field = make("input", "field__input field__input--number");
    field.id = label.htmlFor = `found-${name}`;
    field.type = "text";
    field.autocomplete = "off";
    row.append(label, field, make("span", "field__unit"));
    also.append(row);
    labels.push([label, key]);
  }
  const signed = entry(views, "found");
  const lastName = make("h3", "group__heading");
  const last = make("ul", "found__last");
  place.append(result, other, also, signed.form, lastName, last);

  for (const name of ["temperature", "weight", "movement", "swings", "time", "height", "depth"]) {
    const field = input(name);
    const fault = make("p", "field__fault");
    fault.id = `${field.id}-fault`;
    field.setAttribute("aria-describedby", fault.id);
    field.closest(".field")?.append(fault);
    faults.set(name, fault);
    field.addEventListener("change", () => {
      views.ask((whole) => whole.read(name, field.value));
      // What is put back where it is not shown brings its way along.
      const way = Object.entries(WAYS).find(([, names]) => names.includes(name));
      if (way && field.value && element(`reading-${way[0]}`).hidden) choose(way[0]);
      if (field.value && also.contains(field)) also.open = true;
      views.showSetUp();
      refresh();
    });
    // What the browser has put back into it.
    if (field.value) views.ask((whole) => whole.read(name, field.value));
  }
  for (const way of /** @type {NodeListOf<HTMLInputElement>} */ (
    document.querySelectorAll("[name=reading-by]"))) {
    way.addEventListener("change", () => {
      choose(way.value);
      refresh();
    });
    if (way.checked) choose(way.value);
  }
  element("found-sign").addEventListener("click", () => {
    const field = input("temperature");
    field.value = field.value.startsWith("-") ? field.value.slice(1) : `-${field.value}`;
    field.dispatchEvent(new Event("change"));
    field.focus();
  });

  /**
   * Only what is shown is read: the fields of the other way keep what was typed.
   * @param {string} chosen
   */
  function choose(chosen) {
    for (const [way, names] of Object.entries(WAYS)) {
      element(`reading-${way}`).hidden = way !== chosen;
      for (const name of names) {
        views.ask((whole) => whole.read(name, way === chosen ? input(name).value : ""));
      }
    }
    const way = document.querySelector(`[name=reading-by][value=${chosen}]`);
    /** @type {HTMLInputElement} */ (way).checked = true;
  }

  let job = views.view?.title;

  function refresh() {
    if (views.view && views.view.title !== job) {
      // Another line: nothing was read on it yet.
      if (job !== undefined) clearReadings(views);
      job = views.view.title;
    }
    const texts = views.page.texts();
    help.textContent = texts.found_help;
    alsoName.textContent = texts.found_also;
    lastName.textContent = texts.log_last;
    for (const [label, key] of labels) label.textContent = texts[key];
    element("found-sign").setAttribute("aria-label", texts.found_below_zero);
    show();
    signed.refresh();
  }

  function show() {
    views.ask((whole) => {
      const view = whole.found_line(book(views));
      for (const [name, fault] of faults) {
        const wrong = view?.problems.find((problem) => problem.field === name);
        fault.textContent = wrong?.message ?? "";
        input(name).setAttribute("aria-invalid", String(Boolean(wrong)));
      }
      const rest = view?.problems.find((problem) => !faults.has(problem.field));
      other.textContent = rest?.message ?? "";
      for (const name of ["movement", "height", "depth"]) {
        input(name).inputMode = view?.length_keys ?? "";
        const unit = input(name).closest(".field")?.querySelector(".field__unit");
        if (unit) unit.textContent = view?.length_unit ?? "";
      }
      element("found-temperature-unit").textContent = view?.temperature_unit ?? "";
      verdict.textContent = view?.verdict ?? views.page.texts().record_none;
      alert.textContent = view?.alert ?? "";
      reading.textContent = view?.reading ?? "";
      sentence.textContent = view?.sentence ?? "";
      remarks.replaceChildren(...(view?.remarks ?? []).map((text) =>
        make("li", "found__remark", text)));
      result.classList.toggle("found__result--outside", view?.outside ?? false);
      compared.replaceChildren(...(view?.table.rows.length ? [table(view.table)] : []));
      const lines = whole.log(book(views)).last;
      lastName.hidden = !lines.length;
      last.replaceChildren(...lines.map((text) => make("li", "found__entry", text)));
    });
  }

  addEventListener("footroom-book", show);
  return { refresh };
}
