// @ts-check
/**
 * The film: the fall as a video file, recorded in this browser from the frames that the calculation
 * draws. Nothing is sent anywhere.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { make, save, style } from "../../first/elements.js";
import { command } from "../record/command.js";

/** Kinds of files that a browser may write, the first that it can, with their endings. */
const KINDS = [
  ["video/webm;codecs=vp9", "webm"],
  ["video/webm;codecs=vp8", "webm"],
  ["video/webm", "webm"],
  ["video/mp4", "mp4"],
];
const FRAMES_PER_S = 30;
/** Bits in a second: type stays legible. */
const RATE = 4_000_000;

/** What this browser can write; undefined: nothing. */
function kind() {
  if (!("MediaRecorder" in globalThis) || !HTMLCanvasElement.prototype.captureStream) return undefined;
  return KINDS.find(([type]) => MediaRecorder.isTypeSupported(type));
}

class Film {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    this.views = views;
    this.place = place;
    style("page/explain/film.css");
    /** Its length, s; not a number: there is no result. */
    this.film_s = NaN;
    /** @type {MediaRecorder | null} */
    this.recorder = null;
    /** All of it was recorded. */
    this.whole = false;
    this.passed_s = 0;
    this.last_ms = 0;
    this.canvas = make("canvas", "film__canvas");
    this.canvas.setAttribute("role", "img");
    this.canvas.getContext("2d", { alpha: false });
    this.note = make("p", "panel__note");
    this.make = command("", () => this.start(), "button--main");
    this.make.id = "film-make";
    this.halt = command("", () => this.stop());
    this.halt.id = "film-stop";
    this.progress = make("progress", "film__progress");
    this.progress.max = 1;
    this.said = make("p", "film__said");
    this.said.setAttribute("role", "status");
    const row = make("div", "group__tools");
    row.append(this.make, this.halt, this.progress);
    place.append(this.note, row, this.said, this.canvas);
    place.closest("details")?.addEventListener("toggle", (event) => {
      if (!(/** @type {HTMLDetailsElement} */ (event.target).open)) this.stop();
    });
    document.addEventListener("visibilitychange", () => this.rest());
    views.page.stage.also(() => {
      if (place.checkVisibility() && !this.recorder) this.last();
    }, place);
  }

  /** @param {string} key */
  text(key) {
    return this.views.page.texts()[key] ?? "";
  }

  /** The case has changed, or its words: another film. */
  refresh() {
    this.stop();
    this.views.ask((whole) => {
      this.film_s = whole.film_duration_s();
    });
    this.note.textContent = this.text("film_note");
    this.make.textContent = this.text("film_make");
    this.halt.textContent = this.text("film_stop");
    this.progress.setAttribute("aria-label", this.text("film_making"));
    this.canvas.setAttribute("aria-label", this.text("film_frame"));
    this.say(this.film_s > 0 ? (kind() ? "" : "film_none") : "talk_no_result");
    this.make.disabled = !(this.film_s > 0) || !kind();
    this.show();
    this.last();
  }

  /** Its last frame, as the picture of it. */
  last() {
    if (this.film_s > 0) this.draw(this.film_s);
  }

  /** @param {string} key of a text; empty: nothing is said */
  say(key) {
    this.said.textContent = this.text(key);
  }

  show() {
    const runs = this.recorder !== null;
    this.make.hidden = runs;
    this.halt.hidden = !runs;
    this.progress.hidden = !runs;
    this.canvas.hidden = !(this.film_s > 0);
  }

  /** @param {number} film_s */
  draw(film_s) {
    const { theme } = this.views.page.stage;
    this.views.ask((whole) => whole.film_draw(this.canvas, film_s, theme));
  }

  start() {
    const found = kind();
    if (!found || this.recorder) return;
    const [type, ending] = found;
    this.draw(0);
    const stream = this.canvas.captureStream(FRAMES_PER_S);
    const recorder = new MediaRecorder(stream, { mimeType: type, videoBitsPerSecond: RATE });
    /** @type {Blob[]} */
    const parts = [];
    recorder.addEventListener("dataavailable", ({ data }) => {
      if (data.size) parts.push(data);
    });
    recorder.addEventListener("error", () => {
      if (this.recorder === recorder) this.stop();
      this.say("film_failed");
    });
    recorder.addEventListener("stop", () => {
      for (const track of stream.getTracks()) track.stop();
      if (!this.whole || !parts.length) return;
      const file = new Blob(parts, { type: type.split(";")[0] });
      this.views.ask((whole) => save(whole.film_name(ending), file));
      this.say("film_done");
    });
    this.recorder = recorder;
    this.whole = false;
    this.passed_s = 0;
    this.last_ms = performance.now();
    this.say("film_making");
    this.show();
    recorder.start();
    requestAnimationFrame((now) => this.tick(now, recorder));
  }

  /**
   * @param {number} now_ms
   * @param {MediaRecorder} recorder
   */
  tick(now_ms, recorder) {
    const { film_s } = this;
    if (this.recorder !== recorder) return;
    // A page that was out of sight goes on where it was.
    if (recorder.state === "recording") {
      this.passed_s += Math.min(Math.max(now_ms - this.last_ms, 0), 250) / 1000;
    }
    this.last_ms = now_ms;
    this.draw(Math.min(this.passed_s, film_s));
    this.progress.value = this.passed_s / film_s;
    if (this.passed_s < film_s) {
      requestAnimationFrame((now) => this.tick(now, recorder));
      return;
    }
    this.whole = true;
    this.stop();
  }

  /** Out of sight no frame is drawn, so none is recorded. */
  rest() {
    const { recorder } = this;
    if (!recorder || recorder.state === "inactive") return;
    if (document.hidden) recorder.pause();
    else recorder.resume();
  }

  /** Ends the recording; one that is not whole is thrown away. */
  stop() {
    const { recorder } = this;
    if (!recorder) return;
    this.recorder = null;
    if (recorder.state !== "inactive") recorder.stop();
    this.say("");
    this.show();
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  const film = new Film(place, views);
  return { refresh: () => film.refresh() };
}
