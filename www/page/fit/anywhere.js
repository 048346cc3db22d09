// @ts-check
/**
 * The third line of the answer: the worst anywhere on the line and whoever falls, looked for beside
 * the page after each change.
 *
 * @typedef {import("../../pkg/office.js").Looked} Looked
 * @typedef {import("../views.js").Views} Views
 */
import { element, write } from "../../first/elements.js";

const OWNER = "anywhere";
/** Who types changes the case again, ms. */
const AFTER_MS = 60;

export class Anywhere {
  /** @param {Views} views */
  constructor(views) {
    this.views = views;
    /** The case that was looked at, or is. */
    this.of = "";
    this.timer = 0;
    this.begun = false;
    element("show-worst").addEventListener("click", () =>
      views.page.change((whole) => whole.show_worst()));
  }

  /** The case has changed, or its words. */
  refresh() {
    const subject = this.views.subject();
    const of = this.views.view?.valid && subject ? subject[0] : "";
    if (of === this.of) {
      this.tell();
      return;
    }
    this.of = of;
    clearTimeout(this.timer);
    if (this.begun) void import("../background.js").then(({ drop }) => drop(OWNER));
    this.begun = false;
    if (subject && of) this.timer = setTimeout(() => void this.look(subject, of), AFTER_MS);
  }

  /** What was tried, and in the views about the falls as given that the worst is elsewhere. */
  tell() {
    this.views.ask((whole) => {
      write(element("anywhere-note"), whole.anywhere_note());
      const elsewhere = whole.elsewhere();
      for (const place of document.querySelectorAll(".elsewhere")) write(place, elsewhere);
    });
  }

  /**
   * @param {[string, string, string]} subject
   * @param {string} of
   */
  async look(subject, of) {
    const { ask } = await import("../background.js");
    if (of !== this.of) return;
    this.begun = true;
    ask({
      owner: OWNER, subject, method: "anywhere", args: [], long: false,
      progress: () => {},
      // Without numbers: it could not be looked for.
      done: (/** @type {Looked | null} */ looked) => {
        if (of !== this.of) return;
        this.begun = false;
        this.views.ask((whole) => {
          if (!whole.take_anywhere(new Float64Array(looked?.numbers ?? []))) return;
          this.views.page.answered();
          this.tell();
        });
      },
    });
  }
}
