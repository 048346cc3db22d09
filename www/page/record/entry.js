// @ts-check
/**
 * An entry for the log, with the reading of today if there is one, and the way to the next line. All
 * words come from the calculation.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { command } from "./command.js";
import { book, keepBook } from "./files.js";
import { keepLines, openLine, takeLines, today } from "./line_store.js";
import { make } from "../../first/elements.js";

/** The fields, with the keys of their labels. */
const FIELDS = [["date", "date_label"], ["name", "name_label"], ["note", "note_label"]];

/**
 * @param {Views} views
 * @param {string} of the view: its fields are called after it
 */
export function entry(views, of) {
  const form = make("div", "entry");
  const heading = make("h3", "group__heading");
  /** @type {Record<string, HTMLInputElement>} */
  const inputs = {};
  const labels = FIELDS.map(([name]) => {
    const row = make("div", "field field--choice");
    const input = make("input", "field__input");
    input.id = `${of}-${name}`;
    input.type = name === "date" ? "date" : "text";
    input.autocomplete = "off";
    const label = make("label", "field__label");
    label.htmlFor = input.id;
    row.append(label, input);
    form.append(row);
    inputs[name] = input;
    return label;
  });
  const enter = command("", add, "button--main entry__enter");
  const said = make("p", "entry__said");
  said.setAttribute("role", "status");
  const next = command("", () => {}, "entry__next");
  next.hidden = true;
  form.prepend(heading);
  form.append(enter, said, next);

  /** The day that was proposed last: an entry is of today unless another day is chosen. */
  let proposed = "";
  function propose() {
    if (inputs.date.value === proposed) inputs.date.value = proposed = today();
  }
  addEventListener("footroom-book", propose);

  function add() {
    views.ask((whole) => {
      const { date, name, note } = inputs;
      const fault = whole.enter(book(views), date.value, name.value, note.value);
      said.classList.toggle("field__fault", Boolean(fault));
      said.textContent = fault ?? views.page.texts().log_entered;
      if (fault) return;
      note.value = "";
      void keepBook(views);
      takeLines(views);
      const shown = whole.lines(book(views), today()).shown;
      // The line that is read goes into the round; the example is nobody's line.
      if (shown === "new" && !views.view?.invented_note && whole.lines_keep(Date.now(), false)) {
        void keepLines(views);
      }
      const follows = whole.lines_next(book(views), today());
      next.hidden = !follows;
      next.textContent = follows?.text ?? "";
      next.onclick = () => follows && openLine(views, follows.place);
      if (!follows && whole.lines_count() > 1) {
        said.append(` ${views.page.texts().lines_all_read}`);
      }
      dispatchEvent(new Event("footroom-book"));
    });
  }

  return {
    form,
    refresh() {
      const texts = views.page.texts();
      heading.textContent = texts.log_new;
      FIELDS.forEach(([, key], i) => {
        labels[i].textContent = texts[key];
      });
      enter.textContent = texts.log_enter;
      said.textContent = "";
      said.classList.remove("field__fault");
      next.hidden = true;
      propose();
    },
  };
}
