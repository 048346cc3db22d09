// @ts-check
/**
 * The talk: a list of its steps to edit, and the screen that shows them one by one.
 *
 * @typedef {import("../../pkg/office.js").TalkStep} TalkStep
 * @typedef {import("../../pkg/office.js").TalkEntry} TalkEntry
 * @typedef {import("../views.js").Views} Views
 */
import { Page } from "../../pkg/office.js";
import { element, make, style, write } from "../../first/elements.js";
import { ROLES } from "../../first/theme.js";
import { drawing } from "../trusted.js";

/** Key of the step that shows the code of the link. */
const CODE = "code";
/** Time for which the page solves steps in one go, ms. */
const TURN_MS = 40;
/** Time for which each key frame stands when less motion is wanted, ms. */
const KEY_FRAME_MS = 1400;

/**
 * A button.
 * @param {string} name of its class
 * @param {string} text
 * @param {() => void} act
 */
function button(name, text, act) {
  const made = make("button", name, text);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}

export class Talk {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    this.views = views;
    this.ask = views.ask;
    style("page/explain/talk.css");
    this.list = place;
    /** @type {Show | null} */
    this.show = null;
    this.filling = 0;
    this.note = make("p", "talk-list__note");
    views.page.stage.also(() => this.show?.draw(), place);
  }

  get texts() {
    return this.views.page.texts();
  }

  /** The case has changed, or its words. */
  refresh() {
    if (!this.show) this.fill();
  }

  /** Something that was waited for was made beside the page. */
  came() {
    if (this.show) this.show.came();
    // Who is writing keeps their place.
    else if (this.list.contains(document.activeElement)) this.fillSentences();
    else this.fill();
  }

  /**
   * Solves what a step lacks, for a while; all steps: an empty key.
   * @param {string} key
   * @returns {number} 0: nothing is lacking; 1: there is more to solve; 2: it comes from beside the page
   */
  lacks(key) {
    let lacks = 0;
    const until = performance.now() + TURN_MS;
    this.ask((whole) => {
      do lacks = whole.talk_lacks(key); while (lacks === 1 && performance.now() < until);
    });
    return lacks;
  }

  /** Builds the list anew; `focus` names what then has the focus. */
  fill(focus = "") {
    const texts = this.texts;
    /** @type {import("../../pkg/office.js").TalkList} */
    let list = { entries: [], edited_note: null };
    this.ask((whole) => {
      list = whole.talk_list();
    });
    const heading = make("h3", "panel__heading", texts.talk_heading);
    const steps = make("ol", "talk-list__steps");
    steps.setAttribute("aria-label", texts.talk_steps);
    steps.append(...list.entries.map((entry, i) => this.entry(entry, i, list.entries.length)));
    const none = list.entries.length === 0 ? texts.talk_no_result : texts.talk_empty;
    const empty = make("p", "talk-list__intro", none);
    empty.setAttribute("role", "status");
    empty.hidden = list.entries.some((entry) => entry.on);
    const start = button("button button--main", texts.talk_start, () => this.start());
    start.disabled = !empty.hidden;
    start.id = "talk-start";
    start.setAttribute("aria-keyshortcuts", "t");
    const reset = button("button", texts.talk_reset, () => {
      this.ask((whole) => whole.talk_reset());
      this.changed("");
    });
    this.note.textContent = list.edited_note ?? "";
    const tools = make("div", "talk-list__tools");
    tools.append(start, reset);
    this.list.replaceChildren(heading, make("p", "talk-list__intro", texts.talk_intro), tools,
      empty, steps, this.note,
      make("p", "talk-list__note", texts.talk_keys),
      make("p", "talk-list__note", texts.caution));
    if (focus) /** @type {HTMLElement} */ (this.list.querySelector(focus))?.focus();
    this.fillSentences();
  }

  /**
   * @param {TalkEntry} entry
   * @param {number} i
   * @param {number} count
   */
  entry(entry, i, count) {
    const texts = this.texts;
    const item = make("li", "talk-list__step");
    item.classList.toggle("talk-list__step--off", !entry.on);
    item.dataset.step = entry.key;
    const on = make("input", "talk-list__on");
    on.type = "checkbox";
    on.checked = entry.on;
    on.setAttribute("aria-label", entry.on_label);
    on.addEventListener("change", () => {
      this.ask((whole) => whole.talk_set_on(entry.key, on.checked));
      this.changed(`[data-step=${entry.key}] .talk-list__on`);
    });
    const sentence = make("textarea", "talk-list__sentence");
    sentence.rows = 1;
    sentence.maxLength = 160;
    sentence.setAttribute("aria-label", entry.sentence_label);
    sentence.placeholder = texts.talk_making;
    sentence.addEventListener("change", () => {
      this.ask((whole) => {
        whole.talk_say(entry.key, sentence.value);
        sentence.value = whole.talk_own(entry.key) || whole.talk_computed(entry.key);
      });
      this.markEdited();
      this.views.page.keep();
    });
    const say = make("div", "talk-list__say");
    const edited = make("span", "talk-list__edited", texts.talk_edited);
    edited.hidden = !entry.edited;
    say.append(sentence, edited);
    const moves = make("div", "talk-list__moves");
    for (const [name, sign, label, earlier, end] of /** @type {const} */ ([
      ["earlier", "▲", entry.earlier_label, true, i === 0],
      ["later", "▼", entry.later_label, false, i === count - 1],
    ])) {
      const move = button(`talk-list__${name} button`, sign, () => {
        this.ask((whole) => whole.talk_move(entry.key, earlier));
        this.changed(`[data-step=${entry.key}] .talk-list__${name}:not(:disabled), `
          + `[data-step=${entry.key}] .talk-list__on`);
      });
      move.disabled = end;
      move.setAttribute("aria-label", label);
      moves.append(move);
    }
    item.append(on, make("span", "talk-list__title", entry.title), say, moves);
    return item;
  }

  /** Marks the sentences that are the leader's own, without making the list anew. */
  markEdited() {
    this.ask((whole) => {
      const list = whole.talk_list();
      for (const entry of list.entries) {
        const mark = this.list.querySelector(`[data-step=${entry.key}] .talk-list__edited`);
        /** @type {HTMLElement} */ (mark).hidden = !entry.edited;
      }
      this.note.textContent = list.edited_note ?? "";
    });
  }

  /** Computes one sentence after the other, so that the list can be used meanwhile. */
  fillSentences() {
    const fields = [...this.list.querySelectorAll("li")];
    clearTimeout(this.filling);
    const next = () => {
      const [item] = fields;
      if (!item || !item.isConnected) return;
      const field = /** @type {HTMLTextAreaElement} */ (item.querySelector("textarea"));
      const key = item.dataset.step ?? "";
      const lacks = this.lacks(key);
      // What comes from beside the page fills the list anew.
      if (lacks === 2) return;
      if (!lacks) fields.shift();
      if (!lacks) this.ask((whole) => {
        const text = whole.talk_own(key) || whole.talk_computed(key);
        if (document.activeElement !== field) field.value = text;
      });
      this.filling = setTimeout(next);
    };
    this.filling = setTimeout(next);
  }

  /** @param {string} focus */
  changed(focus) {
    this.fill(focus);
    this.views.page.keep();
  }

  start() {
    if (this.show || element("talk-start").disabled) return;
    this.views.page.stage.pause();
    this.show = new Show(this, () => {
      this.show = null;
      this.fill();
      element("talk-start")?.focus({ preventScroll: true });
    });
  }
}

