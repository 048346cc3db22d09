// @ts-check
/**
 * Files to open and to save. All words come from the calculation.
 *
 * @typedef {import("../views.js").Views} Views
 */
import { openFile, saveFile, savePicture } from "./files.js";
import { command } from "./command.js";
import { make } from "../../first/elements.js";

/**
 * A command that opens a file, with its field.
 * @param {Views} views
 * @param {string} text
 * @param {string} [id] of the command
 */
export function opener(views, text, id = "") {
  const input = make("input", "unseen");
  input.type = "file";
  input.accept = ".json,application/json";
  input.tabIndex = -1;
  input.setAttribute("aria-label", text);
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file) void openFile(views, file);
    input.value = "";
  });
  const made = command(text, () => input.click(), "group__tool");
  if (id) {
    made.id = id;
    input.id = "file-input";
  }
  return [made, input];
}

/**
 * @param {HTMLElement} inside
 * @param {Views} views
 */
export function open(inside, views) {
  function fill() {
    const texts = views.page.texts();
    const tools = make("div", "group__tools");
    tools.append(...opener(views, texts.file_open, "file-open"));
    for (const [key, act] of /** @type {[string, () => void][]} */ ([
      ["file_save", () => saveFile(views, "case")],
      ["file_site", () => saveFile(views, "site")],
      ["file_csv", () => saveFile(views, "csv")],
      ["file_svg", () => saveFile(views, "svg")],
      ["file_png", () => savePicture(views)],
    ])) {
      const made = command(texts[key], act, "group__tool");
      made.id = key.replace("_", "-");
      tools.append(made);
    }
    inside.replaceChildren(make("p", "panel__note", texts.files_help), tools);
  }

  return { refresh: fill };
}
