// @ts-check
/**
 * The rooms of the page, the doors to them, and the tasks in each: one room is shown, and in it one
 * task. A task is a fold that is open as long as it is looked at, so that nothing is made for the
 * others; a fold that is opened from elsewhere brings its room along. The room travels in the address
 * behind the case: `&room=site`, with a task that is not the first of its room `&room=site.set-up`, and
 * what is to begin there, `&room=explain.talk.start`.
 */
import { element, make } from "./elements.js";

/** In the order of the job; the key of each is its place. */
const ROOMS = ["plan", "decide", "explain", "site", "file"];
/** @type {Record<string, string>} Tasks of earlier addresses, by the one that has taken them in. */
const FORMER = { learn: "guess" };
/** The room of an address that names none. */
const USUAL = "plan";

/** The layout in which a room has the height of the screen, and that in which all parts of the plan
 * have room; the style sheet has the same. */
export const WIDE = matchMedia("(min-width: 68rem) and (min-height: 36rem)");
const HIGH = matchMedia("(min-width: 68rem) and (min-height: 78rem)");

/** @param {string} room */
const roomOf = (room) => /** @type {HTMLElement} */ (element(`room-${room}`));

/** @param {string} room */
const foldsOf = (room) => /** @type {NodeListOf<HTMLDetailsElement>} */ (
  roomOf(room).querySelectorAll(".room__tasks > details"));

/**
 * @param {Element} entry
 * @param {boolean} current
 */
function mark(entry, current) {
  if (current) entry.setAttribute("aria-current", "true");
  else entry.removeAttribute("aria-current");
}

export class Doors {
  /** @param {(anew: boolean) => void} moved another room (anew) or task is shown */
  constructor(moved) {
    this.moved = moved;
    this.room = USUAL;
    /** @type {Map<string, HTMLDetailsElement>} The task of each room that was looked at last. */
    this.tasks = new Map();
    for (const room of ROOMS) {
      element(`door-${room}`).addEventListener("click", () => this.enter(room));
      for (const fold of foldsOf(room)) this.list(room, fold);
    }
    for (const part of this.parts()) {
      part.addEventListener("click", () => this.showPart(part.dataset.part ?? ""));
    }
    element("charts").addEventListener("toggle", () => {
      if (element("charts").open && !HIGH.matches) this.showPart("charts");
    });
    for (const size of [WIDE, HIGH]) size.addEventListener("change", () => this.fit());
    const caution = element("caution-open");
    caution.addEventListener("click", () => {
      caution.ariaExpanded = String(caution.ariaExpanded !== "true");
    });
    this.show(USUAL);
  }

  /** @returns {NodeListOf<HTMLElement>} */
  parts() {
    return element("parts").querySelectorAll("[data-part]");
  }

  /**
   * Puts a task into the list of its room. What its fold is called stands there.
   * @param {string} room
   * @param {HTMLDetailsElement} fold
   */
  list(room, fold) {
    const entry = make("button", "tasks__task");
    entry.type = "button";
    entry.id = `task-${fold.id}`;
    const name = /** @type {HTMLElement} */ (fold.querySelector("summary"));
    // Its words are filled where they stand.
    if (name.dataset.text) entry.dataset.text = name.dataset.text;
    name.removeAttribute("data-text");
    entry.append(...name.childNodes);
    fold.setAttribute("aria-labelledby", entry.id);
    entry.addEventListener("click", () => {
      // What did not come the first time is asked for again.
      if (fold.open && fold.querySelector(".late:empty")) fold.dispatchEvent(new Event("toggle"));
      fold.open = true;
    });
    fold.addEventListener("toggle", () => {
      const current = this.tasks.get(room) === fold && this.room === room;
      if (fold.open && !current) this.opened(room, fold);
      // A task of the room that is shown is closed only by another one.
      else if (!fold.open && current && !roomOf(room).querySelector("details[name=folds][open]")) {
        fold.open = true;
      }
    });
    roomOf(room).querySelector(".tasks")?.append(entry);
  }

