// @ts-check
/**
 * What is fetched once the drop is shown: charts, checks, set-up figures, the link. All words come
 * from the calculation.
 *
 * @typedef {import("../pkg/office.js").Checks} Checks
 * @typedef {import("../pkg/office.js").CheckRow} CheckRow
 * @typedef {import("../pkg/office.js").Page} Calculation
 * @typedef {import("../pkg/footroom.js").View} View
 * @typedef {import("../first/stage.js").Stage} Stage
 */
import init, { Page as Whole } from "../pkg/office.js";
import { Anywhere } from "./fit/anywhere.js";
import { Charts } from "./plan/charts.js";
import { element, make, style, styled } from "../first/elements.js";
import { Handles } from "./plan/handles.js";
import { officeModule } from "./module.js";
import { Search } from "./fit/search.js";
import { Starts } from "./plan/starts.js";
import { asBlocks, keysScroll, table, withRemarks } from "../first/table.js";

/**
 * What the page gives to its views.
 * @typedef {object} Page
 * @property {Stage} stage
 * @property {() => Record<string, string>} texts
 * @property {(task: (page: Calculation) => void) => void} ask runs a task on the page's calculation, or
 *   reports its end
 * @property {(task: (page: Calculation) => void, another?: boolean) => void} change changes the case and
 *   shows it; another: it becomes another one of the layouts that were sent
 * @property {(path: string) => void} focus leads to an input
 * @property {() => void} keep keeps the case, and what goes with it, in the address bar
 * @property {() => void} own the layouts are not those any more that were sent: the address has the case
 * @property {(text: string, label?: string, kept?: string, bad?: boolean) => void} notice
 * @property {() => void} fail gives the calculation up
 * @property {() => void} came an answer has come that was made beside the page
 * @property {() => void} answered more is known of the answer
 * @property {(fold: HTMLDetailsElement) => void} lead puts a task first in its room
 */

/**
 * A view that is made when its fold is opened for the first time.
 * @typedef {object} LateView
 * @property {(view: View) => void} refresh the case has changed, or its words
 * @property {() => void} [came] something that the talk waits for was made beside the page
 */

/**
 * The views that are fetched when they are opened, by the id of their fold. Each fold in the page
 * has an empty element with the class `late` that the view fills.
 * @type {Record<string, () => Promise<{open: (place: HTMLElement, views: Views) => LateView}>>}
 */
const LATE = {
  fit: () => import("./fit/fit.js"),
  why: () => import("./explain/why.js"),
  compare: () => import("./compare/compare.js"),
  sweeps: () => import("./fit/sweeps.js"),
  spread: () => import("./fit/spread.js"),
  guess: () => import("./explain/guess.js"),
  talk: () => import("./explain/talk.js"),
  handout: () => import("./explain/handout.js"),
  film: () => import("./explain/film.js"),
  reading: () => import("./record/as_found.js"),
  "record-inspection": () => import("./record/inspection.js"),
  "record-log": () => import("./record/log.js"),
  lines: () => import("./record/lines.js"),
  rescue: () => import("./record/rescue.js"),
  record: () => import("./record/record.js"),
  "record-files": () => import("./record/exchange.js"),
};

/** Those checks that were not evaluated are unfolded. */
let unfolded = false;

/**
 * The row of a check. A verdict that asks for an input leads to it.
 * @param {CheckRow} check
 * @param {string[]} head
 * @param {(path: string) => void} focus
 */
function checkRow(check, head, focus) {
  const line = make("tr", "checks__row");
  const name = make("th", "table__cell", check.label);
  name.scope = "row";
  line.append(name);
  for (const text of [check.demand, check.capacity, check.ratio, check.required, check.verdict,
    check.source]) {
    const cell = make("td", "table__cell", text);
    // Where the rows stand one under another, each number says what it is.
    cell.dataset.label = head[line.cells.length];
    if (text === "—") cell.classList.add("table__cell--none");
    line.append(cell);
  }
  const verdict = line.cells[5];
  verdict.classList.add("verdict", `verdict--${check.verdict_kind}`);
  if (check.field) {
    const link = make("button", "verdict__link", check.verdict);
    link.type = "button";
    link.addEventListener("click", () => focus(check.field));
    verdict.replaceChildren(link);
  }
  return line;
}

/**
 * The table of the checks: the rows of one verdict together, those folded that were not evaluated.
 * @param {Checks} checks
 * @param {Record<string, string>} texts
 * @param {(path: string) => void} focus
 */
