// @ts-check
/**
 * Files that come and go, and the site book that this device keeps. Nothing is sent anywhere.
 *
 * @typedef {import("../views.js").Views} Views
 * @typedef {import("../../pkg/office.js").SiteBook} SiteBook
 */
import { Page, SiteBook as Book } from "../../pkg/office.js";
import { element, save } from "../../first/elements.js";
import { hold, keep } from "../held.js";
import { keepLines, takeLines } from "./line_store.js";

/** Where the book is kept. */
const KEY = "site";

/** Most bytes of a refused file that are shown. */
const SHOWN_MAX = 100_000;

/** @type {SiteBook | null} */
let kept = null;

/**
 * The book of this device, as all tabs have made it.
 * @param {Views} views
 * @returns {SiteBook}
 */
export function book(views) {
  if (kept) return kept;
  const text = hold(KEY, (now, { full, stay }) => {
      const texts = views.page.texts();
      if (full) {
        views.page.notice(texts.file_site_full, "", "", true);
        return;
      }
      kept = Book.from_text(now) ?? kept;
      views.ask((whole) => {
        const said = whole.stay_failed(new Uint32Array(stay));
        if (said) views.page.notice(said, "", "", true);
      });
      dispatchEvent(new Event("footroom-book"));
    });
  const read = text === null ? undefined : Book.from_text(text);
  if (text !== null && !read) {
    const texts = views.page.texts();
    views.page.notice(texts.storage_damaged, texts.file_text, text, true);
  }
  kept = read ?? new Book();
  return kept;
}

/**
 * Keeps the book on the device, or says that it cannot.
 * @param {Views} views
 */
export async function keepBook(views) {
  if (await keep(KEY, book(views).text())) return;
  views.page.notice(views.page.texts().storage_failed, "", "", true);
}

/**
 * Opens a file with a case, a site book, lines or a set of layouts; one that cannot be taken changes nothing.
 * @param {Views} views
 * @param {File} file
 */
export async function openFile(views, file) {
  const texts = views.page.texts();
  // A longer one is refused by its head alone, and is not shown whole.
  const bytes = new Uint8Array(await file.slice(0, Page.file_limit() + 1).arrayBuffer());
  const set = new TextDecoder().decode(bytes.subarray(0, 8));
  if (/^c\d+\./.test(set) && bytes.length <= Page.file_limit()) {
    await views.openSet(new TextDecoder().decode(bytes));
    return;
  }
  views.ask((whole) => {
    const opened = whole.open_file(bytes);
    if (opened.kind === "case") {
      views.page.change(() => {});
      views.page.notice(texts.file_taken);
    } else if (opened.kind === "site") {
      const stay = book(views).take_in(opened.site);
      if (stay) void keepBook(views);
      const said = stay ? `${texts.file_site_taken} ${whole.stay_failed(stay)}`.trim()
        : texts.file_site_full;
      views.page.notice(said, "", "", !stay || stay.length > 0);
      dispatchEvent(new Event("footroom-book"));
    } else if (opened.kind === "lines") {
      takeLines(views);
      const taken = whole.lines_take_file(book(views), opened.lines, opened.site);
      views.page.notice(taken?.message ?? texts.file_site_full, "", "", taken?.bad ?? true);
      if (!taken) return;
      void keepLines(views);
      void keepBook(views);
      dispatchEvent(new Event("footroom-book"));
    } else {
      // Who chose it has it: a text of megabytes in one line would hold the page up.
      const text = bytes.length > SHOWN_MAX ? "" : new TextDecoder().decode(bytes);
      views.page.notice(opened.message, texts.file_text, text, true);
    }
  });
}

/**
 * @param {Views} views
 * @param {"case" | "csv" | "svg" | "site" | "lines"} kind
 */
export function saveFile(views, kind) {
  views.ask((whole) => {
    const file = whole.save(kind, book(views));
    if (file) save(file.name, new Blob([file.text], { type: file.type }));
    else views.page.notice(views.page.texts().record_none, "", "", true);
  });
}

/**
 * The drop as it stands on the page, as a picture, with what has to stand beside the answer.
 * @param {Views} views
 */
export function savePicture(views) {
  const { stage } = views.page;
  const canvas = document.createElement("canvas");
  let drawn = false;
  views.ask((whole) => {
    drawn = whole.draw_picture(canvas, 1600, 900, stage.time_s, stage.theme);
  });
  if (!drawn) {
    views.page.notice(views.page.texts().record_none, "", "", true);
    return;
  }
  canvas.toBlob((picture) => {
    views.ask((whole) => {
      if (picture) save(whole.picture_name(), picture);
      else views.page.notice(views.page.texts().file_png_failed, "", "", true);
    });
  });
}

/**
 * Where more than one line is kept, their list is the first task of the site.
 * @param {Views} views
 */
export function leadLines(views) {
  takeLines(views);
  const lead = () => views.ask((whole) => {
    if (whole.lines_count() > 1) views.page.lead(element("lines"));
  });
  addEventListener("footroom-lines", lead);
  lead();
}

/**
 * Opens a file that is dropped anywhere on the page.
 * @param {Views} views
 */
export function takeDrops(views) {
  const hasFile = (/** @type {DragEvent} */ event) => event.dataTransfer?.types.includes("Files");
  addEventListener("dragover", (event) => {
    if (!hasFile(event)) return;
    event.preventDefault();
    document.body.dataset.drag = "file";
  });
  addEventListener("dragleave", (event) => {
    if (!event.relatedTarget) delete document.body.dataset.drag;
  });
  addEventListener("drop", (event) => {
    delete document.body.dataset.drag;
    if (!hasFile(event)) return;
    event.preventDefault();
    const file = event.dataTransfer?.files[0];
    if (file) void openFile(views, file);
  });
  document.body.dataset.drops = "ready";
}
