// @ts-check
/**
 * Why two cases differ: one user and all of the crew, or a kept case and the present one.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { element, make } from "../../first/elements.js";
import { hold, keep } from "../held.js";
import { Late } from "../late.js";
import { Steps } from "./steps.js";

const KEY = "kept-case";

class Why extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    /** @type {"users" | "kept"} */
    this.between = "users";
    // Another tab's is the latest, too: it takes the place of this one's, here as well.
    this.kept = hold(KEY, (now) => {
        this.kept = now;
        if (this.place.closest("details")?.open) this.refresh();
      }) ?? "";
    this.steps = new Steps("why", (key) => this.text(key));
  }

  /** The case has changed, or its words. */
  refresh() {
    const focused = document.activeElement?.id;
    this.place.replaceChildren(this.tools(), this.steps.place,
      make("p", "elsewhere"), make("p", "panel__note", this.text("why_note")));
    this.views.anywhere.tell();
    if (focused) element(focused)?.focus();
    this.compute();
  }

  tools() {
    const tools = make("div", "group__tools");
    const choice = make("fieldset", "player__speeds");
    choice.append(make("legend", "unseen", this.text("why_choice")));
    for (const [value, key] of /** @type {["users" | "kept", string][]} */ ([
      ["users", "why_by_users"], ["kept", "why_by_kept"]])) {
      const label = make("label", "choice");
      const input = make("input", "choice__input");
      input.type = "radio";
      input.name = "why-between";
      input.id = `why-${value}`;
      input.checked = this.between === value;
      input.addEventListener("change", () => {
        this.between = value;
        this.compute();
      });
      label.append(input, make("span", "choice__face", this.text(key)));
      choice.append(label);
    }
    const keep = this.button(this.text("why_keep"), () => void this.keep(), { id: "why-keep" });
    tools.append(choice, keep);
    if (this.kept) {
      const load = () => this.views.page.change((whole) => whole.open_case(this.kept));
      tools.append(this.button(this.text("why_load_kept"), load, { id: "why-load" }));
    }
    return tools;
  }

  async keep() {
    const subject = this.views.subject();
    if (!subject) return;
    this.kept = subject[0];
    const stored = await keep(KEY, this.kept);
    this.between = "kept";
    this.refresh();
    this.steps.say(stored ? "why_kept_now" : "why_not_stored");
  }

  compute() {
    const subject = this.views.subject();
    if (!subject) return;
    if (this.between === "users") {
      this.steps.compute(subject, "why_users", [], { none: "why_one_user", same: "why_one_user" });
    } else if (this.kept) {
      this.steps.compute(subject, "why_kept", [this.kept],
        { none: "why_no_kept", same: "why_same_case" });
    } else {
      this.steps.say("why_no_kept");
    }
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  return new Why(place, views);
}