/** The screen with the steps. */
class Show {
  /**
   * @param {Talk} talk
   * @param {() => void} ended
   */
  constructor(talk, ended) {
    this.talk = talk;
    this.ended = ended;
    /** @type {string[]} */
    this.keys = [];
    talk.ask((whole) => {
      this.keys = whole.talk_keys();
    });
    this.at = 0;
    /** @type {TalkStep | null} */
    this.step = null;
    this.time_s = 0;
    this.playing = false;
    this.frame = 0;
    this.last_ms = 0;
    this.type_px = 0;
    /** @type {Record<string, string> | null} */
    this.theme = null;
    /** Keeps what stands still; nobody sees it. */
    this.still = document.createElement("canvas");
    this.still.getContext("2d", { alpha: false });
    this.still.addEventListener("contextrestored", () => this.draw());
    this.began_ms = performance.now();
    this.lessMotion = matchMedia("(prefers-reduced-motion: reduce)");
    /** @type {ReturnType<typeof setTimeout> | 0} Another crew is about to be tried. */
    this.trying = 0;
    /** @type {(() => void) | null} What is done once the step that is sought is solved. */
    this.seeks = null;
    this.sought = "";
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.seeking = undefined;
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.preparing = undefined;
    this.build();
    this.resize = new ResizeObserver(() => this.size());
    this.resize.observe(this.screen);
    this.resize.observe(this.canvas);
    this.ticking = setInterval(() => this.tell(), 1000);
    this.tell();
    this.layer.showModal();
    this.screen.focus();
    // Where there is no full screen, the layer over the page is the screen.
    this.screen.requestFullscreen?.().catch(() => {});
    this.go(0);
  }