  /**
   * Puts a task first in the list of its room, and begins with it where none was looked at yet.
   * @param {HTMLDetailsElement} fold
   */
  lead(fold) {
    const entry = element(`task-${fold.id}`);
    const room = ROOMS.find((name) => roomOf(name).contains(fold)) ?? USUAL;
    if (!entry.previousElementSibling) return;
    entry.parentElement.prepend(entry);
    if (!this.tasks.has(room)) this.tasks.set(room, fold);
  }

  /**
   * @param {string} room
   * @param {HTMLDetailsElement} fold
   */
  opened(room, fold) {
    const anew = this.room !== room;
    this.tasks.set(room, fold);
    this.show(room);
    this.moved(anew);
  }

  /** What the address says of the room; empty for the usual one. */
  part() {
    if (this.room === USUAL) return "";
    const fold = this.tasks.get(this.room);
    const first = foldsOf(this.room)[0];
    return `&room=${this.room}${fold && fold !== first ? `.${fold.id}` : ""}`;
  }

  /**
   * Shows the room that an address names.
   * @param {string} address its fragment
   */
  take(address) {
    const [room, task] = (/&room=([\w.-]+)/.exec(address)?.[1] ?? USUAL).split(".");
    if (!ROOMS.includes(room)) return;
    const fold = [...foldsOf(room)].find(({ id }) => id === (FORMER[task] ?? task));
    if (fold) fold.open = true;
    this.show(room);
  }

  /**
   * Whether the task that an address names is to begin at once.
   * @param {string} address its fragment
   */
  starts(address) {
    return /&room=[\w-]+\.[\w-]+\.start/.test(address);
  }

  /**
   * Goes through a door.
   * @param {string} room
   */
  enter(room) {
    if (room === this.room) return;
    this.show(room);
    this.moved(true);
  }

  /** @param {string} room */
  show(room) {
    const before = this.room;
    this.room = room;
    for (const other of ROOMS) {
      roomOf(other).hidden = other !== room;
      mark(element(`door-${other}`), other === room);
    }
    const folds = [...foldsOf(room)];
    const shown = folds.find((fold) => fold.open) ?? this.tasks.get(room) ?? folds[0];
    if (shown) {
      this.tasks.set(room, shown);
      shown.open = true;
      shown.scrollTop = 0;
    }
    for (const other of ROOMS) {
      for (const fold of foldsOf(other)) {
        if (fold !== shown) fold.open = false;
        mark(element(`task-${fold.id}`), fold === shown);
      }
    }
    if (before !== room && !WIDE.matches) scrollTo(0, 0);
    this.fit();
  }

  /**
   * Shows a part of the plan: on a wide page the line, the crew and the drop always stand.
   * @param {string} part
   */
  showPart(part) {
    const plan = element("room-plan");
    plan.dataset.part = part;
    if (part === "stack" || part === "charts") plan.dataset.side = part;
    this.fit();
  }

  /** The drop goes along where it helps; charts are drawn where they are seen. */
  fit() {
    const beside = this.room === "decide" && WIDE.matches;
    const slot = element(`slot-${beside ? this.room : "plan"}`);
    const drop = element("drop");
    if (drop.parentElement !== slot) slot.append(drop);
    const { dataset } = element("room-plan");
    const part = WIDE.matches ? dataset.side : dataset.part;
    element("charts").open = this.room === "plan" && (HIGH.matches || part === "charts");
    for (const entry of this.parts()) mark(entry, entry.dataset.part === part);
  }

  /**
   * The room that a key opens.
   * @param {string} key
   */
  key(key) {
    const room = ROOMS[Number(key) - 1];
    if (!room) return false;
    this.enter(room);
    roomOf(room).focus({ preventScroll: true });
    return true;
  }
}
