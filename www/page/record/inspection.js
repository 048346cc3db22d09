// @ts-check
/**
 * The inspection, point by point; what is found is kept in the book of the device. All words come from
 * the calculation.
 *
 * @typedef {import("../../pkg/office.js").InspectionPoint} InspectionPoint
 * @typedef {import("../views.js").Views} Views
 */
import { book, keepBook } from "./files.js";
import { command } from "./command.js";
import { today } from "./line_store.js";
import { printsSheet } from "./sheets.js";
import { make, style } from "../../first/elements.js";

/** What may be found at a point; nothing yet comes first. */
const RESULTS = ["pass", "fail", "not_applicable"];
/** @type {Record<string, string>} */
const RESULT_TEXTS = { pass: "result_pass", fail: "result_fail", not_applicable: "result_none" };

/**
 * @param {string} label
 * @param {HTMLInputElement} input
 * @param {string} id
 */
function labelled(label, input, id) {
  const row = make("div", "field field--choice");
  const name = make("label", "field__label", label);
  name.htmlFor = id;
  input.id = id;
  row.append(name, input);
  return row;
}

/**
 * @param {HTMLElement} inside
 * @param {Views} views
 */
export function open(inside, views) {
  style("page/record/record.css");
  printsSheet(/** @type {HTMLDetailsElement} */ (inside.closest("details")), views, "inspection");

  /** Shows in the inspection what the book says now. */
  let follow = () => {};

  function fill() {
    const texts = views.page.texts();
    /** @type {import("../../pkg/office.js").InspectionView | null} */
    let view = null;
    views.ask((whole) => {
      view = whole.inspection(book(views), today());
    });
    if (!view) return;
    const shown = /** @type {import("../../pkg/office.js").InspectionView} */ (view);
    const failed = make("p", "record__failed", shown.failed);
    failed.id = "inspection-failed";
    failed.setAttribute("role", "status");
    const tally = make("p", "inspection__tally", shown.tally);
    tally.id = "inspection-tally";
    tally.setAttribute("role", "status");
    const ofDay = make("p", "inspection__day", shown.of_day);
    const onward = command(texts.inspection_next, () => {
      const open = inside.querySelector(".point:not(:has(:checked))");
      open?.scrollIntoView({ block: "center" });
      /** @type {HTMLElement | null | undefined} */ (open?.querySelector("input"))?.focus(
        { preventScroll: true });
    }, "inspection__next");
    const head = make("div", "inspection__head");
    head.append(tally, onward);
    const date = make("input", "field__input");
    date.type = "date";
    date.value = shown.date;
    const name = make("input", "field__input");
    name.type = "text";
    name.autocomplete = "off";
    name.value = shown.name;
    const sign = () => change((whole) => whole.sign(book(views), date.value, name.value));
    date.addEventListener("change", sign);
    name.addEventListener("change", sign);

    /** @type {Map<string, (now: InspectionPoint) => void>} What shows another tab's changes. */
    const followers = new Map();
    /**
     * What somebody is typing stays as it is.
     * @param {HTMLInputElement} input
     * @param {string} text
     */
    const put = (input, text) => {
      if (input !== document.activeElement && input.value !== text) input.value = text;
    };
    follow = () => views.ask((whole) => {
      const now = whole.inspection(book(views), today());
      say(now);
      put(date, now.date);
      put(name, now.name);
      for (const part of now.parts) {
        for (const point of part.points) followers.get(point.key)?.(point);
      }
    });

    /** @param {(page: import("../../pkg/office.js").Page) => void} task */
    function change(task) {
      views.ask((whole) => {
        task(whole);
        say(whole.inspection(book(views), today()));
      });
      void keepBook(views);
    }

    /** @param {import("../../pkg/office.js").InspectionView} now */
    function say(now) {
      failed.textContent = now.failed;
      tally.textContent = now.tally;
      ofDay.textContent = now.of_day;
      onward.hidden = !inside.querySelector(".point:not(:has(:checked))");
    }

    /** @param {InspectionPoint} point */
    function pointOf(point) {
      const group = make("fieldset", "point");
      const legend = make("legend", "point__text", point.text);
      const note = make("input", "field__input point__note");
      note.type = "text";
      note.autocomplete = "off";
      note.value = point.note;
      note.placeholder = texts.note_label;
      note.setAttribute("aria-label", `${texts.note_label}: ${point.text}`);
      const result = () => group.querySelector("input:checked")?.getAttribute("value") ?? "";
      const look = () =>
        change((whole) =>
          whole.look(book(views), point.key, result(), note.value, date.value));
      note.addEventListener("change", look);
      const answers = make("div", "point__answers");
      for (const value of RESULTS) {
        const label = make("label", "choice");
        const input = make("input", "choice__input");
        input.type = "radio";
        input.name = `point-${point.key}`;
        input.value = value;
        input.checked = value === point.result;
        input.addEventListener("change", look);
        label.append(input, make("span", "choice__face", texts[RESULT_TEXTS[value]]));
        answers.append(label);
      }
      group.append(legend, answers, note, make("p", "point__source", point.source));
      /** @param {InspectionPoint} now */
      const follow = (now) => {
        for (const input of answers.querySelectorAll("input")) {
          input.checked = input.value === now.result;
        }
        put(note, now.note);
      };
      followers.set(point.key, follow);
      return group;
    }

    const clear = () => command(texts.inspection_clear, () => {
      views.ask((whole) => whole.clear_inspection(book(views)));
      void keepBook(views);
      fill();
      inside.querySelector("input")?.focus();
    }, "group__tool");
    inside.replaceChildren(head, failed, ofDay, clear(),
      make("p", "panel__note", texts.inspection_help),
      labelled(texts.date_label, date, "inspection-date"),
      labelled(texts.name_label, name, "inspection-name"),
      ...shown.parts.flatMap((part) =>
        [make("h3", "group__heading", part.name), ...part.points.map(pointOf)]),
      clear());
    say(shown);
  }

  addEventListener("footroom-book", () => follow());
  return { refresh: fill };
}
