// @ts-check
/**
 * Moving things in the drop itself: by a pointer, and by keys on a handle a thing. The
 * calculation says what is hit and what a move means; here events are only handed on.
 *
 * @typedef {import("../../pkg/office.js").Handle} Handle
 * @typedef {import("../views.js").Views} Views
 */
import { make, style } from "../../first/elements.js";

/**
 * What is being dragged.
 * @typedef {object} Grab
 * @property {Handle} handle as it was when the drag began
 * @property {number} x_px where it began
 * @property {number} y_px
 * @property {boolean} begins nothing has been changed yet
 */

export class Handles {
  /** @param {Views} views */
  constructor(views) {
    this.views = views;
    style("page/plan/handles.css");
    const { stage } = views.page;
    this.scene = stage.scene;
    this.layer = make("div", "handles");
    this.layer.setAttribute("role", "group");
    this.help = make("p", "unseen");
    this.help.id = "handles-help";
    /** Name and value of what is held or pointed at, for the eye. */
    this.told = make("p", "handles__told");
    this.told.setAttribute("aria-hidden", "true");
    this.scene.after(this.layer, this.help, this.told);
    /** @type {Handle[]} */
    this.list = [];
    this.key = "";
    /** Which frame of the drawing the handles were put into; 0: none. */
    this.drawn = 0;
    /** @type {Grab | null} */
    this.grab = null;
    /** @type {PointerEvent | null} */
    this.moved = null;
    stage.followers.push({ draw: () => this.follow(), drawAll: () => {} });
    // The drawing is asked for only when all followers have drawn, so they see the one before it.
    new ResizeObserver(() => requestAnimationFrame(() => this.follow())).observe(this.scene);
    this.scene.addEventListener("pointerdown", (event) => this.take(event));
    this.scene.addEventListener("pointermove", (event) => this.move(event));
    this.scene.addEventListener("pointerup", () => this.drop());
    this.scene.addEventListener("pointercancel", () => this.drop());
    this.scene.addEventListener("pointerleave", () => this.hint(null));
    this.scene.addEventListener("touchstart", (event) => {
      // A finger on a handle moves it; anywhere else it scrolls the page.
      if (this.grab) event.preventDefault();
    }, { passive: false });
  }

  get dragging() {
    return this.grab !== null;
  }

  /** The case has changed, or its words. */
  refresh() {
    this.drawn = 0;
    this.follow();
  }

  /** Puts the handles where the drawing has their things. */
  follow() {
    if (this.grab) return;
    let drawn = 0;
    this.views.ask((whole) => {
      drawn = whole.frame_turn();
    });
    if (drawn === this.drawn || drawn === 0) return;
    this.drawn = drawn;
    const texts = this.views.page.texts();
    this.layer.setAttribute("aria-label", texts.direct_heading ?? "");
    this.help.textContent = texts.direct_help ?? "";
    this.views.ask((whole) => {
      this.list = whole.handles();
    });
    const keys = this.list.map((handle) => handle.key);
    if (!keys.includes(this.key)) this.key = keys[0] ?? "";
    const old = [...this.layer.children].map((child) => child.getAttribute("data-handle"));
    if (old.join() !== keys.join()) this.layer.replaceChildren(...keys.map((key) => this.one(key)));
    for (const handle of this.list) this.place(handle);
  }

  /** @param {string} key */
  one(key) {
    const made = make("div", "handle");
    made.dataset.handle = key;
    made.setAttribute("role", "slider");
    made.setAttribute("aria-describedby", this.help.id);
    made.addEventListener("keydown", (event) => this.onKey(event, key));
    made.addEventListener("focus", () => {
      this.key = key;
      for (const handle of this.list) this.place(handle);
      this.tell(key);
    });
    made.addEventListener("blur", () => this.tell(""));
    return made;
  }

  /** @param {string} key */
  element(key) {
    return /** @type {HTMLElement | null} */ (this.layer.querySelector(`[data-handle="${key}"]`));
  }

  /** @param {Handle} handle */
  place(handle) {
    const made = this.element(handle.key);
    if (!made) return;
    made.style.left = `${handle.x_px}px`;
    made.style.top = `${handle.y_px}px`;
    made.classList.toggle("handle--along", handle.along);
    // One stop of the tab key; the page keys go from one to the next.
    made.tabIndex = handle.key === this.key ? 0 : -1;
    if (document.activeElement === made || this.grab) this.tell(handle.key, handle);
    made.setAttribute("aria-label", handle.name);
    made.setAttribute("aria-valuetext", handle.value);
    made.setAttribute("aria-valuenow", String(handle.now_m));
    made.setAttribute("aria-valuemin", String(handle.min_m));
    made.setAttribute("aria-valuemax", String(handle.max_m));
    made.setAttribute("aria-orientation", handle.along ? "horizontal" : "vertical");
  }

