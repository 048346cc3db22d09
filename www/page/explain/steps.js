// @ts-check
/**
 * The steps from one footroom to another: a bar for each cause, a sentence for each bar, and the
 * numbers as a table. They are computed beside the page.
 *
 * @typedef {import("../../pkg/office.js").WhyView} WhyView
 * @typedef {import("../background.js").Subject} Subject
 */
import { ask, drop } from "../background.js";
import { make, style } from "../../first/elements.js";
import { asBlocks, scrolled, table } from "../../first/table.js";

export class Steps {
  /**
   * @param {string} owner of the tasks
   * @param {(key: string) => string} text
   */
  constructor(owner, text) {
    style("page/explain/why.css");
    this.owner = owner;
    this.text = text;
    this.place = make("div", "why");
    /** Hears why, in one sentence; nothing while that is computed. @type {(brief: string) => void} */
    this.told = () => {};
  }

  /** @param {string} text, or the key of a text */
  say(text) {
    drop(this.owner);
    const words = status(this.text(text) || text);
    this.put([words]);
    this.told(words.textContent ?? "");
  }

  /** @param {HTMLElement[]} parts */
  put(parts) {
    this.place.replaceChildren(...parts);
    this.place.dataset.state = "whole";
  }

  /**
   * @param {Subject} subject
   * @param {string} method
   * @param {string[]} args
   * @param {{none: string, same: string}} keys of what is said when there is nothing to start from,
   *   and when nothing differs
   */
  compute(subject, method, args, { none, same }) {
    drop(this.owner);
    delete this.place.dataset.state;
    // What was there before stays until the new comes.
    if (!this.place.childElementCount) this.place.append(status(this.text("fit_running")));
    this.told("");
    ask({
      owner: this.owner, subject, method, args, long: true,
      failed: () => this.say("fit_failed"),
      done: (/** @type {WhyView | null} */ view) => {
        if (view?.unknown) this.say(view.unknown);
        else if (view && view.steps.length > 2) {
          this.put(parts(view));
          this.told(view.brief);
        }
        else this.say(view ? same : none);
      },
    });
  }
}

/** @param {string} text */
function status(text) {
  const words = make("p", "why__status", text);
  words.setAttribute("role", "status");
  return words;
}

/** @param {WhyView} view */
function parts(view) {
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
  const numbers = table(view.table);
  numbers.classList.add("why__table");
  asBlocks(numbers);
  const shown = [make("h3", "group__heading", view.heading), list,
    scrolled(numbers, view.table.caption)];
  if (view.note) shown.push(make("p", "panel__note", view.note));
  return shown;
}
