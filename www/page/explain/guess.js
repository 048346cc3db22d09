// @ts-check
/**
 * Guess and learn: the learner puts a mark where the feet will stop, lets go, and sees how far off it
 * was and why. The question is about the line on the page, or one of those for trainees, which fall
 * here on a copy of their own. Until then the page's answer is covered.
 *
 * @typedef {import("../../pkg/office.js").GuessMark} GuessMark
 * @typedef {import("../../pkg/office.js").GuessResult} GuessResult
 * @typedef {import("../../pkg/office.js").Lesson} Lesson
 * @typedef {import("../views.js").Views} Views
 */
import { ask, drop } from "../background.js";
import { element, make, style } from "../../first/elements.js";
import { hold, keep } from "../held.js";

/** Before the fall: the crew stands. */
const STANDING_S = -1;
/** Where the tally is kept. */
const KEPT = "guesses";
/** Where it is kept which questions were answered. */
const LEARNT = "learnt";
/** Owner of the questions that are made. */
const OWNER = "learn";
/** Least height of the drawing, px. */
const LEAST_PX = 176;

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
    /** @type {Set<string>} The questions that were answered. */
    this.done = new Set();
    const take = (/** @type {string} */ text) => {
      for (const word of text.split(" ").filter(Boolean)) this.done.add(word);
      this.showDone();
    };
    /** The place of the question; empty: about the line on the page. */
    this.question = "";
    /** @type {Lesson | null} */
    this.lesson = null;
    this.voice = "";
    /** @type {GuessMark | null} */
    this.mark = null;
    /** @type {GuessResult | null} */
    this.result = null;
    this.time_s = STANDING_S;
    this.ticking = 0;
    this.last_ms = 0;
    style("page/explain/guess.css");
    this.build(place);
    take(hold(LEARNT, take) ?? "");
    this.fold.addEventListener("toggle", () => {
      if (!this.fold.open) drop(OWNER);
      this.cover();
    });
    views.page.stage.also(() => this.draw(), this.canvas);
    const sizes = new ResizeObserver(() => this.fit());
    for (const part of [place, element("desk")]) sizes.observe(part);
    addEventListener("resize", () => this.fit());
  }

  /** @param {HTMLElement} place */
  build(place) {
    this.questionLabel = make("label", "field__label");
    this.questionLabel.htmlFor = "guess-question";
    this.questions = make("select", "pick__list guess__questions");
    this.questions.id = "guess-question";
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
    this.put = make("button", "button");
    this.put.type = "button";
    this.put.id = "guess-put";
    this.said = make("div", "guess__said");
    this.said.setAttribute("role", "status");
    this.numbers = make("ul", "guess__numbers");
    this.tallyHeading = make("h3", "group__heading");
    this.told = make("p", "guess__tally");
    this.note = make("p", "panel__note");
    this.clear = make("button", "button");
    this.clear.type = "button";
    const pick = make("div", "guess__row");
    pick.append(this.questionLabel, this.questions);
    const row = make("div", "guess__row");
    row.append(this.fieldLabel, this.field, this.slider, this.go, this.put);
    place.append(pick, this.ask, this.said, row, this.fault, this.canvas, this.numbers,
      this.tallyHeading, this.told, this.clear, this.note);
    this.questions.addEventListener("change", () => this.choose(this.questions.value));
    this.slider.addEventListener("input", () =>
      this.set((whole) => whole.guess_mark(Number(this.slider.value))));
    this.field.addEventListener("change", () =>
      this.set((whole) => whole.guess_typed(this.field.value, this.mark?.depth_m ?? NaN)));
    this.go.addEventListener("click", () => (this.result ? this.again() : this.letGo()));
    this.put.addEventListener("click", () => this.putOnPage());
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

  /** @param {string} key */
  text(key) {
    return this.views.page.texts()[key] ?? "";
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

  /**
   * The case has changed, or its words. What was guessed of the line on the page was about another
   * one; a question for trainees is the same as long as its words are.
   * @param {import("../../pkg/footroom.js").View} view
   */
  refresh(view) {
    const voice = `${view.language} ${view.units}`;
    // One that was not made, as the fold was closed meanwhile, or could not be, is made anew.
    if (this.lesson && voice === this.voice) {
      this.draw();
      return;
    }
    this.voice = voice;
    this.canvas.setAttribute("aria-label", this.text("guess_drawing"));
    this.questionLabel.textContent = this.text("guess_question");
    this.fieldLabel.textContent = this.text("guess_depth");
    this.slider.setAttribute("aria-label", this.text("guess_slider"));
    this.put.textContent = this.text("guess_put");
    this.tallyHeading.textContent = this.text("guess_tally");
    this.note.textContent = `${this.text("learn_note")} ${this.text("guess_kept")}`;
    this.clear.textContent = this.text("guess_clear");
    this.views.ask((whole) => this.questions.replaceChildren(
      new Option(this.text("guess_own"), ""),
      ...whole.lessons().map((title, i) => new Option(`${i + 1}. ${title}`, String(i)))));
    this.titles = [...this.questions.options].map(({ text }) => text);
    this.showDone();
    this.choose(this.question);
  }

  showDone() {
    for (const [i, option] of [...this.questions.options].entries()) {
      const done = this.done.has(option.value) ? ` (${this.text("learn_done")})` : "";
      option.text = (this.titles?.[i] ?? "") + done;
    }
  }

  /** @param {string} question its place; empty: about the line on the page */
  choose(question) {
    this.question = question;
    this.questions.value = question;
    this.lesson = null;
    drop(OWNER);
    const subject = this.views.subject();
    if (question === "" || !subject) {
      this.views.ask((whole) => whole.guess_about(""));
      this.again(NaN);
      return;
    }
    this.again(NaN);
    ask({
      owner: OWNER, subject, method: "lesson", args: [Number(question)], long: false,
      failed: () => {
        this.ask.textContent = this.text("fit_failed");
      },
      done: (/** @type {Lesson | null} */ lesson) => {
        if (!lesson) return;
        this.lesson = lesson;
        this.views.ask((whole) => whole.guess_about(lesson.case_text));
        this.again(lesson.before_m);
      },
    });
  }

  /** Makes the learner guess, at first from a depth, m; not a number: from where there is room. */
  again(from_m = this.mark?.depth_m ?? NaN) {
    cancelAnimationFrame(this.ticking);
    this.result = null;
    this.time_s = STANDING_S;
    this.views.ask((whole) => {
      this.mark = whole.guess_mark(from_m);
    });
    this.said.replaceChildren();
    this.numbers.replaceChildren();
    this.showMark();
    this.showTally();
    this.cover();
  }

  letGo() {
    const { mark } = this;
    if (!mark || this.waits) return;
    this.views.ask((whole) => {
      this.result = whole.guess_reveal(mark.depth_m, this.tally);
    });
    if (!this.result) {
      this.said.replaceChildren(make("p", "", this.text("guess_no_result")));
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
    this.said.replaceChildren(make("p", "guess__is", result.sentence));
    if (this.lesson) {
      this.said.append(make("p", "guess__why", `${this.lesson.rooms} ${this.lesson.reason}`));
      this.numbers.replaceChildren(...this.lesson.numbers.map((text) =>
        make("li", "guess__number", text)));
      this.done.add(this.question);
      this.showDone();
      void keep(LEARNT, [...this.done].join(" "));
    }
    this.showTally();
    this.cover();
  }

  /** Puts the case of the question on the page, so that undo brings the one there back. */
  putOnPage() {
    this.views.page.change((whole) => whole.guess_put());
    this.views.page.notice(this.text("guess_put_done"));
  }

  /** Whether a question is still being made. */
  get waits() {
    return this.question !== "" && !this.lesson;
  }

  showControls() {
    const done = this.result !== null;
    this.go.textContent = this.text(done ? "guess_again" : "guess_let_go");
    this.go.disabled = this.waits;
    this.put.hidden = !this.lesson;
    this.field.disabled = done || this.waits;
    this.slider.disabled = done || this.waits;
    this.canvas.hidden = this.waits;
    const own = `${this.text("guess_ask")} ${this.text("guess_covered")}`;
    const asked = this.lesson ? `${this.lesson.question} ${this.text("guess_how")}`
      : this.waits ? this.text("guess_making") : own;
    this.ask.textContent = this.stopped ? "" : asked;
  }

  showTally() {
    this.views.ask((whole) => {
      this.told.textContent = whole.guess_tally(this.tally);
    });
    this.clear.hidden = this.tally === "";
  }

  /** Whether the feet have stopped. */
  get stopped() {
    return this.result !== null && this.time_s >= this.result.lowest_time_s;
  }

  /** Covers the page's answer as long as somebody guesses at it, or at another case than its own. */
  cover() {
    this.showControls();
    const covers = this.fold.open && (this.question !== "" || !this.stopped);
    if (covers !== document.body.hasAttribute("data-guessing")) {
      document.body.toggleAttribute("data-guessing", covers);
      // What is covered takes no room: the fold stays where it is looked at.
      if (this.fold.open) this.fold.scrollIntoView({ block: covers ? "start" : "nearest" });
    }
    this.fit();
    this.draw();
  }

  /** Gives the drawing what is left of the screen under the question. */
  fit() {
    if (!this.fold.open || this.canvas.hidden) return;
    const box = this.fold.getBoundingClientRect();
    const above = this.canvas.getBoundingClientRect().top;
    const scrolls = getComputedStyle(this.fold).overflowY === "auto";
    // Where the page scrolls, the doors and the caution stand at its foot.
    const end = scrolls ? box.bottom - this.fold.scrollTop - 12
      : innerHeight - element("caution").parentElement.offsetHeight
        - element("door-explain").offsetHeight - scrollY - 4;
    const height = `${Math.max(LEAST_PX, Math.floor(end - above))}px`;
    if (this.canvas.style.height !== height) this.canvas.style.height = height;
  }

  draw() {
    const { mark } = this;
    if (!mark || !this.fold.open || this.waits) return;
    const { stage } = this.views.page;
    const before_m = this.lesson?.before_m ?? NaN;
    stage.onCanvas(this.canvas, (width, height, ratio) => this.views.ask((whole) => {
      whole.guess_draw(this.canvas, width, height, ratio, this.time_s,
        mark.depth_m, before_m, this.stopped, stage.theme);
    }));
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  const guess = new Guess(place, views);
  return {
    /** @param {import("../../pkg/footroom.js").View} view */
    refresh: (view) => guess.refresh(view),
  };
}
