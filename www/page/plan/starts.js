// @ts-check
/**
 * What one can start with: a line of one's own, and the last cases, which the device keeps.
 *
 * @typedef {import("../views.js").Views} Views
 * @typedef {[name: string, link: string]} Kept
 */
import { element, make } from "../../first/elements.js";
import { read, write } from "../../first/kept.js";

const KEY = "cases";
const MOST = 8;

/** @returns {Kept[]} */
function kept() {
  try {
    const list = JSON.parse(read(KEY) ?? "[]");
    const good = (/** @type {any} */ one) => Array.isArray(one) && one.length === 2
      && one.every((part) => typeof part === "string");
    return Array.isArray(list) ? list.filter(good).slice(0, MOST) : [];
  } catch {
    return [];
  }
}

export class Starts {
  /** @param {Views} views */
  constructor(views) {
    this.views = views;
    /** Links of the cases that stood there when the page was opened, and of those kept here. */
    this.known = new Set(kept().map(([, link]) => link));
    const own = element("own");
    own.disabled = false;
    own.addEventListener("click", () => {
      this.keep();
      views.page.change((whole) => whole.own_line());
    });
    // Before the example takes its place.
    element("demo").addEventListener("click", () => this.keep(), { capture: true });
    const list = element("cases");
    list.addEventListener("change", () => {
      const [, link] = kept()[list.selectedIndex - 1] ?? [];
      if (!link) return;
      this.keep();
      views.page.change((whole) => whole.open_link(link));
      this.show();
    });
    addEventListener("pagehide", () => this.keep());
    this.show();
  }

  /** Keeps the shown case among the last ones, unless it is the example or as it was opened. */
  keep() {
    const { view } = this.views;
    if (!view?.valid || view.blank || view.invented_note || !view.can_undo) return;
    let link = "";
    this.views.ask((whole) => {
      link = whole.link();
    });
    if (!link) return;
    const name = [view.title, view.answer.headline].filter(Boolean).join(": ");
    // Of one name the latest stays, but what another tab has kept meanwhile is not this one's.
    const others = kept().filter(([other, same]) => same !== link
      && !(view.title && this.known.has(same) && other.startsWith(`${view.title}: `)));
    this.known.add(link);
    /** @type {Kept[]} */
    const list = [[name, link], ...others];
    write(KEY, JSON.stringify(list.slice(0, MOST)));
    this.show();
  }

  /** The list, with its name as what is chosen. */
  show() {
    const list = element("cases");
    const cases = kept();
    list.hidden = !cases.length;
    list.replaceChildren(...[element("cases-label").textContent, ...cases.map(([name]) => name)]
      .map((name) => make("option", "", name)));
    list.selectedIndex = 0;
  }
}