  /** Solves the steps to come while nothing plays, so that they have one scale and stand at once. */
  prepare() {
    clearTimeout(this.preparing);
    if (this.seeks) return;
    let lacks = 1;
    if (!this.playing) {
      lacks = this.talk.lacks("");
      this.draw();
    }
    this.screen.dataset.prepared = String(!lacks);
    if (lacks === 1) this.preparing = setTimeout(() => this.prepare(), this.playing ? 200 : 0);
  }

  /** Something that was waited for was made beside the page. */
  came() {
    if (this.seeks) this.seek();
    else this.prepare();
  }

  build() {
    const { texts } = this.talk;
    this.layer = make("dialog", "talk");
    this.layer.setAttribute("aria-label", texts.talk_screen);
    this.screen = make("div", "talk__screen");
    this.screen.tabIndex = -1;
    this.title = make("h2", "talk__title");
    this.job = make("p", "talk__job");
    this.live = make("p", "talk__live");
    this.live.setAttribute("role", "status");
    const head = make("div", "talk__head");
    head.append(this.title, this.live, this.job);
    this.canvas = make("canvas", "talk__canvas");
    this.canvas.setAttribute("role", "img");
    this.canvas.getContext("2d", { alpha: false });
    this.code = make("div", "talk__code");
    this.code.hidden = true;
    const picture = make("div", "talk__picture");
    picture.append(this.canvas, this.code);
    // Taps: the left third goes back, the rest goes on.
    picture.addEventListener("click", (event) => {
      const part = event.offsetX / Math.max(picture.clientWidth, 1);
      this.move(part < 1 / 3 ? -1 : 1);
    });
    this.number = make("p", "talk__number");
    this.word = make("p", "talk__word");
    this.open = make("ul", "talk__open");
    this.rowsName = make("p", "talk__rows-name", texts.talk_rows);
    this.rows = make("dl", "talk__rows");
    this.rows.setAttribute("aria-label", texts.talk_rows);
    const side = make("div", "talk__side");
    side.append(this.number, this.word, this.open, this.rowsName, this.rows);
    const say = make("div", "talk__say");
    this.sentence = make("p", "talk__sentence");
    this.sentence.setAttribute("aria-live", "polite");
    this.caution = make("span", "talk__caution");
    this.edited = make("span", "talk__edited");
    this.place = make("span", "talk__place");
    const small = make("p", "talk__small");
    small.append(this.caution, this.edited, this.place);
    say.append(this.sentence, small);
    this.back = button("talk__button", texts.talk_back, () => this.move(-1));
    this.play = button("talk__button", texts.talk_play, () => this.toggle());
    this.next = button("talk__button", texts.talk_next, () => this.move(1));
    const dark = button("talk__button", texts.talk_dark, () => this.darken(true));
    this.notesButton = button("talk__button", texts.talk_notes, () => this.toggleNotes());
    this.notesButton.setAttribute("aria-expanded", "false");
    const end = button("talk__button", texts.talk_end, () => this.end());
    this.clock = make("span", "talk__clock");
    this.clock.setAttribute("role", "timer");
    this.clock.setAttribute("aria-label", texts.talk_clock);
    const bar = make("div", "talk__bar");
    bar.append(this.back, this.play, this.next, this.trials(), dark, this.notesButton, this.clock,
      end);
    this.notes = make("div", "talk__notes");
    this.notes.hidden = true;
    this.note = make("p", "talk__note");
    this.notes.append(this.note, make("p", "talk__keys", texts.talk_keys));
    this.dark = button("talk__dark", "", () => this.darken(false));
    this.dark.setAttribute("aria-label", texts.talk_light);
    this.dark.hidden = true;
    this.screen.append(head, picture, side, this.notes, say, bar, this.dark);
    this.layer.append(this.screen);
    document.body.append(this.layer);
    // Its keys hold wherever the focus is: a command that is disabled or hidden loses it.
    this.listening = new AbortController();
    document.addEventListener("keydown", (event) => this.onKey(event),
      { capture: true, signal: this.listening.signal });
    this.layer.addEventListener("cancel", (event) => {
      event.preventDefault();
      this.end();
    });
    this.onFull = () => {
      if (!document.fullscreenElement) this.end();
    };
    this.screen.addEventListener("fullscreenchange", this.onFull);
    // What is printed is the plan, whatever is tried: the step on the screen is made anew.
    this.onPrinted = () => this.go(this.at);
    addEventListener("afterprint", this.onPrinted);
  }

