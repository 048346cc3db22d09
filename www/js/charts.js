// @ts-check
/**
 * Force and tension against time: two charts that follow the stage, and their numbers as tables.
 *
 * @typedef {import("../pkg/office.js").Office} Office
 * @typedef {import("./stage.js").Stage} Stage
 */
import { make } from "./form.js";
import { table } from "./table.js";

/** @type {("force" | "tension")[]} */
const KINDS = ["force", "tension"];

/**
 * @param {string} id
 * @returns {any}
 */
const element = (id) => document.getElementById(id);

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
   * @param {(task: (office: Office) => void) => void} ask
   * @param {Stage} stage
   */
  constructor(ask, stage) {
    this.ask = ask;
    this.stale = true;
    this.charts = KINDS.map((kind) => (
      { kind, sheet: element(`chart-${kind}`), cursor: element(`cursor-${kind}`), seen: true }));
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
    stage.followers.push(this);
    element("charts").addEventListener("toggle", () => {
      this.drawAll(stage);
      this.draw(stage);
    });
    element("twin").addEventListener("toggle", () => this.showTables());
  }

  /** The case has changed, or its words. */
  refresh() {
    this.stale = true;
    this.showTables();
  }

  showTables() {
    if (!this.stale || !element("twin").open) return;
    this.stale = false;
    this.ask((office) => element("twin-tables").replaceChildren(
      ...KINDS.map((kind) => table(office.chart_table(kind)))));
  }

  /**
   * Shows the present time over the charts.
   * @param {Stage} stage
   */
  draw(stage) {
    if (!element("charts").open) return;
    const time_s = Math.min(stage.time_s, stage.duration_s);
    for (const { kind, cursor, seen } of this.charts) {
      if (seen) this.ask((office) => point(cursor, office.chart_instant(kind, time_s)));
    }
  }

  /**
   * Draws the curves.
   * @param {Stage} stage
   */
  drawAll(stage) {
    if (!element("charts").open) return;
    for (const { kind, sheet } of this.charts) {
      stage.onCanvas(sheet, (width, height, ratio) => this.ask((office) => {
        office.draw_chart(sheet, kind, width, height, ratio, stage.theme);
      }));
    }
  }
}
