// @ts-check
/**
 * The handout: the steps of the talk as a page to print, in one language or in both. It is what is
 * printed from anywhere in this room.
 *
 * @typedef {import("../../pkg/office.js").Paper} Paper
 * @typedef {import("../views.js").Views} Views
 */
import { element, make, style } from "../../first/elements.js";
import { command } from "../record/command.js";
import { book } from "../record/files.js";
import { printsInstead, sheetsOf } from "../record/sheets.js";

/** The tasks from which it is printed. */
const FOLDS = ["talk", "guess", "handout", "film"];

let both = false;

/**
 * Solves one more of the steps, where that takes no longer than a moment.
 * @param {Views} views
 * @returns {number} 0: they are all there; 1: there is more to solve; 2: they come from beside the page
 */
function lacking(views) {
  let lacks = 0;
  views.ask((whole) => {
    lacks = whole.talk_lacks("");
  });
  return lacks;
}

/**
 * What is printed at once, without what takes long.
 * @param {Views} views
 * @returns {HTMLElement | null} null: there is no result
 */
function sheets(views) {
  let lacks = 1;
  while (lacks === 1) lacks = lacking(views);
  if (lacks) {
    const waits = make("div", "papers");
    waits.append(make("p", "paper", views.page.texts().handout_waits));
    return waits;
  }
  const address = location.href.split("#")[0];
  const shown = document.documentElement.lang;
  const languages = both ? [shown, shown === "es" ? "en" : "es"] : [shown];
  /** @type {HTMLElement | null} */
  let all = null;
  for (const language of languages) {
    /** @type {Paper | null} */
    let paper = null;
    views.ask((whole) => {
      paper = whole.handout(language, book(views), address);
    });
    if (!paper) return null;
    const made = sheetsOf(paper);
    for (const sheet of made.children) /** @type {HTMLElement} */ (sheet).lang = language;
    if (all) all.append(...made.children);
    else all = made;
  }
  return all;
}

/**
 * Prints it in place of the room.
 * @param {Views} views
 */
export function prints(views) {
  style("page/explain/handout.css");
  for (const id of FOLDS) {
    printsInstead(element(id), () => ({ kind: "handout", sheets: sheets(views), back: null }));
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  const tools = make("div", "record__sheets");
  const preview = make("div", "record__preview");
  preview.tabIndex = 0;
  preview.setAttribute("role", "region");
  place.append(tools, preview);

  /** The steps are solved one after another; what takes long comes from beside the page. */
  function show() {
    const lacks = lacking(views);
    if (lacks) {
      preview.replaceChildren(make("p", "panel__note", views.page.texts().talk_making));
      if (lacks === 1) setTimeout(show);
      return;
    }
    const made = sheets(views);
    preview.replaceChildren(made
      ?? make("p", "panel__note", views.page.texts().talk_no_result));
  }

  return {
    came() {
      if (place.closest("details")?.open) show();
    },
    refresh() {
      const texts = views.page.texts();
      const choices = make("fieldset", "record__choices");
      choices.append(make("legend", "group__heading", texts.handout_languages));
      for (const [key, two] of /** @type {[string, boolean][]} */ ([
        ["handout_one", false], ["handout_both", true]])) {
        const label = make("label", "choice");
        const input = make("input", "choice__input");
        input.type = "radio";
        input.name = "handout-languages";
        input.value = String(two);
        input.checked = two === both;
        input.addEventListener("change", () => {
          both = two;
          show();
        });
        label.append(input, make("span", "choice__face", texts[key]));
        choices.append(label);
      }
      const print = command(texts.handout_print, () => window.print(), "button--main");
      print.id = "handout-print";
      tools.replaceChildren(make("p", "panel__note", texts.handout_note), choices, print);
      preview.setAttribute("aria-label", texts.record_preview);
      show();
    },
  };
}