function showChecks(checks, texts, focus) {
  const head = ["what", "demand", "capacity", "ratio", "required", "verdict", "source"]
    .map((key) => texts[`col_${key}`]);
  const made = table({ caption: "", head, rows: [], note: "" });
  made.classList.add("table--checks");
  made.tBodies[0].remove();
  const held = document.activeElement?.id === "checks-fold";
  for (const group of checks.groups) {
    const heads = made.createTBody();
    const name = make("th", "checks__group", group.names ? "" : group.heading);
    name.colSpan = head.length;
    name.scope = "rowgroup";
    heads.insertRow().append(name);
    const rows = made.createTBody();
    rows.className = "checks__rows";
    rows.append(...checks.rows.filter((check) => check.verdict_kind === group.kind)
      .map((check) => checkRow(check, head, focus)));
    if (!group.names) continue;
    const fold = make("button", "checks__fold", group.heading);
    fold.type = "button";
    fold.id = "checks-fold";
    rows.id = "checks-folded";
    fold.setAttribute("aria-controls", rows.id);
    const show = () => {
      rows.hidden = !unfolded;
      fold.setAttribute("aria-expanded", String(unfolded));
    };
    fold.addEventListener("click", () => {
      unfolded = !unfolded;
      show();
    });
    show();
    name.append(fold, make("span", "checks__names", group.names));
  }
  asBlocks(made);
  element("checks-table").replaceChildren(made);
  if (held) element("checks-fold")?.focus();
}

/**
 * Limits and strengths in brief.
 * @param {Checks} checks
 */
function showBrief(checks) {
  element("brief-rows").replaceChildren(...checks.brief.flatMap((check) => {
    const value = make("dd", "pairs__value", check.value);
    if (check.verdict_text && check.verdict_text !== check.value) {
      const over = check.verdict === "over" ? " pairs__verdict--over" : "";
      value.append(make("span", `pairs__verdict${over}`, check.verdict_text));
    }
    const name = make("dt", "pairs__name", check.label);
    if (check.source) name.title = check.source;
    return [name, value];
  }));
}

/**
 * Fetches the whole program.
 * @param {string} language
 * @param {string} units
 */
export async function openPage(language, units) {
  await init({ module_or_path: await officeModule() });
  return new Whole(language, units);
}

export class Views {
  /** @param {Page} page */
  constructor(page) {
    this.page = page;
    this.ask = page.ask;
    /** @type {View | null} */
    this.view = null;
    /** @type {Checks | null} */
    this.checks = null;
    this.linkedSet = "";
    this.handout = false;
    /** @type {Map<string, LateView>} */
    this.late = new Map();
    /** @type {Map<string, Promise<LateView | null>>} */
    this.coming = new Map();
    style("page/views.css");
    this.charts = new Charts(page.ask, page.stage);
    this.handles = new Handles(this);
    for (const id of ["set-up", "reading"]) {
      element(id).addEventListener("toggle", () => this.showSetUp());
    }
    element("checks").addEventListener("toggle", () => this.showChecks());
    element("set-up").addEventListener("toggle", () => {
      void this.part(import("./record/sheets.js")).then((part) =>
        part?.printsSheet(element("set-up"), this, "set_up"));
    }, { once: true });
    for (const id of ["talk", "guess", "handout", "film"]) {
      element(id).addEventListener("toggle", () => this.printsHandout());
    }
    addEventListener("footroom-unkept", () =>
      page.notice(page.texts().storage_choice, "", "", true));
    this.search = new Search(this);
    this.anywhere = new Anywhere(this);
    this.starts = new Starts(this);
    for (const id of Object.keys(LATE)) {
      element(id).addEventListener("toggle", () => void this.openLate(id));
      void this.openLate(id);
    }
    void this.part(import("./record/files.js")).then((part) => {
      part?.takeDrops(this);
      part?.leadLines(this);
    });
    for (const place of /** @type {NodeListOf<HTMLElement>} */ (
      document.querySelectorAll(".panel__scroll"))) {
      keysScroll(place, () => {
        const name = place.closest("details")?.getAttribute("aria-labelledby");
        return (name && element(name).textContent) ?? "";
      });
    }
    // Not while the page is still busy with what is seen first. What cannot be had now, as the page
    // may be on its way to another, is asked for again by what needs it.
    setTimeout(() => {
      import("./background.js").then(({ prepare }) => prepare(page.fail)).catch(() => {});
    }, 1000);
  }

  /** @param {string} id of an opened or closed fold */
  async openLate(id) {
    if (!element(id).open) return;
    const coming = this.coming.get(id) ?? this.makeLate(id);
    this.coming.set(id, coming);
    const shown = await coming;
    if (!shown) this.coming.delete(id);
    else if (this.view) shown.refresh(this.view);
  }

