// @ts-check
/**
 * Force and tension against time: two charts that follow the stage, what they say of the instant or
 * of where the pointer is, and their numbers as tables.
 *
 * @typedef {import("../../pkg/office.js").Page} Page
 * @typedef {import("../../first/stage.js").Stage} Stage
 */
import { element, make, style } from "../../first/elements.js";
import { table } from "../../first/table.js";

/** @type {("force" | "tension")[]} */
const KINDS = ["force", "tension"];

/**
 * Puts a line and the dots on the curves where an instant lies.
 * @param {HTMLElement} cursor
 * @param {Float64Array} instant across, the line's ends, the curves' heights; empty: none
 */
function point(cursor, [across, top, bottom, ...heights]) {
  const parts = across === undefined ? 0 : 1 + heights.length;
  if (cursor.childElementCount !== parts) {
    cursor.replaceChildren(...Array.from({ length: parts }, (_, i) =>
      make("span", i ? "chart__dot" : "chart__now")));
  }
  [top, ...heights].slice(0, parts).forEach((height, i) => {
    const { style } = /** @type {HTMLElement} */ (cursor.children[i]);
    style.transform = `translate(${across}px, ${height}px)`;
  });
  const line = /** @type {HTMLElement | null} */ (cursor.firstElementChild);
  const long = `${bottom - top}px`;
  if (line && line.style.height !== long) line.style.height = long;
}

export class Charts {
  /**
   * @param {(task: (page: Page) => void) => void} ask
   * @param {Stage} stage
   */
  constructor(ask, stage) {
    style("page/plan/charts.css");
    this.ask = ask;
    this.stale = true;
    this.charts = KINDS.map((kind) => ({ kind, sheet: element(`chart-${kind}`),
      cursor: element(`cursor-${kind}`), read: element(`read-${kind}`), seen: true,
      /** @type {number | null} Instant under the pointer, s. */
      pointed: null }));
    const observer = new ResizeObserver(() => {
      this.drawAll(stage);
      this.draw(stage);
    });
    // Out of sight the present time need not be drawn.
    const sight = new IntersectionObserver((entries) => {
      for (const entry of entries) {
        const chart = this.charts.find(({ cursor }) => cursor === entry.target);
        if (chart) chart.seen = entry.isIntersecting;
      }
      this.draw(stage);
    });
    for (const { sheet, cursor } of this.charts) {
      stage.watch(sheet);
      observer.observe(sheet);
      sight.observe(cursor);
    }
    for (const chart of this.charts) this.listen(chart, stage);
    stage.followers.push(this);
    element("charts").addEventListener("toggle", () => {
      this.drawAll(stage);
      this.draw(stage);
    });
    element("twin").addEventListener("toggle", () => this.showTables());
  }

  /**
   * Reads a chart where the pointer is; a press takes the fall there.
   * @param {Charts["charts"][number]} chart
   * @param {Stage} stage
   */
  listen(chart, stage) {
    const { sheet } = chart;
    const point = (/** @type {PointerEvent} */ event) => {
      this.ask((whole) => {
        chart.pointed = whole.chart_time(chart.kind, event.offsetX);
      });
      if (event.buttons & 1 && Number.isFinite(chart.pointed)) stage.goTo(Number(chart.pointed));
      else this.tell(chart, stage);
    };
    sheet.addEventListener("pointermove", point);
    sheet.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
      // A finger may be on its way down the page: it must go along the chart first, or tap it.
      if (event.pointerType === "touch") return;
      sheet.setPointerCapture(event.pointerId);
      point(event);
    });
    sheet.addEventListener("click", (/** @type {PointerEvent} */ event) => {
      this.ask((whole) => {
        const time_s = whole.chart_time(chart.kind, event.offsetX);
        if (Number.isFinite(time_s)) stage.goTo(time_s);
      });
    });
    for (const end of ["pointerleave", "pointercancel"]) {
      sheet.addEventListener(end, () => {
        chart.pointed = null;
        this.tell(chart, stage);
      });
    }
  }

  /**
   * Says the values of the instant under the pointer, or of the present one.
   * @param {Charts["charts"][number]} chart
   * @param {Stage} stage
   */
  tell({ kind, read, pointed }, stage) {
    const time_s = pointed ?? Math.min(stage.time_s, stage.duration_s);
    this.ask((whole) => {
      const said = whole.chart_reading(kind, time_s);
      if (read.textContent !== said) read.textContent = said;
    });
  }

  /** The case has changed, or its words. */
  refresh() {
    this.stale = true;
    this.showTables();
  }

  showTables() {
    if (!this.stale || !element("twin").open) return;
    this.stale = false;
    this.ask((whole) => element("twin-tables").replaceChildren(
      ...KINDS.map((kind) => table(whole.chart_table(kind)))));
  }

  /**
   * Shows the present time over the charts.
   * @param {Stage} stage
   */
  draw(stage) {
    if (!element("charts").open) return;
    const time_s = Math.min(stage.time_s, stage.duration_s);
    // More than a few numbers a second cannot be read.
    const readable = !stage.playing || stage.ticks % 6 === 0;
    for (const chart of this.charts) {
      const { kind, cursor, seen } = chart;
      if (!seen) continue;
      this.ask((whole) => point(cursor, whole.chart_instant(kind, time_s)));
      if (readable) this.tell(chart, stage);
    }
  }

  /**
   * Draws the curves.
   * @param {Stage} stage
   */
  drawAll(stage) {
    if (!element("charts").open) return;
    for (const { kind, sheet } of this.charts) {
      stage.onCanvas(sheet, (width, height, ratio) => this.ask((whole) => {
        whole.draw_chart(sheet, kind, width, height, ratio, stage.theme);
      }));
    }
  }
}