  /** The commands that try another crew. */
  trials() {
    const { texts } = this.talk;
    const group = make("div", "talk__try");
    group.setAttribute("role", "group");
    group.setAttribute("aria-label", texts.talk_try);
    for (const [sign, key, act] of /** @type {[string, string, () => void][]} */ ([
      ["−1", "talk_fewer", () => this.users(false)],
      ["+1", "talk_more", () => this.users(true)],
      ["◀", "talk_left", () => this.shift(false)],
      ["▶", "talk_right", () => this.shift(true)],
    ])) {
      const made = button("talk__button talk__button--sign", "", act);
      made.append(make("span", "unseen", `${texts[key]} `), sign);
      made.title = texts[key];
      group.append(made);
    }
    this.planned = button("talk__button", texts.talk_planned, () => this.asPlanned());
    this.planned.hidden = true;
    group.append(this.planned);
    return group;
  }

  /** @param {boolean} more */
  users(more) {
    this.tryOut((whole) => whole.talk_users(this.keys[this.at], more));
  }

  /** @param {boolean} right */
  shift(right) {
    this.tryOut((whole) => whole.talk_place(right));
  }

  asPlanned() {
    this.tryOut((whole) => {
      whole.talk_as_planned();
      return true;
    });
  }

  /**
   * Runs the present step again with another crew, on a copy of the talk's own.
   * @param {(page: import("../../pkg/office.js").Page) => boolean} task
   */
  tryOut(task) {
    const key = this.keys[this.at];
    if (key === CODE || this.trying) return;
    this.stop();
    write(this.live, this.talk.texts.talk_making);
    // It takes a while: first it is said.
    this.trying = setTimeout(() => {
      this.trying = 0;
      let taken = false;
      this.talk.ask((whole) => {
        taken = task(whole);
      });
      this.seek(key, () => {
        this.talk.ask((whole) => {
          this.keys = whole.talk_keys();
        });
        const there = this.keys.indexOf(key);
        this.go(there >= 0 ? there : Math.min(1, this.keys.length - 1));
        if (!taken) write(this.live, `${this.live.textContent} ${this.talk.texts.talk_no_further}`);
      });
    }, 30);
  }

  /**
   * Does something as soon as all that a step needs is solved; what stands there stays until then.
   * @param {string} [key]
   * @param {() => void} [act]
   */
  seek(key = this.sought, act = this.seeks ?? (() => {})) {
    clearTimeout(this.seeking);
    this.sought = key;
    this.seeks = act;
    const lacks = key === CODE ? 0 : this.talk.lacks(key);
    if (lacks) {
      write(this.live, this.talk.texts.talk_making);
      if (lacks === 1) this.seeking = setTimeout(() => this.seek());
      return;
    }
    this.seeks = null;
    act();
    this.prepare();
  }

