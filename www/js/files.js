// @ts-check
/**
 * Files that come and go, and the site book that this device keeps. Nothing is sent anywhere.
 *
 * @typedef {import("./views.js").Views} Views
 * @typedef {import("../pkg/office.js").SiteBook} SiteBook
 */
import { Office, SiteBook as Book } from "../pkg/office.js";

/** Where the book is kept; one that cannot be read is kept under the other name. */
const KEY = "footroom.site";
const DAMAGED_KEY = "footroom.site.damaged";

/** @type {SiteBook | null} */
let kept = null;

/**
 * The book of this device.
 * @param {Views} views
 * @returns {SiteBook}
 */
export function book(views) {
  if (kept) return kept;
  /** @type {string | null} */
  let text = null;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    // Told when something is to be kept.
  }
  const read = text === null ? undefined : Book.from_text(text);
  if (text !== null && !read) {
    try {
      localStorage.setItem(DAMAGED_KEY, text);
    } catch {
      // The text is shown below all the same.
    }
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
export function keepBook(views) {
  try {
    localStorage.setItem(KEY, book(views).text());
  } catch {
    views.page.notice(views.page.texts().storage_failed, "", "", true);
  }
}

/**
 * Opens a file with a case, a site book or a set of layouts; one that cannot be taken changes nothing.
 * @param {Views} views
 * @param {File} file
 */
export async function openFile(views, file) {
  const texts = views.page.texts();
  // A longer one is refused by its head alone, and is not shown whole.
  const bytes = new Uint8Array(await file.slice(0, Office.file_limit() + 1).arrayBuffer());
  const set = new TextDecoder().decode(bytes.subarray(0, 8));
  if (/^c\d+\./.test(set) && bytes.length <= Office.file_limit()) {
    views.openSet(new TextDecoder().decode(bytes));
    return;
  }
  views.ask((office) => {
    const opened = office.read_file(bytes);
    if (opened.kind === "case") {
      views.page.openLink(opened.link, texts.file_taken);
    } else if (opened.kind === "site") {
      const taken = book(views).take_in(opened.site);
      if (taken) keepBook(views);
      views.page.notice(taken ? texts.file_site_taken : texts.file_site_full, "", "", !taken);
      dispatchEvent(new Event("footroom-book"));
    } else {
      const text = bytes.length > Office.file_limit() ? "" : new TextDecoder().decode(bytes);
      views.page.notice(opened.message, texts.file_text, text, true);
    }
  });
}

/**
 * @param {Blob} content
 * @param {string} name
 */
function save(content, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/**
 * @param {Views} views
 * @param {"case" | "csv" | "svg" | "site"} kind
 */
export function saveFile(views, kind) {
  views.ask((office) => {
    const file = office.save(kind, book(views));
    if (file) save(new Blob([file.text], { type: file.type }), file.name);
    else views.page.notice(views.page.texts().record_none, "", "", true);
  });
}

/**
 * The drop as it stands on the page, as a picture.
 * @param {Views} views
 */
export function savePicture(views) {
  const { stage } = views.page;
  const canvas = document.createElement("canvas");
  views.page.ask((desk) => desk.draw_scene(canvas, 1600, 900, 1, stage.time_s, stage.theme));
  canvas.toBlob((picture) => {
    views.ask((office) => {
      if (picture) save(picture, office.picture_name());
      else views.page.notice(views.page.texts().file_png_failed, "", "", true);
    });
  });
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
}
