// @ts-check
/**
 * The record: sheets to print, the inspection, the log, and files to save. All words come from the
 * calculation.
 *
 * @typedef {import("../../pkg/office.js").Paper} Paper
 * @typedef {import("../../pkg/office.js").Block} Block
 * @typedef {import("../../pkg/office.js").InspectionPart} InspectionPart
 * @typedef {import("../../pkg/office.js").InspectionPoint} InspectionPoint
 * @typedef {import("../views.js").Views} Views
 */
import { Page } from "../../pkg/office.js";
import { book, keepBook, openFile, saveFile, savePicture } from "./files.js";
import { make, style } from "../../first/elements.js";
import * as device from "../../first/kept.js";
import { table } from "../../first/table.js";
import { drawing } from "../trusted.js";

/** The sheets, with the keys of their names and of the command that prints them. */
const SHEETS = [
  ["record", "sheet_record", "print_record"],
  ["tag", "sheet_tag", "print_tag"],
  ["sign_in", "sheet_sign_in", "print_sign_in"],
];

/** Where the choice of further sheets is kept. */
const FURTHER_KEY = "sheets";

/** What may be found at a point; nothing yet comes first. */
const RESULTS = ["pass", "fail", "not_applicable"];
/** @type {Record<string, string>} */
const RESULT_TEXTS = { pass: "result_pass", fail: "result_fail", not_applicable: "result_none" };

