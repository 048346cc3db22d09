// @ts-check
/**
 * What fits: the map of users against posts, the inverse questions, and what would make it fit.
 *
 * @typedef {import("../../pkg/office.js").MapCell} MapCell
 * @typedef {import("../../pkg/office.js").MapHead} MapHead
 * @typedef {import("../../pkg/office.js").AnsweredQuestion} AnsweredQuestion
 * @typedef {import("../../pkg/office.js").Suggested} Suggested
 * @typedef {import("../views.js").Views} Views
 */
import { ask, drop } from "../background.js";
import { make, style } from "../../first/elements.js";
import { Late } from "../late.js";
import { keysScroll } from "../../first/table.js";

const OWNER = "fit";
/** Time between two pictures while cells come, ms: painting takes from those who compute. */
const PICTURE_MS = 100;

/**
 * A cell of the table, and what was last written into it.
 * @typedef {object} Place
 * @property {HTMLTableCellElement} cell
 * @property {HTMLButtonElement} button
 * @property {Text} number
 * @property {Text} word
 * @property {HTMLElement} marks
 * @property {Text} more
 * @property {boolean} whole from every run
 */

class Fit extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    /** @type {HTMLTableElement | null} */
    this.map = null;
    /** What the table was made for: its language, columns and rows. */
    this.shape = "";
    /** @type {Place[][]} by row and column */
    this.places = [];
    /** @type {Map<Place, MapCell>} Cells that have come and are not in the picture yet. */
    this.fresh = new Map();
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.next = undefined;
    this.status = make("p", "panel__note fit__status");
    this.status.setAttribute("role", "status");
    this.why = make("p", "panel__note fit__why");
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
    /** @type {MapHead | null} */
    let head = null;
    let questions = 0;
    this.views.ask((whole) => {
      head = whole.map_head();
      questions = whole.questions();
    });
    if (!subject || !head) {
      this.shape = "";
      this.place.replaceChildren(make("p", "panel__note", this.text("fit_nothing")));
      return;
    }
    this.build(head, subject[1]);
    this.computeMap(subject, head);
    this.computeSuggestions(subject);
    this.computeQuestions(subject, questions);
  }

  /**
   * The table around the cells; made anew only where it has other words or another size.
   * @param {MapHead} head
   * @param {string} language
   */
  build(head, language) {
    const shape = JSON.stringify([language, head.columns.length, head.rows.length]);
    if (shape !== this.shape) this.lay(head);
    this.shape = shape;
    const { caption, tBodies } = /** @type {HTMLTableElement} */ (this.map);
    if (caption) caption.replaceChildren(make("span", "map__title", head.caption));
    head.rows.forEach((text, row) => {
      tBodies[0].rows[row].cells[0].textContent = text;
    });
    this.place.querySelector(".fit__assumptions")?.replaceChildren(
      ...head.assumptions.map((text) => make("li", "fit__item", text)));
    // Nothing of another case stays in sight.
    for (const place of this.places.flat()) {
      place.whole = false;
      place.cell.className = "map__cell";
      delete place.cell.dataset.kind;
      place.number.data = "…";
      place.word.data = "";
      place.more.data = "";
      place.button.title = "";
      place.marks.replaceChildren();
    }
  }

  /** @param {MapHead} head */
  lay(head) {
    const map = make("table", "map");
    map.append(make("caption", "map__caption"));
    const top = map.createTHead().insertRow();
    for (const [i, text] of [head.corner, ...head.columns].entries()) {
      const cell = make("th", i ? "map__users" : "map__corner", text);
      cell.scope = "col";
      top.append(cell);
    }
    const body = map.createTBody();
    this.places = head.rows.map((_, row) => {
      const line = body.insertRow();
      const name = make("th", "map__posts");
      name.scope = "row";
      line.append(name);
      return head.columns.map((_, column) => this.layCell(line, column, row));
    });
    this.map = map;
    const scroll = make("div", "panel__scroll");
    scroll.append(map);
    keysScroll(scroll, () => map.caption?.textContent ?? "");
    const tools = make("div", "group__tools");
    tools.append(this.button(this.text("fit_print"), () => this.print()));
    const assumed = make("div", "fit__assumed");
    assumed.append(make("h3", "group__heading", this.text("fit_assumed")),
      make("ul", "fit__list fit__assumptions"));
    const suggest = make("section", "fit__part");
    suggest.append(make("h3", "group__heading", this.text("suggest_heading")), this.suggestions);
    const inverse = make("section", "fit__part");
    inverse.append(make("h3", "group__heading", this.text("ask_heading")), this.questions,
      make("p", "panel__note", this.text("ask_note")));
    this.place.replaceChildren(scroll, this.status, this.why, make("p", "panel__note", this.text("fit_note")),
      tools, assumed, suggest, inverse);
  }

  /**
   * @param {HTMLTableRowElement} line
   * @param {number} column
   * @param {number} row
   * @returns {Place}
   */
  layCell(line, column, row) {
    const cell = line.insertCell();
    const [number, word, more] = ["", "", ""].map((text) => document.createTextNode(text));
    const [numbers, words, marks, unseen] = [make("span", "map__number"), make("span", "map__word"),
      make("span", "map__marks"), make("span", "unseen")];
    numbers.append(number);
    words.append(word);
    unseen.append(more, this.text("map_load"));
    const button = make("button", "map__load");
    button.type = "button";
    button.append(numbers, " ", words, " ", marks, unseen);
    button.addEventListener("click", () => this.load(column, row));
    cell.append(button);
    return { cell, button, number, word, marks, more, whole: false };
  }

  print() {
    const root = document.documentElement;
    root.dataset.print = "fit";
    addEventListener("afterprint", () => delete root.dataset.print, { once: true });
    print();
  }

  /**
   * First every cell from two corners, then from every run.
   * @param {[string, string, string]} subject
   * @param {MapHead} head
   */
  computeMap(subject, head) {
    const { dataset } = /** @type {HTMLTableElement} */ (this.map);
    for (const key of ["state", "first", "rough", "whole"]) delete dataset[key];
    dataset.started = String(performance.now());
    this.status.textContent = this.text("fit_running");
    this.why.textContent = "";
    this.fresh.clear();
    clearTimeout(this.next);
    this.next = setTimeout(() => this.picture(), PICTURE_MS);
    for (const full of [false, true]) {
      let left = head.order.length;
      ask(...head.order.map(([column, row]) => {
        const at = `${column} ${row}`;
        return {
          owner: OWNER, subject, method: "map_cell", args: [column, row, full], long: false,
          ...full ? { builds: at } : { leaves: at },
          failed: () => {
            if (!full) this.places[row][column].number.data = "—";
            this.fail(this.status);
          },
          done: (/** @type {MapCell | null} */ cell) => {
            const place = this.places[row][column];
            if (cell && (full || !place.whole)) this.fresh.set(place, cell);
            place.whole ||= full;
            left -= 1;
            if (left) this.next ??= setTimeout(() => this.picture(), PICTURE_MS);
            else this.picture(full ? "whole" : "rough");
          },
        };
      }));
    }
  }

  /**
   * Puts what has come into the picture, with the next frame.
   * @param {"rough" | "whole"} [state] that it has come to
   */
  picture(state) {
    clearTimeout(this.next);
    this.next = undefined;
    for (const [place, cell] of this.fresh) this.fill(place, cell);
    if (this.fresh.size) this.contour();
    this.fresh.clear();
    if (state) this.status.textContent = this.text(`fit_${state}`);
    const { dataset } = /** @type {HTMLTableElement} */ (this.map);
    requestAnimationFrame((now) => {
      dataset.first ??= String(now);
      if (state) dataset.state = state;
      if (state) dataset[state] = String(now);
    });
  }

  /** @param {HTMLElement} place */
  fail(place) {
    place.replaceChildren(make("span", "field__fault", this.text("fit_failed")));
  }

  /**
   * @param {Place} place
   * @param {MapCell} told
   */
  fill({ cell, button, number, word, marks, more }, told) {
    const classes = ["map__cell", `map__cell--${told.kind}`, told.weak && "map__cell--weak",
      told.used_up && "map__cell--used", told.present && "map__cell--present"];
    cell.className = classes.filter(Boolean).join(" ");
    cell.dataset.kind = told.kind;
    number.data = told.number;
    word.data = told.word;
    more.data = `, ${told.more}. `;
    button.title = told.more;
    if (told.present) this.why.textContent = told.why;
    const words = [told.present && "mark_present", told.weak && "mark_weak",
      told.used_up && "mark_used_up"].filter((key) => key !== false);
    marks.replaceChildren(...words.flatMap((key) =>
      [make("span", "map__mark", this.text(key)), " "]));
  }

  /** A heavy line between neighbours of which one has room and the other has not. */
  contour() {
    const kind = (/** @type {number} */ row, /** @type {number} */ column) =>
      this.places[row]?.[column]?.cell.dataset.kind;
    const differ = (/** @type {string | undefined} */ a, /** @type {string | undefined} */ b) =>
      (a === "spare" && b === "short") || (a === "short" && b === "spare");
    this.places.forEach((cells, row) => cells.forEach(({ cell }, column) => {
      const own = kind(row, column);
      cell.classList.toggle("map__cell--right", differ(own, kind(row, column + 1)));
      cell.classList.toggle("map__cell--under", differ(own, kind(row + 1, column)));
    }));
  }

  /**
   * @param {number} column
   * @param {number} row
   */
  load(column, row) {
    this.views.page.change((whole) => whole.map_load(column, row));
  }

  /** @param {[string, string, string]} subject */
  computeSuggestions(subject) {
    delete this.suggestions.dataset.state;
    const verdict = make("p", "fit__verdict");
    const bar = make("progress", "fit__bar");
    const step = make("p", "panel__note fit__step", this.text("fit_running"));
    const found = make("div", "panel__scroll");
    keysScroll(found, () => this.text("suggest_heading"));
    this.suggestions.replaceChildren(verdict, step, bar, found);
    bar.setAttribute("aria-label", this.text("suggest_heading"));
    let shown = 0;
    ask({
      owner: OWNER, subject, method: "suggested", args: [], long: true,
      progress: (/** @type {Suggested} */ told) => {
        verdict.textContent = told.verdict;
        step.textContent = told.progress;
        bar.max = told.of;
        bar.value = told.made;
        // What is there stays where it is until there is more.
        if (told.changes.length === shown) return;
        shown = told.changes.length;
        this.put(found, told);
      },
      failed: () => this.fail(this.suggestions),
      done: (/** @type {Suggested | null} */ told) => {
        verdict.textContent = told?.verdict ?? "";
        bar.remove();
        step.remove();
        if (told?.changes.length) {
          this.put(found, told);
        } else {
          found.remove();
        }
        if (told?.note) this.suggestions.append(make("p", "panel__note", told.note));
        if (told?.ratings.length) {
          const list = make("ul", "fit__list fit__ratings");
          list.append(...told.ratings.map((text) => make("li", "fit__item", text)));
          this.suggestions.append(make("h4", "fit__what", this.text("suggest_ratings")), list);
        }
        this.suggestions.dataset.state = "whole";
      },
    });
  }

  /**
   * Puts the changes into their place; whoever was at a button stays there.
   * @param {HTMLElement} place
   * @param {Suggested} told
   */
  put(place, told) {
    const held = place.contains(document.activeElement) && document.activeElement?.textContent;
    place.replaceChildren(this.changes(told));
    const same = [...place.querySelectorAll("button")].find((b) => b.textContent === held);
    same?.focus();
  }

  /**
   * The changes that make it fit, a row each.
   * @param {Suggested} told
   */
  changes({ heads, changes }) {
    const table = make("table", "fit__changes");
    const top = table.createTHead().insertRow();
    for (const text of heads) {
      const head = make("th", "fit__head", text);
      head.scope = "col";
      top.append(head);
    }
    top.append(make("td", "fit__head"));
    const body = table.createTBody();
    for (const change of changes) {
      const row = body.insertRow();
      row.className = "fit__row";
      const what = make("th", "fit__what", change.change);
      what.scope = "row";
      if (change.also) what.append(make("span", "fit__gives", change.also));
      row.append(what);
      for (const [i, text] of [change.here, change.anywhere, change.strength].entries()) {
        const cell = make("td", "fit__number", text);
        cell.dataset.head = heads[i + 1];
        row.append(cell);
      }
      const use = make("td", "fit__use");
      use.append(this.loader(this.text("suggest_use"), change.change, change.case_text));
      row.append(use);
    }
    return table;
  }

  /**
   * A button that loads a case.
   * @param {string} text
   * @param {string} about
   * @param {string} caseText
   */
  loader(text, about, caseText) {
    const load = () => this.views.page.change((whole) => whole.open_case(caseText));
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
        done: (/** @type {AnsweredQuestion | null} */ told) => {
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
  style("page/fit/fit.css");
  return new Fit(place, views);
}
