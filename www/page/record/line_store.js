// @ts-check
/**
 * The lines of a site that this device keeps, and what goes from one to the next. All that is said of
 * them comes from the calculation.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { day } from "../../pkg/office.js";
import { element } from "../../first/elements.js";
import { hold, keep } from "../held.js";

/** Where they are kept. */
const KEY = "lines";

/** What is read on a line and of no use on the next, by the ids of the fields. */
const READINGS = ["read-weight", "read-movement", "read-swings", "read-time", "found-temperature",
  "found-height", "found-depth"];

let held = false;
/** The day that is shown. */
let shown = "";

/** Today on the clock of this device. */
export const today = () => day(Date.now(), new Date().getTimezoneOffset());

/**
 * Takes the lines of this device, as all tabs have made them, into the calculation; once.
 * @param {Views} views
 */
export function takeLines(views) {
  if (held) return;
  held = true;
  shown = today();
  // Overnight what was of today is of yesterday.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible" || shown === today()) return;
    shown = today();
    dispatchEvent(new Event("footroom-book"));
  });
  const text = hold(KEY, (now, { full }) => {
    const texts = views.page.texts();
    if (full) views.page.notice(texts.lines_full, "", "", true);
    else views.ask((whole) => whole.lines_open(now));
    dispatchEvent(new Event("footroom-lines"));
  });
  if (text === null) return;
  views.ask((whole) => {
    if (whole.lines_open(text)) return;
    const texts = views.page.texts();
    views.page.notice(texts.lines_damaged, texts.file_text, text, true);
  });
}

/**
 * Keeps the lines on the device after a change, or says that it cannot.
 * @param {Views} views
 */
export async function keepLines(views) {
  let text = "";
  views.ask((whole) => {
    text = whole.lines_text();
  });
  dispatchEvent(new Event("footroom-lines"));
  if (await keep(KEY, text)) return;
  views.page.notice(views.page.texts().storage_failed, "", "", true);
}

/**
 * Forgets what was read on another line.
 * @param {Views} views
 */
export function clearReadings(views) {
  for (const id of READINGS) {
    const field = /** @type {HTMLInputElement | null} */ (element(id));
    if (field) field.value = "";
    views.ask((whole) => whole.read(id.split("-")[1], ""));
  }
}

/**
 * Opens a line, with today's reading.
 * @param {Views} views
 * @param {number} place
 */
export function openLine(views, place) {
  clearReadings(views);
  views.page.change((whole) => whole.lines_load(place));
  const fold = element("reading");
  fold.open = true;
  element("task-reading").focus();
}
