// @ts-check
/**
 * Five questions for a trainee: a guess, what it is, and why. What was answered stays on the device.
 *
 * @typedef {import("../../pkg/office.js").Lesson} Lesson
 * @typedef {import("../views.js").Views} Views
 */
import { ask, drop } from "../background.js";
import { make, style } from "../../first/elements.js";
import { hold, keep } from "../held.js";
import { Late } from "../late.js";

const OWNER = "learn";
const KEY = "learnt";

class Learn extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    this.voice = "";
    /** @type {Set<string>} */
    this.done = new Set();
    /** @type {Map<string, HTMLElement>} Where it says that a lesson was answered. */
    this.marks = new Map();
    const take = (/** @type {string} */ text) => {
      for (const word of text.split(" ").filter(Boolean)) this.done.add(word);
      for (const word of this.done) this.mark(word);
    };
    take(hold(KEY, take) ?? "");
  }

  /**
   * The questions do not depend on the case, only on its language and units.
   * @param {import("../../pkg/footroom.js").View} view
   */
  refresh(view) {
    const voice = `${view.language} ${view.units}`;
    const subject = this.views.subject();
    if (!subject || voice === this.voice) return;
    this.voice = voice;
    drop(OWNER);
    delete this.place.dataset.state;
    this.place.replaceChildren(make("p", "panel__note", this.text("learn_note")));
    this.views.ask((whole) => {
      let left = whole.lessons();
      for (let i = 0; i < whole.lessons(); i += 1) {
        const card = make("section", "lesson");
        card.append(make("p", "panel__note", this.text("fit_running")));
        this.place.append(card);
        ask({
          owner: OWNER, subject, method: "lesson", args: [i], long: false,
          failed: () => card.replaceChildren(make("p", "field__fault", this.text("fit_failed"))),
          done: (/** @type {Lesson | null} */ lesson) => {
            if (lesson) this.fill(card, lesson, i);
            left -= 1;
            if (!left) this.place.dataset.state = "whole";
          },
        });
      }
    });
  }

  /**
   * @param {HTMLElement} card
   * @param {Lesson} lesson
   * @param {number} index
   */
  fill(card, lesson, index) {
    const heading = make("h3", "group__heading", `${index + 1}. ${lesson.title} `);
    const mark = make("span", "panel__of");
    this.marks.set(String(index), mark);
    this.mark(String(index));
    heading.append(mark);
    const label = make("label", "lesson__label", this.text("learn_guess"));
    const words = make("output", "lesson__guess");
    const slider = make("input", "lesson__slider");
    slider.type = "range";
    slider.id = `guess-${index}`;
    label.htmlFor = slider.id;
    slider.min = String(lesson.least_steps);
    slider.max = String(lesson.most_steps);
    slider.value = String(lesson.from_steps);
    const tell = () => this.views.ask((whole) => {
      const text = whole.learn_guess(Number(slider.value));
      words.textContent = text;
      slider.setAttribute("aria-valuetext", text);
    });
    slider.addEventListener("input", tell);
    tell();
    const result = make("div", "lesson__result");
    result.setAttribute("role", "status");
    const about = lesson.title;
    const see = this.button(this.text("learn_see"), () => {
      this.show(lesson.from_text, false);
      this.views.page.stage.scene.scrollIntoView({ block: "nearest" });
    }, { about });
    const go = this.button(this.text("learn_go"), () => {
      if (slider.disabled) {
        slider.disabled = false;
        result.replaceChildren();
        go.firstChild?.replaceWith(this.text("learn_go"));
        slider.focus();
        return;
      }
      slider.disabled = true;
      go.firstChild?.replaceWith(this.text("learn_again"));
      this.views.ask((whole) => result.replaceChildren(
        make("p", "lesson__is", whole.learn_result(Number(slider.value), lesson.to_steps)),
        make("p", "lesson__why", lesson.reason),
        ...lesson.numbers.map((text) => make("p", "lesson__number", text))));
      this.done.add(String(index));
      this.mark(String(index));
      // Only a mark is lost where nothing can be kept.
      void keep(KEY, [...this.done].join(" "));
      this.show(lesson.to_text, true);
      result.scrollIntoView({ block: "nearest" });
    }, { about });
    go.classList.add("button--main");
    const tools = make("div", "group__tools");
    tools.append(see, go);
    card.replaceChildren(heading, make("p", "lesson__question", lesson.question), label, slider,
      words, tools, result);
  }

  /** @param {string} lesson */
  mark(lesson) {
    const mark = this.marks.get(lesson);
    if (mark && this.done.has(lesson)) mark.textContent = `(${this.text("learn_done")})`;
  }

  /**
   * Puts a case on the page, and lets it fall.
   * @param {string} text
   * @param {boolean} fall
   */
  show(text, fall) {
    const { page } = this.views;
    page.change((whole) => whole.open_case(text));
    page.stage.goTo(0);
    if (fall) page.stage.play();
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/explain/learn.css");
  return new Learn(place, views);
}
