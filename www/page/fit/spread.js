// @ts-check
/**
 * Falls drawn within the tolerances: made in pieces beside the page, so that it is seen how far they
 * are and they can be stopped; two charts, and what they tell.
 *
 * @typedef {import("../../pkg/office.js").SpreadView} SpreadView
 * @typedef {import("../views.js").Views} Views
 */
import { ask, drop } from "../background.js";
import { make, style } from "../../first/elements.js";
import { Late } from "../late.js";
import { asBlocks, keysScroll, table } from "../../first/table.js";

const OWNER = "spread";
const CHARTS = ["footroom", "tension"];
/** Falls in a piece: some ten milliseconds of work. */
const PIECE = 20;
/** Numbers of a fall. */
const NUMBERS = 3;
/** Time between two pictures while falls come, ms: painting takes from those who compute. */
const PICTURE_MS = 150;

class Spread extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    /** The case that the draws are of, and the language of what stands around them. */
    this.case = "";
    this.language = "";
    /** What came of the draws; NaN where they are not there yet. */
    this.falls = new Float64Array(0);
    /** @type {number | undefined} The seed of the draws, and of the link. */
    this.seed = undefined;
    this.made = 0;
    /** Falls are on their way. */
    this.running = false;
    /** When a picture was made last. */
    this.pictured = 0;
    this.input = make("input", "field__input field__input--number");
    this.fault = make("p", "field__fault");
    this.begin = this.button("", () => this.start(), { id: "spread-start" });
    this.end = this.button("", () => this.stop(), { id: "spread-stop" });
    this.run = make("div", "search__run");
    this.bar = make("progress", "search__progress");
    this.step = make("label", "search__step");
    this.said = make("div", "spread__said");
    this.said.setAttribute("role", "status");
    this.pair = make("div", "charts__pair spread__pair");
    this.tables = make("div", "spread__tables");
    this.charts = CHARTS.map((key) => {
      const figure = make("figure", "chart");
      const title = make("figcaption", "chart__caption");
      const sheet = make("canvas", "chart__canvas spread__sheet");
      sheet.id = `spread-${key}`;
      sheet.setAttribute("role", "img");
      figure.append(title, sheet);
      this.pair.append(figure);
      return { key, title, sheet };
    });
    views.page.stage.also(() => this.draw(), place);
    place.closest("details")?.addEventListener("toggle", (event) => {
      const fold = /** @type {HTMLDetailsElement} */ (event.target);
      if (!fold.open && this.running) this.stop();
    });
  }

  /** The case has changed, or its words. */
  refresh() {
    const subject = this.views.subject();
    /** @type {number | undefined} of the link */
    let seed;
    this.views.ask((whole) => {
      seed = whole.spread_seed();
    });
    const wanted = JSON.stringify([subject, seed]);
    if (wanted === this.subject) return;
    this.subject = wanted;
    if (!subject) {
      this.clear();
      this.case = this.language = "";
      this.place.replaceChildren(make("p", "panel__note", this.text("fit_nothing")));
      return;
    }
    const [caseText, language] = subject;
    if (language !== this.language) this.lay();
    this.language = language;
    if (caseText !== this.case || seed !== this.seed) {
      this.case = caseText;
      this.seed = seed;
      this.clear();
      this.input.value = String(seed);
    }
    if (this.running) this.progress();
    else if (this.made) this.tell();
  }

  /** What stands around the draws, in the present language. */
  lay() {
    const label = make("label", "field__label", this.text("spread_seed"));
    this.input.id = "spread-seed";
    this.input.type = "text";
    this.input.inputMode = "numeric";
    this.input.autocomplete = "off";
    this.input.setAttribute("aria-describedby", "spread-hint spread-fault");
    this.input.onkeydown = ({ key }) => {
      if (key === "Enter") this.start();
    };
    label.htmlFor = this.input.id;
    const hint = make("p", "field__hint", this.text("spread_seed_hint"));
    hint.id = "spread-hint";
    this.fault.id = "spread-fault";
    if (this.fault.textContent) this.fault.textContent = this.text("spread_seed_fault");
    const field = make("div", "field spread__seed");
    field.append(label, this.input, hint, this.fault);
    this.begin.textContent = this.text("spread_start");
    this.end.textContent = this.text("spread_stop");
    this.bar.id = "spread-progress";
    this.step.htmlFor = this.bar.id;
    this.run.hidden = !this.running;
    this.run.replaceChildren(this.step, this.bar, this.end);
    if (!this.made && !this.running) this.said.replaceChildren();
    this.place.replaceChildren(make("p", "panel__note", this.text("spread_note")),
      make("p", "panel__note", this.text("spread_not")), field, this.begin, this.run, this.said,
      this.pair, this.tables);
    this.pair.hidden = !this.made;
  }

  /** No draws are shown, and none on their way. */
  clear() {
    drop(OWNER);
    this.running = false;
    this.made = 0;
    this.falls = new Float64Array(0);
    this.run.hidden = this.pair.hidden = true;
    this.said.replaceChildren();
    this.tables.replaceChildren();
    delete this.place.dataset.state;
  }

  stop() {
    const held = document.activeElement === this.end;
    this.clear();
    this.said.replaceChildren(make("p", "spread__line", this.text("spread_stopped")));
    if (held) this.begin.focus();
  }

  /** Begins anew, with the seed that stands in the field. */
  start() {
    const subject = this.views.subject();
    if (!subject) return;
    this.clear();
    let draws = 0;
    /** @type {number | undefined} */
    let seed;
    this.views.ask((whole) => {
      seed = whole.spread_take_seed(this.input.value);
      draws = whole.spread_draws();
    });
    this.fault.textContent = seed === undefined ? this.text("spread_seed_fault") : "";
    this.input.setAttribute("aria-invalid", String(seed === undefined));
    if (seed === undefined) {
      this.input.focus();
      return;
    }
    this.seed = seed;
    this.input.value = String(seed);
    this.views.page.keep();
    this.running = true;
    this.falls = new Float64Array(NUMBERS * draws).fill(NaN);
    this.bar.max = draws;
    this.bar.value = 0;
    this.step.textContent = this.text("spread_running");
    this.run.hidden = this.pair.hidden = false;
    this.run.scrollIntoView({ block: "nearest" });
    const { dataset } = this.place;
    dataset.started = String(performance.now());
    this.draw();
    const pieces = Array.from({ length: Math.ceil(draws / PIECE) }, (_, i) => i * PIECE);
    ask(...pieces.map((from) => ({
      owner: OWNER, subject, method: "spread_falls", args: [seed, from, PIECE], long: false,
      failed: () => {
        this.clear();
        this.said.replaceChildren(make("p", "field__fault", this.text("fit_failed")));
      },
      done: (/** @type {Float64Array} */ falls) => this.take(from, falls, draws),
    })));
  }

  /**
   * @param {number} from
   * @param {Float64Array} falls
   * @param {number} draws
   */
  take(from, falls, draws) {
    if (!this.running) return;
    this.falls.set(falls, NUMBERS * from);
    this.made += falls.length / NUMBERS;
    if (this.made < draws) {
      this.progress();
      return;
    }
    this.running = false;
    const held = document.activeElement === this.end;
    this.run.hidden = true;
    this.tell();
    if (held) this.begin.focus();
    const { dataset } = this.place;
    dataset.whole = String(performance.now());
    dataset.state = "whole";
  }

  /** How far it is, and now and then a picture. */
  progress() {
    this.bar.value = this.made;
    this.views.ask((whole) => {
      this.step.textContent = whole.spread_progress(this.made);
    });
    const now = performance.now();
    if (now - this.pictured < PICTURE_MS) return;
    this.pictured = now;
    this.draw();
  }

  /** What all draws tell. */
  tell() {
    /** @type {SpreadView | null} */
    let told = null;
    this.views.ask((whole) => {
      told = whole.spread(this.seed ?? 0, this.falls);
    });
    this.draw();
    if (!told) return;
    const { sentences, table: places, inputs } = /** @type {SpreadView} */ (told);
    this.said.replaceChildren(...sentences.map((text) => make("p", "spread__line", text)));
    this.tables.replaceChildren(...[places, inputs].flatMap((data) => {
      if (!data.rows.length) return [];
      const scroll = make("div", "panel__scroll");
      keysScroll(scroll, () => data.caption);
      const made = table(data);
      if (data === inputs) asBlocks(made);
      scroll.append(made);
      return data.note ? [scroll, make("p", "panel__note", data.note)] : [scroll];
    }));
  }

  draw() {
    if (this.pair.hidden || !this.falls.length) return;
    const { stage } = this.views.page;
    for (const { key, title, sheet } of this.charts) {
      this.views.ask((whole) => {
        const [name, words] = whole.spread_words(key, this.falls);
        title.textContent = name ?? "";
        sheet.setAttribute("aria-label", words || name || key);
        stage.onCanvas(sheet, (width, height, ratio) =>
          whole.draw_spread(sheet, key, this.falls, width, height, ratio, stage.theme));
      });
    }
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/fit/spread.css");
  return new Spread(place, views);
}
