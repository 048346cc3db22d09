// @ts-check
/**
 * The stage: sizes the canvases, runs the clock, and asks the calculation to draw.
 *
 * @typedef {Omit<import("../pkg/footroom.js").Page, "take_link">} Page what both modules have of it
 * @typedef {import("../pkg/footroom.js").View} View
 */
import { element } from "./elements.js";
import { readTheme, watchTheme } from "./theme.js";

/**
 * Whatever else shows the instant: it is drawn with the drop.
 * @typedef {{draw: (stage: Stage) => void, drawAll: (stage: Stage) => void}} Follower
 */

/** One step of the step buttons, s. */
const STEP_S = 0.02;
/** One step with Shift, s. */
const LONG_STEP_S = 0.1;
/** Time for which each key frame stands when less motion is wanted, ms. */
const KEY_FRAME_MS = 1400;
/** Time after the end of the traces at which all hang still, s: past the end says so. */
const HANGING_AFTER_S = 1;

/** Width and height of the drop on paper, CSS px: a sheet has room that a screen may not have. */
const PAPER_PX = /** @type {[number, number]} */ ([760, 360]);

export class Stage {
  /**
   * @param {(task: (page: Page) => void) => void} ask runs a task on the page, or reports its end
   * @param {(time_s: number, settled: boolean) => void} moved tells that another instant is shown
   */
  constructor(ask, moved) {
    this.ask = ask;
    this.moved = moved;
    this.time_s = 0;
    this.duration_s = 3;
    this.lowest_s = 0;
    /** @type {number[]} */
    this.marks_s = [];
    this.speed = 0.25;
    this.playing = false;
    /** @type {"lowest" | "hanging" | null} What stays in view when the case changes. */
    this.held = "lowest";
    this.theme = readTheme();
    this.frame = 0;
    this.last_ms = 0;
    this.ticks = 0;
    this.lessMotion = matchMedia("(prefers-reduced-motion: reduce)");
    this.least_ratio = 1;
    /** @type {HTMLCanvasElement} */
    this.scene = element("scene");
    /** Keeps what stands still in the drop; nobody sees it. */
    this.back = document.createElement("canvas");
    // Both are covered whole: nothing behind them has to be mixed in.
    for (const canvas of [this.scene, this.back]) canvas.getContext("2d", { alpha: false });
    /** @type {Follower[]} */
    this.followers = [];
    /** @type {Map<Element, [number, number]>} Sizes as last laid out: to ask lays out the page. */
    this.sizes = new Map();
    this.watched = new ResizeObserver((entries) => {
      for (const { target } of entries) this.measure(target);
    });
    this.watch(this.scene);
    const observer = new ResizeObserver(() => this.drawAll());
    observer.observe(this.scene);
    watchTheme(() => this.repaint());
    this.back.addEventListener("contextrestored", () => this.repaint());
    addEventListener("beforeprint", () => this.forPaper(true));
    addEventListener("afterprint", () => this.forPaper(false));
  }

  /**
   * Takes over length, marks and lowest point of the view and draws the drop; what is held stays
   * held. Whatever else shows the instant waits for [showFollowers].
   * @param {View} view
   */
  load(view) {
    this.duration_s = view.duration_s;
    this.lowest_s = view.lowest_time_s;
    this.marks_s = view.marks.map((mark) => mark.time_s).sort((a, b) => a - b);
    const scrub = element("scrub");
    scrub.max = String(this.duration_s);
    const layer = element("marks");
    layer.replaceChildren();
    for (const mark of [...view.marks, { time_s: this.lowest_s, label: "" }]) {
      const tick = document.createElement("span");
      const lowest = mark.time_s === this.lowest_s && mark.label === "";
      tick.className = lowest ? "player__mark player__mark--lowest" : "player__mark";
      tick.style.left = `${(100 * mark.time_s) / Math.max(this.duration_s, 0.001)}%`;
      layer.append(tick);
    }
    if (this.held === "lowest") this.time_s = this.lowest_s;
    if (this.held === "hanging") this.time_s = this.duration_s + HANGING_AFTER_S;
    if (!this.held) this.time_s = Math.min(this.time_s, this.duration_s);
    this.drawScene();
    this.tell(!this.playing);
  }

  play() {
    if (this.playing) return this.pause();
    if (this.held || this.time_s >= this.duration_s) this.time_s = 0;
    this.held = null;
    this.playing = true;
    this.last_ms = performance.now();
    this.ticks = 0;
    if (this.lessMotion.matches) this.keyFrames();
    else this.frame = requestAnimationFrame((now) => this.tick(now));
    this.show(false);
  }

