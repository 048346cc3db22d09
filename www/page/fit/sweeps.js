// @ts-check
/**
 * Footroom against one input at a time: a chart each, read by pointer or keyboard, and as a table.
 *
 * @typedef {import("../views.js").Views} Views
 * @typedef {{key: string, title: HTMLElement, sheet: HTMLCanvasElement, slider: HTMLInputElement, read: HTMLElement,
 *   twin: HTMLElement, points: Float64Array}} Chart
 */
import { ask, drop } from "../background.js";
import { make, style } from "../../first/elements.js";
import { Late } from "../late.js";
import { keysScroll, table } from "../../first/table.js";

const OWNER = "sweeps";
const KEYS = ["users", "span", "pretension", "delay", "drop"];

class Sweeps extends Late {
  /**
   * @param {HTMLElement} place
   * @param {Views} views
   */
  constructor(place, views) {
    super(place, views);
    /** @type {Chart[]} */
    this.charts = [];
    views.page.stage.also(() => this.drawAll(), place);
    this.dropWhenClosed(OWNER);
  }

  /** The case has changed, or its words. */
  refresh() {
    const subject = this.views.subject();
    const wanted = JSON.stringify(subject);
    if (!subject || wanted === this.subject) return;
    this.subject = wanted;
    drop(OWNER);
    this.charts = [];
    const all = make("div", "charts__pair");
    delete this.place.dataset.state;
    let left = 0;
    this.views.ask((whole) => {
      for (const key of KEYS) {
        const points = whole.sweep_points(key);
        if (!points) continue;
        const chart = this.chart(key, points, whole.sweep_start(key));
        all.append(chart.figure);
        this.charts.push(chart);
        left += points;
        for (let place = 0; place < points; place += 1) {
          ask({
            owner: OWNER, subject, method: "sweep_point", args: [key, place], long: false,
            done: (/** @type {Float64Array | null} */ point) => {
              chart.points.set(point ?? [NaN, -1], 2 * place);
              left -= 1;
              this.draw(chart);
              if (place + 1 === points) this.fill(chart);
              if (left) return;
              for (const each of this.charts) this.fill(each);
              this.place.dataset.state = "whole";
            },
          });
        }
      }
    });
    this.place.replaceChildren(all, make("p", "panel__note", this.text("sweeps_note")));
    this.drawAll();
  }

  /**
   * @param {string} key
   * @param {number} points
   * @param {number} start
   */
  chart(key, points, start) {
    const figure = make("figure", "chart");
    const title = make("figcaption", "chart__caption");
    title.id = `sweep-title-${key}`;
    const sheet = make("canvas", "chart__canvas sweep__sheet");
    sheet.setAttribute("role", "img");
    sheet.setAttribute("aria-labelledby", title.id);
    const slider = make("input", "sweep__slider");
    slider.type = "range";
    slider.min = "0";
    slider.max = String(points - 1);
    slider.step = "1";
    slider.value = String(start);
    const read = make("p", "sweep__read");
    const fold = make("details", "twin");
    const twin = make("div", "panel__scroll");
    keysScroll(twin, () => title.textContent ?? "");
    fold.append(make("summary", "twin__summary", this.text("show_table")), twin);
    figure.append(title, sheet, slider, read, fold);
    const values = new Float64Array(2 * points).fill(NaN);
    const chart = { key, figure, title, sheet, slider, read, twin, points: values };
    slider.addEventListener("input", () => this.draw(chart));
    const point = (/** @type {PointerEvent} */ event) => this.views.ask((whole) => {
      slider.value = String(whole.sweep_nearest(key, event.offsetX, sheet.clientWidth));
      this.draw(chart);
    });
    sheet.addEventListener("pointermove", point);
    sheet.addEventListener("pointerdown", point);
    return chart;
  }

  /**
   * The table of a chart.
   * @param {Chart} chart
   */
  fill(chart) {
    this.views.ask((whole) => {
      const data = whole.sweep_table(chart.key, chart.points);
      chart.twin.replaceChildren(table(data));
    });
  }

  drawAll() {
    for (const chart of this.charts) this.draw(chart);
  }

  /** @param {Chart} chart */
  draw(chart) {
    const { stage } = this.views.page;
    const { key, sheet, points } = chart;
    const place = Number(chart.slider.value);
    this.views.ask((whole) => {
      const words = whole.sweep_read(key, points, place);
      chart.read.textContent = words;
      chart.slider.setAttribute("aria-valuetext", words);
      const name = whole.sweep_title(key);
      chart.title.textContent = name;
      chart.slider.setAttribute("aria-label", `${this.text("sweeps_read")}: ${name}`);
      stage.onCanvas(sheet, (width, height, ratio) =>
        whole.draw_sweep(sheet, key, points, place, width, height, ratio, stage.theme));
    });
  }
}

/**
 * @param {HTMLElement} place
 * @param {Views} views
 */
export function open(place, views) {
  style("page/fit/sweeps.css");
  return new Sweeps(place, views);
}