  /**
   * A view with its styles: what is shown before they are there jumps.
   * @param {string} id of its fold
   * @returns {Promise<LateView | null>} null where it cannot be had
   */
  async makeLate(id) {
    const part = await this.part(LATE[id]());
    if (!part) return null;
    const place = /** @type {HTMLElement} */ (element(id).querySelector(".late"));
    place.hidden = true;
    const made = part.open(place, this);
    await styled();
    place.hidden = false;
    this.late.set(id, made);
    return made;
  }

  /**
   * A part of the page, once it has come; null, and the visitor is told, where it does not.
   * @template T
   * @param {Promise<T>} coming
   * @returns {Promise<T | null>}
   */
  async part(coming) {
    try {
      return await coming;
    } catch (error) {
      console.error(error);
      this.page.notice(this.page.texts().page_part_failed, "", "", true);
      return null;
    }
  }

  /**
   * The case has changed, or its words.
   * @param {View} view
   */
  refresh(view) {
    this.view = view;
    // While something is dragged the drop and the answer follow it, the rest when it is let go.
    if (this.handles.dragging) return;
    this.search.clear();
    this.anywhere.refresh();
    this.ask((whole) => {
      this.checks = whole.checks();
      showBrief(this.checks);
    });
    this.showChecks();
    this.charts.refresh();
    this.handles.refresh();
    this.showSetUp();
    for (const [id, shown] of this.late) if (element(id).open) shown.refresh(view);
  }

  /** Has those answers made beside the page that would keep it from answering. */
  beside() {
    /** @type {import("../pkg/office.js").Wanted | null} */
    let wanted = null;
    this.ask((whole) => {
      wanted = whole.next_beside();
    });
    const next = /** @type {import("../pkg/office.js").Wanted | null} */ (wanted);
    if (next) void this.make(next);
  }

  /** @param {import("../pkg/office.js").Wanted} wanted */
  async make({ number, case_text, units, method, args, replaces }) {
    const { ask, drop } = await import("./background.js");
    const owner = (/** @type {number} */ of) => `answer ${of}`;
    if (replaces) drop(owner(replaces));
    const done = (/** @type {Float64Array | null} */ numbers) => {
      let taken = 0;
      this.ask((whole) => {
        taken = whole.take_beside(number, numbers ?? new Float64Array());
      });
      if (taken === 1) this.page.came();
      if (taken === 2) for (const shown of this.late.values()) shown.came?.();
    };
    ask({
      // Words are made on the page.
      owner: owner(number), subject: [case_text, "en", units], method, args,
      long: false, progress: () => {}, done,
    });
  }

  /** The rows are many, so they are made only where they are looked at. */
  showChecks() {
    if (!this.checks) return;
    element("checks-tally").textContent = this.checks.tally;
    if (element("checks").open) showChecks(this.checks, this.page.texts(), this.page.focus);
  }

  /** What is printed in the room of the talk comes when that is entered. */
  printsHandout() {
    if (this.handout) return;
    this.handout = true;
    void this.part(import("./explain/handout.js")).then((part) => part?.prints(this));
  }

  /** Begins the talk, wherever somebody is. */
  async startTalk() {
    element("talk").open = true;
    await this.openLate("talk");
    /** @type {import("./explain/talk.js").Talk | undefined} */ (this.late.get("talk"))?.start();
  }

  /**
   * Takes the plan of the talk that an opened link carries beside the case.
   * @param {string} fragment
   */
  openPlan(fragment) {
    this.ask((whole) => {
      const fault = whole.talk_open_link(fragment);
      const texts = this.page.texts();
      if (fault) {
        this.page.notice(`${texts.talk_link_fault} ${fault}`, texts.page_kept_text, location.href,
          true);
      }
    });
  }

  /** The figures take a while, so they are made only where they are looked at. */
  showSetUp() {
    if (!element("set-up").open && !element("reading").open) return;
    this.ask((whole) => {
      const shown = whole.set_up();
      const tables = (shown?.tables ?? []).map(table);
      for (const made of tables) withRemarks(made);
      element("set-up-tables").replaceChildren(...tables);
      element("set-up-note").textContent = shown?.note ?? "";
      element("read-weight-unit").textContent = shown?.weight_unit ?? "";
      element("read-weight").placeholder = shown?.weight_usual ?? "";
      element("read-swings").placeholder = shown?.swings_usual ?? "";
    });
  }

  /**
   * The shown case as the workers take it; null when there is none.
   * @returns {[string, string, string] | null}
   */
  subject() {
    /** @type {[string, string, string] | null} */
    let subject = null;
    const view = this.view;
    if (view) {
      this.ask((whole) => {
        subject = [whole.case_text(), view.language, view.units];
      });
    }
    return subject;
  }

  /**
   * Opens the view that compares layouts with a set that came in a link or a file.
   * @param {string} set
   */
  async openSet(set) {
    this.linkedSet = set;
    element("compare").open = true;
    await this.openLate("compare");
  }
}
