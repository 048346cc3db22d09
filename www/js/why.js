// @ts-check
/**
 * Why two cases differ: a bar for each cause, a sentence for each bar, and the numbers as a table.
 *
 * @typedef {import("../pkg/office.js").WhyView} WhyView
 * @typedef {import("./views.js").Views} Views
 */
import { ask, drop } from "./background.js";
import { make } from "./form.js";
import { read, write } from "./kept.js";
import { Late } from "./late.js";
import { asBlocks, table } from "./table.js";
import { style } from "./views.js";

const OWNER = "why";
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
    this.kept = read(KEY) ?? "";
    this.shown = make("div", "why");
  }

  /** The case has changed, or its words. */
  refresh() {
    const focused = document.activeElement?.id;
    this.place.replaceChildren(this.tools(), this.shown,
      make("p", "panel__note", this.text("why_note")));
    if (focused) document.getElementById(focused)?.focus();
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
    const keep = this.button(this.text("why_keep"), () => this.keep(), { id: "why-keep" });
    tools.append(choice, keep);
    if (this.kept) {
      const load = () => this.views.page.change((desk) => desk.open_case(this.kept));
      tools.append(this.button(this.text("why_load_kept"), load, { id: "why-load" }));
    }
    return tools;
  }

  keep() {
    const subject = this.views.subject();
    if (!subject) return;
    this.kept = subject[0];
    const stored = write(KEY, this.kept);
    this.between = "kept";
    this.refresh();
    this.say(stored ? "why_kept_now" : "why_not_stored");
  }

  /** @param {string} text, or the key of a text */
  say(text) {
    const words = make("p", "why__status", this.text(text) || text);
    words.setAttribute("role", "status");
    this.shown.replaceChildren(words);
    this.shown.dataset.state = "whole";
  }

  compute() {
    drop(OWNER);
    const subject = this.views.subject();
    if (!subject) return;
    if (this.between === "kept" && !this.kept) {
      this.say("why_no_kept");
      return;
    }
    const [method, args] = this.between === "users" ? ["why_users", []] : ["why_kept", [this.kept]];
    delete this.shown.dataset.state;
    ask({
      owner: OWNER, subject, method, args, long: true,
      failed: () => this.say("fit_failed"),
      done: (/** @type {WhyView | null} */ view) => {
        if (view?.unknown) this.say(view.unknown);
        else if (view && view.steps.length > 2) this.show(view);
        else if (this.between === "kept") this.say(view ? "why_same_case" : "why_no_kept");
        else this.say("why_one_user");
      },
    });
  }

  /** @param {WhyView} view */
  show(view) {
    const list = make("ol", "why__steps");
    for (const step of view.steps) {
      const item = make("li", `why__step why__step--${step.kind}`);
      const track = make("span", "why__track");
      track.setAttribute("aria-hidden", "true");
      const zero = make("span", "why__zero");
      zero.style.left = `${view.zero_percent}%`;
      const bar = make("span", "why__bar");
      bar.style.left = `${step.start_percent}%`;
      bar.style.width = `${step.width_percent}%`;
      track.append(bar, zero);
      item.append(make("span", "why__label", step.label), track,
        make("span", "why__amount", step.amount));
      if (step.sentence) item.append(make("p", "why__sentence", step.sentence));
      list.append(item);
    }
    const scroll = make("div", "panel__scroll");
    scroll.tabIndex = 0;
    scroll.setAttribute("role", "region");
    scroll.setAttribute("aria-label", view.table.caption);
    const numbers = table(view.table);
    numbers.classList.add("why__table");
    asBlocks(numbers);
    scroll.append(numbers);
    this.shown.replaceChildren(make("h3", "group__heading", view.heading), list, scroll);
    if (view.note) this.shown.append(make("p", "panel__note", view.note));
    this.shown.dataset.state = "whole";
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("css/why.css");
  return new Why(place, views);
}
