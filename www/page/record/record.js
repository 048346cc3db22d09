// @ts-check
/**
 * The record: sheets to print. All words come from the calculation.
 *
 * @typedef {import("../../pkg/office.js").Paper} Paper
 * @typedef {import("../views.js").Views} Views
 */
import { Page } from "../../pkg/office.js";
import { command } from "./command.js";
import { book } from "./files.js";
import { printsInstead, sheetsOf } from "./sheets.js";
import { make, style } from "../../first/elements.js";
import * as device from "../../first/kept.js";

/** The sheets, with the keys of their names and of the command that prints them. */
const SHEETS = [
  ["record", "sheet_record", "print_record"],
  ["tag", "sheet_tag", "print_tag"],
  ["sign_in", "sheet_sign_in", "print_sign_in"],
];

/** Where the choice of further sheets is kept. */
const FURTHER_KEY = "sheets";

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/record/record.css");
  const kept = {
    kind: "record",
    language: "",
    further: new Set((device.read(FURTHER_KEY) ?? "").split(" ")),
  };
  const sheets = make("div", "record__sheets");
  const preview = make("div", "record__preview");
  preview.tabIndex = 0;
  preview.setAttribute("role", "region");
  place.append(sheets, preview);

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

  printsInstead(/** @type {HTMLDetailsElement} */ (place.closest("details")), () => {
    showPaper();
    return { kind: kept.kind, sheets: preview.querySelector(".papers"), back: preview };
  });

  /** @param {Record<string, string>} texts */
  function showSheets(texts) {
    const choices = make("fieldset", "record__choices");
    choices.append(make("legend", "group__heading", texts.record_sheet));
    const printer = command("", () => window.print(), "button--main");
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
      command(texts.further_all, all(true), "button--quiet group__tool"),
      command(texts.further_none, all(false), "button--quiet group__tool"));
    return group;
  }

  function refresh() {
    const texts = views.page.texts();
    showSheets(texts);
    showPaper();
  }

  addEventListener("footroom-book", () => {
    if (place.closest("details")?.open) showPaper();
  });
  return { refresh };
}
