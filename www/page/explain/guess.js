// @ts-check
/**
 * Guess first: the learner puts a mark where the soles will stop, lets go, and sees how far off it
 * was. Until then the page's answer is covered.
 *
 * @typedef {import("../../pkg/office.js").GuessMark} GuessMark
 * @typedef {import("../../pkg/office.js").GuessResult} GuessResult
 * @typedef {import("../views.js").Views} Views
 */
import { make, style } from "../../first/elements.js";
import { hold, keep } from "../held.js";

/** Before the fall: the crew stands. */
const STANDING_S = -1;
/** Where the tally is kept. */
const KEPT = "guesses";

class Guess {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    this.views = views;
    this.fold = /** @type {HTMLDetailsElement} */ (place.closest("details"));
    // Without storage the tally ends with the visit.
    this.tally = hold(KEPT, (now) => {
        this.tally = now;
        this.showTally();
      }) ?? "";
    /** @type {GuessMark | null} */
    this.mark = null;
    /** @type {GuessResult | null} */
    this.result = null;
    this.time_s = STANDING_S;
    this.ticking = 0;
    this.last_ms = 0;
    style("page/explain/guess.css");
    this.build(place);
    this.fold.addEventListener("toggle", () => this.cover());
    views.page.stage.followers.push({ draw: () => {}, drawAll: () => this.draw() });
    new ResizeObserver(() => this.draw()).observe(this.canvas);
  }

  /** @param {HTMLElement} place */
  build(place) {
    this.ask = make("p", "guess__ask");
    this.canvas = make("canvas", "guess__canvas");
    this.canvas.setAttribute("role", "img");
    this.fieldLabel = make("label", "field__label");
    this.fieldLabel.htmlFor = "guess-depth";
    this.field = make("input", "field__input field__input--number guess__field");
    this.field.id = "guess-depth";
    this.field.type = "text";
    this.field.autocomplete = "off";
    this.fault = make("p", "field__fault");
    this.fault.id = "guess-fault";
    this.fault.setAttribute("role", "status");
    this.field.setAttribute("aria-describedby", this.fault.id);
    this.slider = make("input", "guess__slider");
    this.slider.type = "range";
    this.go = make("button", "button button--main");
    this.go.type = "button";
    this.go.id = "guess-go";
    this.said = make("p", "guess__said");
    this.said.setAttribute("role", "status");
    this.tallyHeading = make("h3", "group__heading");
    this.told = make("p", "guess__tally");
    this.note = make("p", "panel__note");
    this.clear = make("button", "button");
    this.clear.type = "button";
    const row = make("div", "guess__row");
    row.append(this.fieldLabel, this.field, this.slider, this.go);
    place.append(this.ask, this.said, row, this.fault, this.canvas, this.tallyHeading, this.told,
      this.clear, this.note);
    this.slider.addEventListener("input", () =>
      this.set((whole) => whole.guess_mark(Number(this.slider.value))));
    this.field.addEventListener("change", () =>
      this.set((whole) => whole.guess_typed(this.field.value, this.mark?.depth_m ?? NaN)));
    this.go.addEventListener("click", () => (this.result ? this.again() : this.letGo()));
    this.clear.addEventListener("click", () => {
      this.tally = "";
      void keep(KEPT, "");
      this.showTally();
    });
    let held = false;
    this.canvas.addEventListener("pointerdown", (event) => {
      if (this.result || event.button !== 0) return;
      held = true;
      this.canvas.setPointerCapture(event.pointerId);
      this.point(event);
    });
    this.canvas.addEventListener("pointermove", (event) => {
      if (held) this.point(event);
    });
    for (const end of ["pointerup", "pointercancel"]) {
      this.canvas.addEventListener(end, () => {
        held = false;
      });
    }
  }

  /** @param {PointerEvent} event */
  point(event) {
    this.set((whole) => whole.guess_pointed(event.offsetY));
  }

  /** @param {(page: import("../../pkg/office.js").Page) => GuessMark | null} task */
  set(task) {
    if (this.result) return;
    this.views.ask((whole) => {
      this.mark = task(whole) ?? this.mark;
    });
    this.showMark();
    this.draw();
  }

  showMark() {
    const { mark } = this;
    if (!mark) return;
    this.field.value = mark.typed;
    this.field.setAttribute("aria-invalid", String(mark.fault !== null));
    this.fault.textContent = mark.fault ?? "";
    this.slider.min = String(mark.min_m);
    this.slider.max = String(mark.max_m);
    this.slider.step = String(mark.step_m);
    this.slider.value = String(mark.depth_m);
    this.slider.setAttribute("aria-valuetext", mark.told);
  }

  /** The case has changed, or its words: what was guessed was about another one. */
  refresh() {
    const texts = this.views.page.texts();
    this.canvas.setAttribute("aria-label", texts.guess_drawing);
    this.fieldLabel.textContent = texts.guess_depth;
    this.slider.setAttribute("aria-label", texts.guess_slider);
    this.tallyHeading.textContent = texts.guess_tally;
    this.note.textContent = texts.guess_kept;
    this.clear.textContent = texts.guess_clear;
    this.again();
  }

  again() {
    cancelAnimationFrame(this.ticking);
    this.result = null;
    this.time_s = STANDING_S;
    const depth_m = this.mark?.depth_m ?? NaN;
    this.views.ask((whole) => {
      this.mark = whole.guess_mark(depth_m);
    });
    this.said.textContent = "";
    this.showMark();
    this.showTally();
    this.cover();
  }

  letGo() {
    const { mark } = this;
    if (!mark) return;
    this.views.ask((whole) => {
      this.result = whole.guess_reveal(mark.depth_m, this.tally);
    });
    if (!this.result) {
      this.said.textContent = this.views.page.texts().guess_no_result;
      return;
    }
    this.tally = this.result.tally;
    void keep(KEPT, this.tally);
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches || !this.result.known;
    this.time_s = still ? this.result.lowest_time_s : 0;
    this.last_ms = performance.now();
    this.showControls();
    this.tick(this.last_ms);
  }

  /** @param {number} now_ms */
  tick(now_ms) {
    const { result } = this;
    if (!result) return;
    const passed_s = Math.min(Math.max(now_ms - this.last_ms, 0), 100) / 1000;
    this.last_ms = now_ms;
    this.time_s = Math.min(this.time_s + passed_s * result.speed, result.lowest_time_s);
    this.draw();
    if (this.time_s < result.lowest_time_s) {
      this.ticking = requestAnimationFrame((now) => this.tick(now));
      return;
    }
    this.said.textContent = result.sentence;
    this.showTally();
    this.cover();
  }

  showControls() {
    const texts = this.views.page.texts();
    const done = this.result !== null;
    this.go.textContent = done ? texts.guess_again : texts.guess_let_go;
    this.field.disabled = done;
    this.slider.disabled = done;
    this.ask.textContent = done ? "" : `${texts.guess_ask} ${texts.guess_covered}`;
  }

  showTally() {
    this.views.ask((whole) => {
      this.told.textContent = whole.guess_tally(this.tally);
    });
    this.clear.hidden = this.tally === "";
  }

  /** Whether the soles have stopped. */
  get stopped() {
    return this.result !== null && this.time_s >= this.result.lowest_time_s;
  }

  /** Covers the page's answer as long as somebody guesses. */
  cover() {
    this.showControls();
    const covers = this.fold.open && !this.stopped;
    if (covers !== document.body.hasAttribute("data-guessing")) {
      document.body.toggleAttribute("data-guessing", covers);
      // What is covered takes no room: the fold stays where it is looked at.
      if (this.fold.open) this.fold.scrollIntoView({ block: covers ? "start" : "nearest" });
    }
    this.draw();
  }

  draw() {
    const { mark } = this;
    if (!mark || !this.fold.open) return;
    const { stage } = this.views.page;
    stage.onCanvas(this.canvas, (width, height, ratio) => this.views.ask((whole) => {
      whole.guess_draw(this.canvas, width, height, ratio, this.time_s,
        mark.depth_m, this.stopped, stage.theme);
    }));
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  const guess = new Guess(place, views);
  return { refresh: () => guess.refresh() };
}
