// @ts-check
/**
 * What fits: the map of users against posts, the inverse questions, and what would make it fit.
 *
 * @typedef {import("../pkg/office.js").MapCell} MapCell
 * @typedef {import("../pkg/office.js").Asked} Asked
 * @typedef {import("../pkg/office.js").Suggested} Suggested
 * @typedef {import("./views.js").Views} Views
 */
import { ask, drop } from "./background.js";
import { make } from "./form.js";
import { Late } from "./late.js";
import { style } from "./views.js";

const OWNER = "fit";

class Fit extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    /** @type {HTMLTableElement | null} */
    this.map = null;
    this.status = make("p", "panel__note fit__status");
    this.status.setAttribute("role", "status");
    this.questions = make("div", "fit__questions");
    this.suggestions = make("div", "fit__suggestions");
    this.dropWhenClosed(OWNER);
  }

  /** The case has changed, or its words. */
  refresh() {
    const subject = this.views.subject();
    const wanted = JSON.stringify(subject);
    if (wanted === this.subject) return;
    this.subject = wanted;
    drop(OWNER);
    /** @type {import("../pkg/office.js").MapHead | null} */
    let head = null;
    let questions = 0;
    this.views.ask((office) => {
      head = office.map_head();
      questions = office.questions();
    });
    if (!subject || !head) {
      this.place.replaceChildren(make("p", "panel__note", this.text("fit_nothing")));
      return;
    }
    this.build(head);
    this.computeMap(subject);
    this.computeSuggestions(subject);
    this.computeQuestions(subject, questions);
  }

  /** @param {import("../pkg/office.js").MapHead} head */
  build(head) {
    const map = make("table", "map");
    const caption = make("caption", "map__caption");
    caption.append(make("span", "map__title", head.caption));
    map.append(caption);
    const top = map.createTHead().insertRow();
    for (const [i, text] of [head.corner, ...head.columns].entries()) {
      const cell = make("th", i ? "map__users" : "map__corner", text);
      cell.scope = "col";
      top.append(cell);
    }
    const body = map.createTBody();
    for (const text of head.rows) {
      const row = body.insertRow();
      const name = make("th", "map__posts", text);
      name.scope = "row";
      row.append(name);
      for (const _ of head.columns) row.append(make("td", "map__cell", "…"));
    }
    this.map = map;
    const scroll = make("div", "panel__scroll");
    scroll.append(map);
    const tools = make("div", "group__tools");
    tools.append(this.button(this.text("fit_print"), () => this.print()));
    const assumed = make("div", "fit__assumed");
    assumed.append(make("h3", "group__heading", this.text("fit_assumed")));
    const list = make("ul", "fit__list");
    list.append(...head.assumptions.map((text) => make("li", "fit__item", text)));
    assumed.append(list);
    const suggest = make("section", "fit__part");
    suggest.append(make("h3", "group__heading", this.text("suggest_heading")), this.suggestions);
    const inverse = make("section", "fit__part");
    inverse.append(make("h3", "group__heading", this.text("ask_heading")), this.questions,
      make("p", "panel__note", this.text("ask_note")));
    this.place.replaceChildren(scroll, this.status, make("p", "panel__note", this.text("fit_note")),
      tools, assumed, suggest, inverse);
  }

  print() {
    const root = document.documentElement;
    root.dataset.print = "fit";
    addEventListener("afterprint", () => delete root.dataset.print, { once: true });
    print();
  }

  /**
   * First a picture from two corners, then every run, row by row.
   * @param {[string, string, string]} subject
   */
  computeMap(subject) {
    const map = /** @type {HTMLTableElement} */ (this.map);
    const rows = map.tBodies[0].rows;
    map.dataset.started = String(performance.now());
    delete map.dataset.state;
    this.status.textContent = this.text("fit_running");
    for (const full of [false, true]) {
      let left = rows.length;
      for (const row of rows) {
        const index = row.sectionRowIndex;
        ask({
          owner: OWNER, subject, method: "map_row", args: [index, full], long: false,
          failed: () => this.fail(this.status),
          done: (/** @type {MapCell[]} */ cells) => {
            this.fill(row, cells, index);
            map.dataset.first ??= String(performance.now());
            left -= 1;
            if (left) return;
            map.dataset.state = full ? "whole" : "rough";
            map.dataset[full ? "whole" : "rough"] = String(performance.now());
            this.status.textContent = this.text(full ? "fit_whole" : "fit_rough");
          },
        });
      }
    }
  }

  /** @param {HTMLElement} place */
  fail(place) {
    place.replaceChildren(make("span", "field__fault", this.text("fit_failed")));
  }

  /**
   * @param {HTMLTableRowElement} row
   * @param {MapCell[]} cells
   * @param {number} index
   */
  fill(row, cells, index) {
    const focused = row.contains(document.activeElement)
      ? [...row.cells].findIndex((cell) => cell.contains(document.activeElement)) : -1;
    cells.forEach((cell, column) => {
      const place = row.cells[column + 1];
      place.className = `map__cell map__cell--${cell.kind}`;
      place.classList.toggle("map__cell--weak", cell.weak);
      place.classList.toggle("map__cell--used", cell.used_up);
      place.classList.toggle("map__cell--present", cell.present);
      place.dataset.kind = cell.kind;
      const button = make("button", "map__load");
      button.type = "button";
      button.append(make("span", "map__number", cell.number), " ",
        make("span", "map__word", cell.word));
      for (const [is, key] of /** @type {[boolean, string][]} */ ([[cell.present, "mark_present"],
        [cell.weak, "mark_weak"], [cell.used_up, "mark_used_up"]])) {
        if (is) button.append(" ", make("span", "map__mark", this.text(key)));
      }
      button.append(make("span", "unseen", `, ${cell.more}. ${this.text("map_load")}`));
      button.title = cell.more;
      button.addEventListener("click", () => this.load(column, index));
      place.replaceChildren(button);
    });
    if (focused > 0) row.cells[focused].querySelector("button")?.focus();
    this.contour();
  }

  /** A heavy line between neighbours of which one has room and the other has not. */
  contour() {
    const rows = [.../** @type {HTMLTableElement} */ (this.map).tBodies[0].rows];
    const differ = (/** @type {HTMLElement} */ a, /** @type {HTMLElement | undefined} */ b) =>
      Boolean(b && [a, b].some((c) => c.dataset.kind === "spare")
        && [a, b].some((c) => c.dataset.kind === "short"));
    rows.forEach((row, r) => [...row.cells].forEach((cell, c) => {
      if (!c) return;
      cell.classList.toggle("map__cell--right", differ(cell, row.cells[c + 1]));
      cell.classList.toggle("map__cell--under", differ(cell, rows[r + 1]?.cells[c]));
    }));
  }

  /**
   * @param {number} column
   * @param {number} row
   */
  load(column, row) {
    let text = "";
    this.views.ask((office) => {
      text = office.map_case_text(column, row);
    });
    if (text) this.views.page.change((desk) => desk.open_case(text));
  }

  /** @param {[string, string, string]} subject */
  computeSuggestions(subject) {
    this.suggestions.replaceChildren(make("p", "panel__note", this.text("fit_running")));
    ask({
      owner: OWNER, subject, method: "suggested", args: [], long: true,
      failed: () => this.fail(this.suggestions),
      done: (/** @type {Suggested | null} */ found) => {
        const list = make("ol", "fit__list fit__changes");
        for (const change of found?.changes ?? []) {
          const item = make("li", "fit__item");
          const words = make("p", "fit__change");
          words.append(make("b", "fit__what", change.change), " ",
            make("span", "fit__gives", change.gives));
          item.append(words, this.loader(this.text("suggest_use"), change.change,
            change.case_text));
          list.append(item);
        }
        this.suggestions.replaceChildren(make("p", "fit__verdict", found?.verdict ?? ""));
        if (list.childElementCount) this.suggestions.append(list);
        if (found?.note) this.suggestions.append(make("p", "panel__note", found.note));
        this.suggestions.dataset.state = "whole";
      },
    });
    delete this.suggestions.dataset.state;
  }

  /**
   * A button that loads a case.
   * @param {string} text
   * @param {string} about
   * @param {string} caseText
   */
  loader(text, about, caseText) {
    const load = () => this.views.page.change((desk) => desk.open_case(caseText));
    return this.button(text, load, { about });
  }

  /**
   * @param {[string, string, string]} subject
   * @param {number} count
   */
  computeQuestions(subject, count) {
    this.questions.replaceChildren();
    for (let i = 0; i < count; i += 1) {
      const place = make("article", "ask");
      place.append(make("p", "panel__note", this.text("fit_running")));
      this.questions.append(place);
      ask({
        owner: OWNER, subject, method: "answer", args: [i], long: true,
        failed: () => this.fail(place),
        done: (/** @type {Asked | null} */ told) => {
          if (!told) {
            place.remove();
            return;
          }
          place.replaceChildren(make("h4", "ask__question", told.question),
            make("p", "ask__answer", told.answer), make("p", "ask__present", told.present),
            ...told.reasons.map((reason) => make("p", "ask__reason", reason)));
          if (told.case_text) {
            place.append(this.loader(this.text("search_load"), told.question, told.case_text));
          }
          place.dataset.state = "whole";
        },
      });
    }
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("css/fit.css");
  return new Fit(place, views);
}