  pause() {
    this.playing = false;
    cancelAnimationFrame(this.frame);
    clearTimeout(this.frame);
    this.show(true);
  }

  /** @param {number} now_ms */
  tick(now_ms) {
    if (!this.playing) return;
    // A tab that slept goes on where it was instead of leaping.
    const passed_s = Math.min(now_ms - this.last_ms, 100) / 1000;
    this.last_ms = now_ms;
    this.time_s += passed_s * this.speed;
    if (this.time_s >= this.duration_s) {
      this.toHanging();
      return;
    }
    this.show(false);
    this.frame = requestAnimationFrame((now) => this.tick(now));
  }

  /** Shows the marked instants one after another, without motion between them. */
  keyFrames() {
    const next = this.marks_s.find((mark_s) => mark_s > this.time_s + 1e-6);
    this.frame = setTimeout(() => {
      if (!this.playing) return;
      if (next === undefined) {
        this.toHanging();
        return;
      }
      this.time_s = next;
      this.ticks = 0;
      this.show(false);
      this.keyFrames();
    }, KEY_FRAME_MS);
  }

  /** @param {number} time_s */
  goTo(time_s) {
    this.held = null;
    this.time_s = Math.min(Math.max(time_s, 0), this.duration_s);
    this.pause();
  }

  /**
   * @param {1 | -1} way
   * @param {boolean} long
   */
  step(way, long = false) {
    this.goTo(Math.min(this.time_s, this.duration_s) + way * (long ? LONG_STEP_S : STEP_S));
  }

  toLowest() {
    this.held = "lowest";
    this.time_s = this.lowest_s;
    this.pause();
  }

  toHanging() {
    this.held = "hanging";
    this.time_s = this.duration_s + HANGING_AFTER_S;
    this.pause();
  }

  /** @param {boolean} settled */
  show(settled) {
    this.draw();
    this.tell(settled);
  }

  /**
   * Tells what the instant is.
   * @param {boolean} settled
   */
  tell(settled) {
    // While it plays, the read-outs change ten times a second at most: more cannot be read. The
    // slider moves every third time: each move of it lays the page out anew.
    this.ticks += 1;
    if (settled || this.ticks % 6 === 1) this.moved(this.time_s, settled);
    if (settled || this.ticks % 3 === 1) {
      element("scrub").value = String(Math.min(this.time_s, this.duration_s));
    }
  }

  /** Takes the colours anew and draws. */
  repaint() {
    this.theme = readTheme();
    this.drawAll();
  }

  /** @param {boolean} paper */
  forPaper(paper) {
    const root = document.documentElement;
    if (paper) root.dataset.printing = "";
    else delete root.dataset.printing;
    this.least_ratio = paper ? 3 : 1;
    for (const canvas of this.sizes.keys()) this.measure(canvas);
    if (paper) this.sizes.set(this.scene, PAPER_PX);
    this.repaint();
  }

  /**
   * @param {() => void} drawAll draws other canvases, whose surfaces may be lost, too
   * @param {Element} place whose size they hang on
   */
  also(drawAll, place) {
    this.followers.push({ draw: () => {}, drawAll });
    new ResizeObserver(drawAll).observe(place);
  }

  /** @param {Element} canvas whose size is to be known without asking for it */
  watch(canvas) {
    this.watched.observe(canvas);
  }

  /** @param {Element} canvas that has another size */
  measure(canvas) {
    this.sizes.set(canvas, [canvas.clientWidth, canvas.clientHeight]);
  }

  /**
   * Calls back with the size of a canvas, unless it is out of sight.
   * @param {HTMLCanvasElement} canvas
   * @param {(width: number, height: number, ratio: number) => void} task
   */
  onCanvas(canvas, task) {
    const [width, height] = this.sizes.get(canvas) ?? [canvas.clientWidth, canvas.clientHeight];
    if (width < 1 || height < 1) return;
    task(width, height, Math.max(devicePixelRatio || 1, this.least_ratio));
  }

  /** Draws the instant. */
  draw() {
    this.drawScene();
    for (const follower of this.followers) follower.draw(this);
  }

  drawScene() {
    this.onCanvas(this.scene, (width, height, ratio) => this.ask((whole) => {
      whole.draw_scene(this.scene, width, height, ratio, this.time_s, this.theme, this.back);
    }));
  }

  /** Draws whatever else shows the instant. */
  showFollowers() {
    for (const follower of this.followers) {
      follower.drawAll(this);
      follower.draw(this);
    }
  }

  /** Draws everything, what does not change with the instant too. */
  drawAll() {
    this.drawScene();
    this.showFollowers();
  }
}
