// @ts-check
/**
 * The lines of a site that this device keeps, each with its answer and what is open today. All words
 * come from the calculation.
 *
 * @typedef {import("../../pkg/office.js").LineRow} LineRow
 * @typedef {import("../views.js").Views} Views
 */
import { ask, drop } from "../background.js";
import { book, saveFile } from "./files.js";
import { keepLines, openLine, takeLines, today } from "./line_store.js";
import { Late } from "../late.js";
import { opener } from "./exchange.js";
import { make, style, write } from "../../first/elements.js";

const OWNER = "lines";
/** What stands under the name of a line, all of one weight, in this order: its answer, and the day. */
const ANSWER = /** @type {const} */ (["footroom", "strength", "anywhere"]);
const DAY = /** @type {const} */ (["reading", "open"]);

class Lines extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    style("page/record/record.css");
    takeLines(views);
    /** @type {import("../../pkg/office.js").LinesView | null} */
    this.view = null;
    /** What the list was built of. */
    this.shape = "";
    /** @type {HTMLElement[]} */
    this.items = [];
    this.tally = make("p", "lines__tally");
    this.tally.setAttribute("role", "status");
    this.dropWhenClosed(OWNER);
    for (const news of ["footroom-lines", "footroom-book"]) {
      addEventListener(news, () => {
        if (place.closest("details")?.open) this.refresh();
      });
    }
  }

  refresh() {
    this.show();
    this.solve();
  }

  /** Has the answers made that are waited for; what was asked for before may have another place now. */
  solve() {
    drop(OWNER);
    this.view?.rows.forEach((row, place) => {
      if (row.waiting) this.layout(place);
      else if (row.looking) this.anywhere(place);
    });
  }

  /**
   * The task of a line for a worker.
   * @param {number} place
   * @param {string} method
   * @param {(value: any) => void} done
   */
  task(place, method, done) {
    let text = "";
    this.views.ask((whole) => {
      text = whole.lines_case_text(place);
    });
    const view = this.views.view;
    return { owner: OWNER, subject: /** @type {[string, string, string]} */ (
      [text, view?.language ?? "en", view?.units ?? "metric"]), method, args: [], long: false, done };
  }

  /** @param {number} place */
  layout(place) {
    ask(this.task(place, "layout", (numbers) => {
      this.views.ask((whole) => whole.lines_take_in(place, numbers ?? new Float64Array()));
      this.show();
      if (this.view?.rows[place]?.looking) this.anywhere(place);
    }));
  }

  /** @param {number} place */
  anywhere(place) {
    const task = this.task(place, "anywhere", (looked) => {
      this.views.ask((whole) =>
        whole.lines_take_anywhere(place, new Float64Array(looked?.numbers ?? [])));
      this.show();
    });
    ask({ ...task, progress: () => {} });
  }

  /** @param {boolean} instead of another case of the same name */
  keep(instead) {
    let kept = false;
    this.views.ask((whole) => {
      kept = whole.lines_keep(Date.now(), instead);
    });
    if (kept) void keepLines(this.views);
    else this.views.page.notice(this.text("lines_full"), "", "", true);
  }

  show() {
    this.views.ask((whole) => {
      this.view = whole.lines(book(this.views), today());
    });
    if (!this.view) return;
    const { rows, tally, shown } = this.view;
    // What is pressed stays where it is while answers come in.
    const shape = JSON.stringify([this.text("lines_load"), shown,
      rows.map((row) => [row.title, row.shown])]);
    if (shape !== this.shape) {
      this.shape = shape;
      this.build(rows, shown);
    }
    write(this.tally, tally);
    rows.forEach((row, place) => this.fill(row, this.items[place]));
  }

  /**
   * @param {LineRow[]} rows
   * @param {"kept" | "new" | "other"} shown
   */
  build(rows, shown) {
    const focused = document.activeElement?.id;
    const tools = make("div", "group__tools");
    if (shown === "new") {
      tools.append(this.button(this.text("lines_keep"), () => this.keep(false),
        { id: "lines-keep" }));
    } else if (shown === "other") {
      tools.append(make("p", "panel__note", this.text("lines_other")),
        this.button(this.text("lines_instead"), () => this.keep(true), { id: "lines-instead" }),
        this.button(this.text("lines_beside"), () => this.keep(false), { id: "lines-beside" }));
    }
    if (rows.length) {
      tools.append(this.button(this.text("lines_save"), () => saveFile(this.views, "lines"),
        { id: "lines-save" }));
    }
    tools.append(...opener(this.views, this.text("file_open")));
    const list = make("ol", "lines__list");
    this.items = rows.map((row, place) => this.row(row, place));
    list.append(...this.items);
    this.place.replaceChildren(this.tally, list, tools,
      make("p", "panel__note", this.text("lines_help")));
    if (focused && this.place.querySelector(`#${focused}`)) {
      /** @type {HTMLElement} */ (this.place.querySelector(`#${focused}`)).focus();
    }
  }

  /**
   * @param {LineRow} row
   * @param {number} place
   */
  row(row, place) {
    const item = make("li", "lines__line");
    const name = make("h3", "lines__name");
    name.append(make("span", "lines__sign"), row.title);
    if (row.shown) name.append(make("span", "lines__shown", ` (${this.text("lines_shown")})`));
    const tools = make("div", "lines__tools");
    const about = row.title;
    const open = this.button(this.text("lines_load"), () => openLine(this.views, place),
      { id: `line-${place}`, about });
    open.classList.add("button--main");
    const remove = this.button(this.text("lines_remove"), () => {
      this.views.ask((whole) => whole.lines_remove(place));
      void keepLines(this.views);
      this.views.page.notice(this.text("lines_removed"));
    }, { id: `line-remove-${place}`, about });
    tools.append(open, remove);
    const text = (/** @type {string} */ part) => make("p", `lines__text lines__text--${part}`);
    const answer = make("div", "lines__answer");
    answer.append(...["stop", ...ANSWER].map(text));
    item.append(name, answer, ...DAY.map(text), tools);
    return item;
  }

  /**
   * @param {LineRow} row
   * @param {HTMLElement} item
   */
  fill(row, item) {
    item.dataset.mark = row.stop ? "fails" : row.mark;
    // The worst of the answer's lines, and of the site, marks the whole.
    const sign = row.stop ? "✗" : row.sign;
    write(/** @type {HTMLElement} */ (item.querySelector(".lines__sign")), sign && `${sign} `);
    const texts = [row.stop, ...[...ANSWER, ...DAY].map((key) => row[key])];
    item.querySelectorAll(".lines__text").forEach((part, i) => write(part, texts[i]));
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export const open = (place, views) => new Lines(place, views);