/** @param {Block} block */
function blockOf(block) {
  const made = make("section", `paper__block paper__block--${block.kind}`);
  if (block.style) made.classList.add(`paper__block--${block.style}`);
  if (block.kind === "heading") {
    made.append(make("h3", "paper__name", block.title),
      ...block.lines.map((line) => make("p", "paper__job", line)));
    return made;
  }
  if (block.title) made.append(make("h4", "paper__heading", block.title));
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
function sheetsOf(paper) {
  const all = make("div", "papers");
  for (const { blocks } of paper.sheets) {
    const body = make("div", "paper__body");
    body.append(...blocks.map(blockOf));
    const foot = make("div", "paper__foot");
    foot.append(make("p", "paper__caution", paper.foot));
    const sheet = make("div", `paper paper--${paper.kind}`);
    sheet.append(body, foot);
    all.append(sheet);
  }
  return all;
}

/**
 * @param {string} text
 * @param {() => void} act
 * @param {string} [extra]
 */
function button(text, act, extra = "") {
  const made = make("button", `button ${extra}`.trim(), text);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}

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
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/record/record.css");
  const kept = {
    kind: "record",
    language: "",
    shown: new Set(),
    further: new Set((device.read(FURTHER_KEY) ?? "").split(" ")),
  };
  const folds = make("div", "record__folds");
  const sheets = make("div", "record__sheets");
  const preview = make("div", "record__preview");
  preview.tabIndex = 0;
  preview.setAttribute("role", "region");
  place.append(folds, sheets, preview);

  /** @returns {Paper | null} */
  function paper() {
    /** @type {Paper | null} */
    let made = null;
    const address = location.href.split("#")[0];
    views.ask((whole) => {
      const keys = Page.further_sheets().filter((key) => kept.further.has(key));
      made = whole.paper(kept.kind, keys.join(" "), book(views), address);
    });
    return made;
  }

  function showPaper() {
    const made = paper();
    const none = make("p", "panel__note", views.page.texts().record_none);
    preview.replaceChildren(made ? sheetsOf(made) : none);
  }

  /** Prints only the sheets: the style sheet hides all else while the mark stands. */
  function print() {
    showPaper();
    const sheets = preview.querySelector(".papers");
    if (!sheets) return;
    document.body.append(sheets);
    document.documentElement.dataset.print = kept.kind;
    const title = document.title;
    const end = () => {
      removeEventListener("afterprint", end);
      delete document.documentElement.dataset.print;
      document.title = title;
      preview.replaceChildren(sheets);
    };
    addEventListener("afterprint", end);
    window.print();
  }

  /** @param {Record<string, string>} texts */
  function showSheets(texts) {
    const choices = make("fieldset", "record__choices");
    choices.append(make("legend", "group__heading", texts.record_sheet));
    const printer = button("", print, "button--main");
    printer.id = "record-print";
    const name = () => {
      printer.textContent = texts[SHEETS.find(([kind]) => kind === kept.kind)?.[2] ?? ""];
    };
    for (const [kind, key] of SHEETS) {
      const label = make("label", "choice");
      const input = make("input", "choice__input");
      input.type = "radio";
      input.name = "sheet";
      input.value = kind;
      input.checked = kind === kept.kind;
      input.addEventListener("change", () => {
        kept.kind = kind;
        name();
        showPaper();
      });
      label.append(input, make("span", "choice__face", texts[key]));
      choices.append(label);
    }
    name();
    const further = furtherOf(texts);
    further.hidden = kept.kind !== "record";
    choices.addEventListener("change", () => {
      further.hidden = kept.kind !== "record";
    });
    preview.setAttribute("aria-label", texts.record_preview);
    sheets.replaceChildren(make("p", "panel__note", texts.record_note), choices, further, printer);
  }

  /**
   * The choice of sheets that are printed with the record; it stays on the device.
   * @param {Record<string, string>} texts
   */
  function furtherOf(texts) {
    const group = make("fieldset", "record__choices");
    group.id = "record-further";
    const boxes = Page.further_sheets().map((key) => {
      const box = make("input", "record__box");
      box.type = "checkbox";
      box.name = "further";
      box.value = key;
      box.checked = kept.further.has(key);
      const label = make("label", "record__further");
      label.append(box, make("span", "", texts[`further_${key}`]));
      return { box, label };
    });
    const take = () => {
      kept.further = new Set(boxes.filter(({ box }) => box.checked).map(({ box }) => box.value));
      device.write(FURTHER_KEY, [...kept.further].join(" "));
      showPaper();
    };
    group.addEventListener("change", take);
    /** @param {boolean} on */
    const all = (on) => () => {
      for (const { box } of boxes) box.checked = on;
      take();
    };
    group.append(make("legend", "group__heading", texts.further_heading),
      make("p", "panel__note record__further-note", texts.further_note),
      ...boxes.map(({ label }) => label),
      button(texts.further_all, all(true), "button--quiet group__tool"),
      button(texts.further_none, all(false), "button--quiet group__tool"));
    return group;
  }

  /**
   * A fold whose content is filled when it is open.
   * @param {string} id
   * @param {string} heading
   * @param {(inside: HTMLElement) => void} fill
   */
  function fold(id, heading, fill) {
    const made = make("details", "group__fold record__fold");
    made.id = id;
    made.open = kept.shown.has(id);
    const inside = make("div", "record__inside");
    made.append(make("summary", "group__summary", heading), inside);
    made.addEventListener("toggle", () => {
      if (made.open) kept.shown.add(id);
      else kept.shown.delete(id);
      if (made.open && !inside.firstChild) fill(inside);
    });
    if (made.open) fill(inside);
    return made;
  }

  /** Shows in the inspection, as it stands open, what the book says now. */
  let followInspection = () => {};

  /** @param {HTMLElement} inside */
  function fillInspection(inside) {
    const texts = views.page.texts();
    /** @type {import("../../pkg/office.js").InspectionView | null} */
    let view = null;
    views.ask((whole) => {
      view = whole.inspection(book(views));
    });
    if (!view) return;
    const shown = /** @type {import("../../pkg/office.js").InspectionView} */ (view);
    const failed = make("p", "record__failed", shown.failed);
    failed.id = "inspection-failed";
    failed.setAttribute("role", "status");
    const tally = make("p", "panel__note", shown.tally);
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
    followInspection = () => views.ask((whole) => {
      const now = whole.inspection(book(views));
      failed.textContent = now.failed;
      tally.textContent = now.tally;
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
        const now = whole.inspection(book(views));
        failed.textContent = now.failed;
        tally.textContent = now.tally;
      });
      void keepBook(views);
      showPaper();
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
        change((whole) => whole.look(book(views), point.key, result(), note.value));
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

    const clear = button(texts.inspection_clear, () => {
      views.ask((whole) => whole.clear_inspection(book(views)));
      void keepBook(views);
      showPaper();
      inside.replaceChildren();
      fillInspection(inside);
      inside.querySelector("input")?.focus();
    }, "button--quiet group__tool");
    inside.replaceChildren(make("p", "panel__note", texts.inspection_help),
      labelled(texts.date_label, date, "inspection-date"),
      labelled(texts.name_label, name, "inspection-name"),
      failed, tally,
      ...shown.parts.flatMap((part) =>
        [make("h3", "group__heading", part.name), ...part.points.map(pointOf)]),
      clear);
  }

  /** @param {HTMLElement} inside */
  function fillLog(inside) {
    const texts = views.page.texts();
    views.ask((whole) => {
      const log = whole.log(book(views));
      const list = table(log.table);
      [...list.tBodies[0].rows].forEach((row, i) => {
        const remove = button(texts.log_remove, () => {
          book(views).remove(log.places[i]);
          void keepBook(views);
          showPaper();
          fillLog(inside);
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

  /** @param {HTMLElement} inside */
  function fillFiles(inside) {
    const texts = views.page.texts();
    const input = make("input", "unseen");
    input.type = "file";
    input.accept = ".json,application/json";
    input.id = "file-input";
    input.tabIndex = -1;
    input.setAttribute("aria-label", texts.file_open);
    input.addEventListener("change", () => {
      const file = input.files?.[0];
      if (file) void openFile(views, file);
      input.value = "";
    });
    const tools = make("div", "group__tools");
    for (const [key, act] of /** @type {[string, () => void][]} */ ([
      ["file_open", () => input.click()],
      ["file_save", () => saveFile(views, "case")],
      ["file_site", () => saveFile(views, "site")],
      ["file_csv", () => saveFile(views, "csv")],
      ["file_svg", () => saveFile(views, "svg")],
      ["file_png", () => savePicture(views)],
    ])) {
      const made = button(texts[key], act, "group__tool");
      made.id = key.replace("_", "-");
      tools.append(made);
    }
    inside.replaceChildren(make("p", "panel__note", texts.files_help), tools, input);
  }

  function refresh() {
    const texts = views.page.texts();
    showSheets(texts);
    folds.replaceChildren(
      fold("record-inspection", texts.inspection_open, fillInspection),
      fold("record-log", texts.log_open, fillLog),
      fold("record-files", texts.files_open, fillFiles));
    showPaper();
  }

  addEventListener("footroom-book", () => {
    followInspection();
    const inside = folds.querySelector("#record-log > .record__inside");
    if (inside?.firstChild) fillLog(/** @type {HTMLElement} */ (inside));
    showPaper();
  });
  return { refresh };
}
