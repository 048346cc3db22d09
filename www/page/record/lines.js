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
import { make, style } from "../../first/elements.js";

const OWNER = "lines";

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
      [text, view?.language ?? "en", view?.units ?? "metric"]), method, args: [], long: false, done,
    failed: () => done(null) };
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
    const said = make("p", "lines__tally", tally);
    said.setAttribute("role", "status");
    const list = make("ol", "lines__list");
    list.append(...rows.map((row, place) => this.row(row, place)));
    this.place.replaceChildren(said, list, tools, make("p", "panel__note", this.text("lines_help")));
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
    item.dataset.mark = row.stop ? "fails" : row.mark;
    const name = make("h3", "lines__name", row.title);
    if (row.shown) name.append(make("span", "lines__shown", ` (${this.text("lines_shown")})`));
    const answer = make("p", "lines__answer", `${row.sign} ${row.footroom}`.trim());
    // Under a warning no number stands out.
    answer.classList.toggle("lines__answer--plain", Boolean(row.stop));
    item.append(name);
    if (row.stop) item.append(make("p", "lines__stop", row.stop));
    item.append(answer, ...[row.strength, row.anywhere, row.reading, row.open].filter(Boolean)
      .map((text) => make("p", "lines__text", text)));
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
    item.append(tools);
    return item;
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export const open = (place, views) => new Lines(place, views);
