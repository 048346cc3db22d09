// @ts-check
/**
 * Layouts side by side: drawings at one scale, their figures, why two of them differ, and the set as
 * a link, CSV, picture.
 *
 * @typedef {import("../../pkg/office.js").Compared} Compared
 * @typedef {import("../views.js").Views} Views
 */
import { ask, drop } from "../background.js";
import { openFile } from "../record/files.js";
import { WIDE } from "../../first/doors.js";
import { element, make, save, style } from "../../first/elements.js";
import { hold, keep } from "../held.js";
import { Late } from "../late.js";
import { Steps } from "../explain/steps.js";
import { asBlocks, scrolled, table } from "../../first/table.js";

const OWNER = "compare";
const WHY = "compare-why";
const KEY = "layouts";
/** Narrowest drawing, px. */
const LEAST_PX = 150;

class Compare extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    /** Whether what stands here came with a link and is not the visitor's own. */
    this.linked = false;
    this.opened = false;
    /** Whether the visitor's own set was changed and is to be kept once it is solved. */
    this.unkept = false;
    this.message = "";
    /** @type {Compared | null} */
    this.view = null;
    /** @type {HTMLCanvasElement[]} */
    this.sheets = [];
    this.steps = new Steps(WHY, (key) => this.text(key));
    /** The two layouts that differ, and what their steps were computed of. */
    this.pair = [0, 1];
    this.between = "";
    this.status = make("div", "compare__status");
    this.status.setAttribute("role", "status");
    /** Why the two layouts differ, in one sentence. */
    this.reason = make("p", "compare__reason");
    this.reason.setAttribute("role", "status");
    this.steps.told = (brief) => {
      this.brief = brief;
      this.tellReason();
    };
    this.brief = "";
    views.page.stage.also(() => this.draw(), place);
    this.dropWhenClosed(OWNER);
    this.place.closest("details")?.addEventListener("toggle", () => {
      this.why();
      this.putTasks();
    });
    WIDE.addEventListener("change", () => this.putTasks());
  }

  /** @returns {[string, string]} */
  voice() {
    const view = this.views.view;
    return [view?.language ?? "en", view?.units ?? "metric"];
  }

  /** The case has changed, or its words. */
  refresh() {
    const { linkedSet } = this.views;
    if (linkedSet) {
      this.views.linkedSet = "";
      this.opened = true;
      this.linked = this.take(linkedSet);
      if (!this.linked) this.openOwn(this.message);
    } else if (!this.opened) {
      this.opened = true;
      this.openOwn("");
    }
    this.show();
    this.solve();
  }

  /**
   * Puts up a set; false when it cannot be read, and the message says why.
   * @param {string} set
   */
  take(set) {
    let fault = "";
    this.views.ask((whole) => {
      fault = whole.shelf_open(set) ?? "";
    });
    this.message = fault;
    return !fault;
  }

  /** @param {string} message said beside the own set */
  openOwn(message) {
    this.linked = false;
    this.views.ask((whole) => whole.shelf_clear());
    const own = hold(KEY, (now, merged) => this.follow(now, merged));
    if (own && !this.take(own)) this.message = `${this.text("compare_kept_damaged")} ${this.message}`;
    if (message) this.message = message;
  }

  /** Solves the set after a change, keeps it and shows it. */
  changed() {
    this.linked = false;
    this.views.page.own();
    this.unkept = true;
    this.message = "";
    this.show();
    this.solve();
  }

  /**
   * Has the layouts solved that are waited for. What was asked for before is not wanted any more:
   * a layout may have gone, and others have other places now.
   */
  solve() {
    drop(OWNER);
    const { view } = this;
    if (!view) return;
    if (!view.waiting) void this.keep();
    const texts = view.layouts.map((layout, place) => {
      let text = "";
      if (layout.waiting || layout.looking) {
        this.views.ask((whole) => {
          text = whole.shelf_case_text(place);
        });
      }
      return text;
    });
    view.layouts.forEach((layout, place) => {
      if (!layout.waiting) return;
      ask({
        owner: OWNER, subject: [texts[place], ...this.voice()], method: "layout", args: [],
        long: false,
        done: (/** @type {Float64Array | null} */ numbers) => {
          this.views.ask((whole) => whole.shelf_take_in(place, numbers ?? new Float64Array()));
          this.show();
          if (!this.view?.waiting) void this.keep();
        },
      });
    });
    view.layouts.forEach((layout, place) => {
      if (!layout.looking) return;
      ask({
        owner: OWNER, subject: [texts[place], ...this.voice()], method: "anywhere", args: [],
        long: false, progress: () => {},
        done: (/** @type {import("../../pkg/office.js").Looked | null} */ looked) => {
          const numbers = new Float64Array(looked?.numbers ?? []);
          this.views.ask((whole) => whole.shelf_take_anywhere(place, numbers));
          this.show();
        },
      });
    });
  }

  /** Keeps the visitor's own set, once it is solved. */
  async keep() {
    if (!this.unkept || this.linked) return;
    this.unkept = false;
    let set = "";
    this.views.ask((whole) => {
      set = whole.shelf_text();
    });
    if (await keep(KEY, set)) return;
    this.message = this.text("compare_not_stored");
    this.show();
  }

  /**
   * Another tab has changed the visitor's own set.
   * @param {string} set
   * @param {import("../../pkg/office.js").KeptText} merged
   */
  follow(set, merged) {
    // What was changed here comes to it when it is solved.
    if (this.unkept) return false;
    if (this.linked) return true;
    if (!merged.full) this.take(set);
    else this.message = this.text("compare_aside");
    this.show();
    this.solve();
    return true;
  }

  show() {
    this.views.ask((whole) => {
      this.view = whole.shelf_view();
    });
    if (this.view) this.build(this.view);
    dispatchEvent(new Event("footroom-shelf"));
  }

  /** @param {Compared} view */
  build(view) {
    const focused = document.activeElement?.id;
    const typed = /** @type {HTMLInputElement | null} */ (element("layout-name"));
    const name = typed?.value ?? "";
    const list = make("div", "compare__layouts");
    this.sheets = [];
    /** @type {HTMLButtonElement[]} */
    const loads = [];
    view.layouts.forEach((layout, i) => {
      const figure = make("figure", "compare__layout");
      figure.toggleAttribute("data-looking", layout.looking);
      const sheet = make("canvas", "compare__sheet");
      sheet.setAttribute("role", "img");
      sheet.setAttribute("aria-label", layout.words);
      this.sheets.push(sheet);
      const load = this.tool(`layout-load-${i}`, "compare_load", () => this.load(i), layout.name);
      loads.push(load);
      // Each line in the colour of its own mark; all hold, or none is shown to.
      figure.dataset.mark = layout.mark;
      const lines = [make("p", "compare__footroom", layout.footroom),
        make("p", "compare__line", layout.strength), make("p", "compare__line", layout.anywhere)];
      lines.forEach((line, at) => { line.dataset.mark = layout.marks[at]; });
      lines[0].classList.toggle("compare__footroom--waiting", layout.waiting);
      figure.append(make("figcaption", "compare__name", layout.name), ...lines, sheet);
      list.append(figure);
      // Who was sent them has nothing to change, and sees all of them first.
      if (this.linked) return;
      const tools = make("div", "group__tools");
      tools.append(load,
        this.tool(`layout-remove-${i}`, "compare_remove", () => this.remove(i), layout.name));
      figure.append(tools);
    });
    const figures = table(view.table);
    figures.classList.add("compare__table");
    asBlocks(figures);
    const scroll = scrolled(figures, view.table.caption);
    const some = view.layouts.length > 0;
    const notes = [this.message, this.linked ? this.text("compare_from_link") : view.note,
      view.full ? this.text("compare_full") : "", some ? "" : this.text("compare_empty")];
    this.status.replaceChildren(...notes.filter(Boolean).map((text) => make("p", "", text)));
    const several = view.layouts.length > 1;
    const adder = [this.adder(view.full, name), this.status];
    // Who was sent layouts looks at them first, and why they differ.
    const parts = this.linked ? [make("h3", "compare__sent", view.sent),
      make("p", "compare__looks", [view.looks, view.note].join(" ").trim())] : [...adder];
    // Two stand on one screen with what is said under them; more do not.
    const reason = this.linked && several ? [this.reason] : [];
    const shown = some ? [list] : [];
    parts.push(...(view.layouts.length > 2 ? [...reason, ...shown] : [...shown, ...reason]));
    if (this.linked) {
      const tools = make("div", "group__tools");
      loads.forEach((load, i) => load.replaceChildren(
        `${this.text("compare_load")}: ${view.layouts[i].name}`));
      tools.append(...loads);
      parts.push(tools);
    }
    if (some) parts.push(scroll, make("p", "panel__note", this.text("compare_note")));
    if (several) parts.push(this.chooser(view), this.steps.place);
    if (this.linked) parts.push(...adder);
    parts.push(this.tools(some, view.waiting));
    this.place.replaceChildren(...parts);
    this.putTasks();
    this.tellReason();
    if (focused) element(focused)?.focus();
    this.draw();
    this.why();
  }

  /**
   * Chooses the two layouts whose difference is split.
   * @param {Compared} view
   */
  chooser(view) {
    const last = view.layouts.length - 1;
    this.pair = this.pair.map((place) => Math.min(place, last));
    if (this.pair[0] === this.pair[1]) this.pair = [0, last];
    const row = make("fieldset", "compare__pair");
    row.append(make("legend", "group__heading", this.text("compare_why")));
    ["from", "to"].forEach((end, i) => {
      const label = make("label", "compare__end", this.text(`compare_${end}`));
      const list = make("select", "field__input");
      list.id = `layouts-${end}`;
      list.append(...view.layouts.map(({ name }, place) => new Option(name, String(place))));
      list.value = String(this.pair[i]);
      list.addEventListener("change", () => {
        const other = this.pair[1 - i];
        // The same one on both ends: they change places.
        if (other === Number(list.value)) this.pair.reverse();
        else this.pair[i] = Number(list.value);
        this.show();
      });
      label.append(list);
      row.append(label);
    });
    return row;
  }

  /**
   * Where the page scrolls as a whole, who was sent layouts meets them before the other tasks, by eye and
   * by keys.
   */
  putTasks() {
    const fold = this.place.closest("details");
    const tasks = fold?.parentElement;
    const side = tasks?.parentElement?.querySelector(".room__side");
    if (!fold || !tasks || !side) return;
    const last = this.linked && fold.open && !WIDE.matches;
    const [before, after] = last ? [tasks, side] : [side, tasks];
    if (before.nextElementSibling === after) return;
    // What holds the focus stays where it is.
    if (after.contains(document.activeElement)) after.before(before);
    else before.after(after);
  }

  /** Why the two layouts differ, or that it is still computed. */
  tellReason() {
    const said = `${this.text("compare_why")}: ${this.brief || this.text("fit_running")}`;
    if (this.reason.textContent !== said) this.reason.textContent = said;
  }

  /** Has the difference of the two layouts split, when both are solved and somebody sees it. */
  why() {
    const { view } = this;
    if (!view || view.waiting || view.layouts.length < 2) return;
    if (!this.place.closest("details")?.open) {
      drop(WHY);
      this.between = "";
      return;
    }
    const [from, to] = this.pair.map((place) => {
      let text = "";
      this.views.ask((whole) => {
        text = whole.shelf_case_text(place);
      });
      return [text, view.layouts[place].name];
    });
    const between = JSON.stringify([from, to, this.voice()]);
    if (between === this.between) return;
    this.between = between;
    this.steps.compute([to[0], ...this.voice()], "why_layouts", [from[0], from[1], to[1]],
      { none: "fit_nothing", same: "why_same_case" });
  }

  /**
   * @param {boolean} full
   * @param {string} name
   */
  adder(full, name) {
    const row = make("div", "group__tools compare__adder");
    const label = make("label", "compare__label", this.text("compare_name"));
    const input = make("input", "field__input compare__input");
    input.id = "layout-name";
    input.maxLength = 40;
    input.autocomplete = "off";
    input.value = name;
    label.append(input);
    const add = this.tool("layout-add", "compare_add", () => {
      if (!this.views.view) return;
      let added = false;
      this.views.ask((whole) => {
        added = whole.shelf_add(input.value);
      });
      input.value = "";
      if (added) this.changed();
    });
    add.disabled = full;
    row.append(label, add);
    return row;
  }

  /**
   * @param {boolean} some
   * @param {boolean} waiting nothing can be given away before all is solved
   */
  tools(some, waiting) {
    const tools = make("div", "group__tools");
    if (some) {
      const given = [this.tool("layouts-link", "compare_link", () => void this.link()),
        this.tool("layouts-file", "compare_file", () => this.file()),
        this.tool("layouts-csv", "compare_csv", () => this.csv()),
        this.tool("layouts-png", "compare_png", () => this.png())];
      for (const tool of given) tool.disabled = waiting;
      tools.append(...given);
    }
    tools.append(this.tool("layouts-open", "compare_take", () => this.pick()));
    if (this.linked) {
      tools.append(this.tool("layouts-own", "compare_own", () => {
        this.openOwn("");
        this.views.page.own();
        this.show();
        this.solve();
      }));
    }
    return tools;
  }

  /**
   * @param {string} id
   * @param {string} key of the text
   * @param {() => void} act
   * @param {string} [about]
   */
  tool(id, key, act, about) {
    return this.button(this.text(key), act, { id, about });
  }

  /** @param {number} layout */
  load(layout) {
    this.views.page.change((whole) => whole.shelf_load(layout), this.linked);
  }

  /** @param {number} layout */
  remove(layout) {
    this.views.ask((whole) => whole.shelf_remove(layout));
    this.changed();
    element("layout-add")?.focus();
  }

  async link() {
    /** @type {import("../../pkg/office.js").ShareView | null} */
    let given = null;
    this.views.ask((whole) => {
      given = whole.share("layouts", "", "", location.href.split("#")[0]);
    });
    const { address, note } = given ?? { address: "", note: "" };
    if (!address) {
      this.status.replaceChildren(make("p", "", note));
      element("layouts-file")?.focus();
      return;
    }
    try {
      await navigator.clipboard.writeText(address);
      this.status.replaceChildren(make("p", "", this.text("compare_copied")));
    } catch {
      const label = make("label", "compare__label", this.text("compare_by_hand"));
      const field = make("input", "notice__field");
      field.readOnly = true;
      field.value = address;
      label.append(field);
      this.status.replaceChildren(label);
      field.select();
    }
    this.status.dataset.link = address;
  }

  /** Asks for a file and opens it. */
  pick() {
    const input = make("input", "");
    input.type = "file";
    input.addEventListener("change", () => {
      const file = input.files?.[0];
      if (file) void openFile(this.views, file);
    });
    input.click();
  }

  file() {
    this.views.ask((whole) => {
      save("layouts.txt", new Blob([whole.shelf_text()], { type: "text/plain" }));
    });
  }

  csv() {
    this.views.ask((whole) => {
      // The mark at the beginning tells spreadsheets that it is UTF-8.
      const text = `\ufeff${whole.shelf_csv()}`;
      save("layouts.csv", new Blob([text], { type: "text/csv" }));
    });
  }

  png() {
    const sheet = document.createElement("canvas");
    this.views.ask((whole) => whole.shelf_picture(sheet, this.views.page.stage.theme));
    sheet.toBlob((content) => {
      if (content) save("layouts.png", content);
    });
  }

  draw() {
    const { stage } = this.views.page;
    const widths = this.sheets.map((sheet) => sheet.clientWidth).filter((width) => width > 0);
    if (!widths.length) return;
    const width = Math.max(Math.min(...widths), LEAST_PX);
    this.views.ask((whole) => this.sheets.forEach((sheet, i) => {
      sheet.style.height = `${whole.shelf_height_px(width)}px`;
      const ratio = Math.max(devicePixelRatio || 1, stage.least_ratio);
      whole.shelf_draw(sheet, i, width, ratio, stage.theme);
    }));
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/compare/compare.css");
  return new Compare(place, views);
}
