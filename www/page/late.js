// @ts-check
/**
 * What the views have in common that are fetched when they are opened.
 *
 * @typedef {import("./views.js").Views} Views
 */
import { drop } from "./background.js";
import { make } from "../first/elements.js";

export class Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    this.place = place;
    this.views = views;
    /** What is shown: case and voice, so that the same is not computed again. */
    this.subject = "";
  }

  /** @param {string} key */
  text(key) {
    return this.views.page.texts()[key] ?? "";
  }

  /**
   * What is computed for a fold that was closed meanwhile is not wanted.
   * @param {string} owner of the tasks
   */
  dropWhenClosed(owner) {
    const fold = this.place.closest("details");
    fold?.addEventListener("toggle", () => {
      if (fold.open) return;
      drop(owner);
      this.subject = "";
    });
  }

  /**
   * @param {string} text
   * @param {() => void} act
   * @param {{id?: string, about?: string}} [more] `about`: said after the text, to tell buttons with
   *   the same text apart
   */
  button(text, act, { id, about } = {}) {
    const button = make("button", "button", text);
    button.type = "button";
    if (id) button.id = id;
    if (about) button.append(make("span", "unseen", `: ${about}`));
    button.addEventListener("click", act);
    return button;
  }
}