  /** @param {KeyboardEvent} event */
  onKey(event) {
    // The page under it has keys of its own.
    event.stopPropagation();
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Tab") {
      event.preventDefault();
      this.onTab(event.shiftKey ? -1 : 1);
      return;
    }
    if (!this.dark.hidden && event.key !== "Shift") {
      event.preventDefault();
      if (event.key === "Escape") this.end();
      else this.darken(false);
      return;
    }
    const onButton = /** @type {HTMLElement} */ (event.target).closest("button");
    if (onButton && [" ", "Enter"].includes(event.key)) return;
    if (event.shiftKey && ["ArrowLeft", "ArrowRight"].includes(event.key)) {
      event.preventDefault();
      this.shift(event.key === "ArrowRight");
      return;
    }
    /** @type {Record<string, () => void>} */
    const keys = {
      ArrowRight: () => this.move(1),
      ArrowDown: () => this.move(1),
      PageDown: () => this.move(1),
      Enter: () => this.move(1),
      ArrowLeft: () => this.move(-1),
      ArrowUp: () => this.move(-1),
      PageUp: () => this.move(-1),
      Home: () => this.go(0),
      End: () => this.go(this.keys.length - 1),
      " ": () => this.toggle(),
      b: () => this.darken(true),
      B: () => this.darken(true),
      ".": () => this.darken(true),
      "+": () => this.users(true),
      "-": () => this.users(false),
      0: () => this.asPlanned(),
      n: () => this.toggleNotes(),
      N: () => this.toggleNotes(),
      Escape: () => this.end(),
    };
    const act = keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  /**
   * To the next of the commands in sight, from the last to the first: the focus stays on the screen.
   * @param {1 | -1} way
   */
  onTab(way) {
    const all = this.dark.hidden
      ? [...this.screen.querySelectorAll("button")].filter((made) => !made.disabled
        && made.getClientRects().length)
      : [this.dark];
    const at = all.findIndex((made) => made === document.activeElement);
    all.at(at < 0 ? (way - 1) / 2 : (at + way) % all.length)?.focus();
  }

  /** @param {1 | -1} way */
  move(way) {
    const to = this.at + way;
    if (to >= 0 && to < this.keys.length) this.go(to);
  }

  /** @param {number} at */
  go(at) {
    this.at = at;
    this.stop();
    this.seek(this.keys[at], () => this.stand(at));
  }

  /** @param {number} at of a step that is solved */
  stand(at) {
    const isCode = this.keys[at] === CODE;
    this.canvas.hidden = isCode;
    this.code.hidden = !isCode;
    this.back.disabled = at === 0;
    this.next.disabled = at === this.keys.length - 1;
    this.play.disabled = isCode;
    if (isCode) {
      this.showCode();
      return;
    }
    this.talk.ask((whole) => {
      this.step = whole.talk_step(this.keys[at]);
    });
    const step = this.step;
    if (!step) return;
    this.title.textContent = step.title;
    this.job.textContent = step.job;
    this.sentence.textContent = step.sentence;
    this.caution.textContent = step.caution;
    this.edited.textContent = step.edited ?? "";
    this.place.textContent = step.place;
    this.number.textContent = step.number;
    this.number.dataset.kind = step.kind;
    this.number.dataset.mark = step.mark;
    this.word.textContent = step.word;
    this.open.replaceChildren(...step.open.map(({ text, mark }) => {
      const line = make("li", "talk__line", text);
      line.dataset.mark = mark;
      return line;
    }));
    this.open.hidden = !step.open.length;
    this.rows.replaceChildren(...step.rows.flatMap((row) => [
      make("dt", "talk__row-name", row.label), make("dd", "talk__row-value", row.value)]));
    // Under a footroom the rows speak for themselves.
    this.rowsName.hidden = step.rows.length === 0 || step.kind !== "unknown";
    this.note.textContent = step.note;
    this.canvas.setAttribute("aria-label", step.description);
    this.screen.dataset.step = step.key;
    this.play.disabled = !step.plays;
    write(this.live, step.live);
    this.planned.hidden = !step.live;
    this.time_s = 0;
    this.draw();
    if (step.plays) this.start();
  }

  /** The last step: the link as a code for the phones in the room. */
  showCode() {
    this.step = null;
    /** @type {import("../../pkg/office.js").TalkCode | null} */
    let code = null;
    this.talk.ask((whole) => {
      code = whole.talk_code(location.href.split("#")[0]);
    });
    if (!code) return;
    const { title, job, sentence, caution, place, svg, note } =
      /** @type {import("../../pkg/office.js").TalkCode} */ (code);
    this.title.textContent = title;
    this.job.textContent = job;
    this.sentence.textContent = sentence;
    this.caution.textContent = caution;
    this.place.textContent = place;
    this.note.textContent = note;
    this.code.replaceChildren(...(svg ? [drawing(svg)] : []));
    for (const part of [this.edited, this.number, this.word, this.live]) part.textContent = "";
    this.open.hidden = true;
    this.rows.replaceChildren();
    this.rowsName.hidden = true;
    this.screen.dataset.step = CODE;
  }