  /**
   * @param {string} key
   * @param {Handle} [handle]
   */
  tell(key, handle = this.list.find((other) => other.key === key)) {
    this.told.textContent = handle ? `${handle.name}: ${handle.value}` : "";
  }

  /**
   * @param {KeyboardEvent} event
   * @param {string} key
   */
  onKey(event, key) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    /** @type {Record<string, number>} */
    const steps = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };
    /** @type {Record<string, number>} */
    const others = { PageDown: 1, PageUp: -1 };
    if (event.key in others) {
      const keys = this.list.map((handle) => handle.key);
      const to = (keys.indexOf(key) + others[event.key] + keys.length) % keys.length;
      this.element(keys[to])?.focus();
    } else if (event.key in steps) {
      this.change((whole) => whole.handle_step(key, steps[event.key], event.shiftKey));
    } else {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  }

  /** @param {(page: import("../../pkg/office.js").Page) => Handle | null} task moves a handle */
  change(task) {
    /** @type {Handle | null} */
    let moved = null;
    this.views.page.change((whole) => {
      moved = task(whole);
    });
    const to = /** @type {Handle | null} */ (moved);
    if (!to) return;
    this.list = this.list.map((handle) => (handle.key === to.key ? to : handle));
    if (this.grab) this.place(to);
  }

  /**
   * What lies under the pointer.
   * @param {PointerEvent} event
   * @returns {Handle | null}
   */
  under(event) {
    /** @type {Handle | null} */
    let found = null;
    this.views.ask((whole) => {
      found = whole.handle_at(event.offsetX, event.offsetY, event.pointerType === "touch");
    });
    return found;
  }

  /**
   * Shows what a press of the pointer would take hold of.
   * @param {Handle | null} handle
   * @param {boolean} [over] the pointer is over the drawing: without a handle it is said what has one
   */
  hint(handle, over = false) {
    for (const made of this.layer.children) {
      made.classList.toggle("handle--near",
        handle !== null && made.getAttribute("data-handle") === handle.key);
    }
    const focus = document.activeElement?.getAttribute("data-handle") ?? "";
    this.tell(handle?.key ?? focus, handle ?? undefined);
    if (over && !this.told.textContent) {
      this.told.textContent = this.views.page.texts().direct_hint ?? "";
    }
    this.scene.style.cursor = !handle ? "" : handle.along ? "ew-resize" : "ns-resize";
  }

  /** @param {PointerEvent} event */
  take(event) {
    if (event.button !== 0 || this.grab) return;
    /** @type {Handle | null} */
    let taken = null;
    this.views.ask((whole) => {
      taken = whole.handle_take(event.offsetX, event.offsetY, event.pointerType === "touch");
    });
    const handle = /** @type {Handle | null} */ (taken);
    if (!handle) return;
    this.views.page.stage.pause();
    this.hint(handle);
    this.grab = { handle, x_px: event.offsetX, y_px: event.offsetY,
      begins: true };
    this.scene.setPointerCapture(event.pointerId);
    event.preventDefault();
  }

  /** @param {PointerEvent} event */
  move(event) {
    if (!this.grab) {
      if (event.pointerType !== "touch") this.hint(this.under(event), true);
      return;
    }
    // One change a frame, however often the pointer tells.
    const waiting = this.moved !== null;
    this.moved = event;
    if (!waiting) requestAnimationFrame(() => this.drag());
  }

  drag() {
    const { grab, moved } = this;
    this.moved = null;
    if (!grab || !moved) return;
    grab.begins = false;
    this.change((whole) =>
      whole.handle_drag(moved.offsetX - grab.x_px, moved.offsetY - grab.y_px));
  }

  drop() {
    if (!this.grab) return;
    this.drag();
    const { begins, handle } = this.grab;
    this.grab = null;
    this.views.ask((whole) => whole.handle_drop());
    this.hint(null);
    // A press without a move only takes the keys there.
    this.key = handle.key;
    if (!begins) this.views.page.change(() => {});
    this.element(handle.key)?.focus({ preventScroll: true });
  }
}
