// @ts-check
/**
 * The searches for the worst timing and the worst places: made beside the page in steps, so that it
 * is seen how far they are, and they can be stopped.
 *
 * @typedef {import("../../pkg/office.js").Searched} Searched
 * @typedef {import("../views.js").Views} Views
 */
import { element } from "../../first/elements.js";

const OWNER = "search";
const KINDS = ["delay", "places"];

/** @param {string} id */
const part = (id) => element(`search-${id}`);

export class Search {
  /** @param {Views} views */
  constructor(views) {
    this.views = views;
    /** The text of the case that the last search found. */
    this.found = "";
    /** The command that began the search on its way. */
    this.begun = "";
    for (const what of KINDS) {
      part(what).addEventListener("click", () => void this.start(what));
      part(what).disabled = false;
    }
    part("stop").addEventListener("click", () => this.stop());
    part("load").addEventListener("click", () => {
      if (this.found) views.page.change((whole) => whole.open_case(this.found));
    });
  }

  /** @param {string} key */
  text(key) {
    return this.views.page.texts()[key] ?? "";
  }

  /** What was found, and what is on its way, belongs to another case. */
  clear() {
    this.drop();
    this.show("");
  }

  /** What is on its way is not wanted any more. */
  drop() {
    if (this.begun) void import("../background.js").then(({ drop }) => drop(OWNER));
  }

  /**
   * What a search has come to, or nothing.
   * @param {string} said
   * @param {string} [found] text of a case
   */
  show(said, found = "") {
    part("run").hidden = true;
    part("result").textContent = said;
    this.found = found;
    part("load").hidden = !found;
    this.begun = "";
  }

  stop() {
    const begun = part(this.begun);
    this.drop();
    this.show(this.text("search_stopped"));
    begun?.focus();
  }

  /** @param {string} what */
  async start(what) {
    const subject = this.views.subject();
    if (!subject) return;
    this.clear();
    this.begun = what;
    const bar = part("progress");
    bar.removeAttribute("value");
    part("step").textContent = this.text("search_running");
    part("run").hidden = false;
    // What was pressed stands still; the way to stop comes into view.
    part("run").scrollIntoView({ block: "nearest" });
    const { ask } = await import("../background.js");
    // It was stopped, or another one begun, before it could begin.
    if (this.begun !== what) return;
    ask({
      owner: OWNER, subject, method: "search", args: [what], long: true,
      progress: (/** @type {Searched} */ { made, of, sentence }) => {
        bar.max = of;
        bar.value = made;
        part("step").textContent = sentence;
      },
      failed: () => this.show(this.text("fit_failed")),
      done: (/** @type {Searched | null} */ searched) => {
        const held = document.activeElement === part("stop");
        this.show(searched?.sentence ?? this.text("fit_failed"), searched?.case_text);
        if (held) part(what).focus();
        part("result").scrollIntoView({ block: "nearest" });
      },
    });
  }
}