  toggle() {
    if (!this.step?.plays) return;
    if (this.playing) this.stop();
    else this.start();
  }

  start() {
    const step = this.step;
    if (!step) return;
    if (this.time_s >= step.lowest_time_s) this.time_s = 0;
    this.playing = true;
    this.last_ms = performance.now();
    if (this.lessMotion.matches) this.keyFrames();
    else this.frame = requestAnimationFrame((now) => this.tick(now));
    this.tellPlaying();
    this.draw();
  }

  stop() {
    this.playing = false;
    cancelAnimationFrame(this.frame);
    clearTimeout(this.frame);
    this.tellPlaying();
  }

  tellPlaying() {
    const { texts } = this.talk;
    this.play.textContent = this.playing ? texts.talk_hold : texts.talk_play;
    this.screen.dataset.playing = String(this.playing);
  }

  /** @param {number} now_ms */
  tick(now_ms) {
    if (!this.playing || !this.step) return;
    const passed_s = Math.min(Math.max(now_ms - this.last_ms, 0), 100) / 1000;
    this.last_ms = now_ms;
    this.time_s = Math.min(this.time_s + passed_s * this.step.speed, this.step.lowest_time_s);
    this.draw();
    if (this.time_s >= this.step.lowest_time_s) this.stop();
    else this.frame = requestAnimationFrame((now) => this.tick(now));
  }

  /** The instants of note one after another up to the lowest, without motion between them. */
  keyFrames() {
    this.frame = setTimeout(() => {
      const step = this.step;
      if (!this.playing || !step) return;
      const lowest_s = step.lowest_time_s;
      const next_s = step.marks_s.find((mark_s) => mark_s > this.time_s + 1e-6) ?? lowest_s;
      this.time_s = Math.min(next_s, lowest_s);
      this.draw();
      if (this.time_s >= lowest_s) this.stop();
      else this.keyFrames();
    }, KEY_FRAME_MS);
  }

  /** Gives the type the size that the screen asks for. */
  size() {
    const { clientWidth: width, clientHeight: height } = this.screen;
    if (width < 1 || height < 1) return;
    this.type_px = Page.talk_type_px(width, height);
    this.screen.style.setProperty("--talk-type", `${this.type_px}px`);
    this.screen.style.setProperty("--talk-sentence", String(Page.talk_sentence_ratio()));
    this.draw();
  }

  readTheme() {
    const look = getComputedStyle(this.layer);
    /** @type {Record<string, string>} */
    const theme = { font: look.fontFamily };
    for (const role of ROLES) theme[role] = look.getPropertyValue(`--${role}`).trim();
    return theme;
  }

  draw() {
    if (!this.step || this.seeks || this.type_px === 0) return;
    // Read once a run: reading waits for the styles.
    if (!this.playing || !this.theme) this.theme = this.readTheme();
    const { theme } = this;
    this.screen.dataset.time = String(this.time_s);
    this.talk.views.page.stage.onCanvas(this.canvas, (width, height, ratio) =>
      this.talk.ask((whole) => whole.talk_draw(this.canvas, this.keys[this.at], width, height,
        ratio, this.type_px, this.time_s, theme, this.still)));
  }

  /** The clock. */
  tell() {
    this.clock.textContent = Page.talk_clock((performance.now() - this.began_ms) / 1000);
  }

  /** @param {boolean} dark */
  darken(dark) {
    this.dark.hidden = !dark;
    if (dark) this.dark.focus();
    else this.screen.focus();
  }

  toggleNotes() {
    this.notes.hidden = !this.notes.hidden;
    this.notesButton.setAttribute("aria-expanded", String(!this.notes.hidden));
  }

  end() {
    if (!this.layer.isConnected) return;
    this.stop();
    clearTimeout(this.preparing);
    clearTimeout(this.trying);
    clearTimeout(this.seeking);
    this.talk.ask((whole) => whole.talk_as_planned());
    clearInterval(this.ticking);
    this.resize.disconnect();
    removeEventListener("afterprint", this.onPrinted);
    this.listening.abort();
    this.screen.removeEventListener("fullscreenchange", this.onFull);
    if (document.fullscreenElement) document.exitFullscreen().catch(() => {});
    this.layer.close();
    this.layer.remove();
    this.ended();
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  return new Talk(place, views);
}
