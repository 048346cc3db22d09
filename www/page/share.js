// @ts-check
/**
 * What is given away: the case, the layouts or the talk, as a code to scan, as an address to copy, and
 * as a file where it is too long for that. Nothing is sent anywhere by the page itself.
 *
 * @typedef {import("../pkg/office.js").ShareView} ShareView
 * @typedef {import("./views.js").Views} Views
 */
import { make, save, style } from "../first/elements.js";
import { read } from "../first/kept.js";
import { command } from "./record/command.js";
import { saveFile } from "./record/files.js";
import { drawing } from "./trusted.js";

/** What can be given away, with the task in which it is what one means. */
const GIVEN = [["case", ""], ["layouts", "compare"], ["talk", "talk"]];

/** Where the layouts are kept. */
const KEY = "layouts";

/**
 * @param {Views} views
 * @param {string} room that is shown, as the address has it
 * @param {string} task that is shown
 */
export function open(views, room, task) {
  style("page/share.css");
  const texts = views.page.texts();
  const layer = make("dialog", "share");
  const heading = make("h2", "share__heading", texts.share);
  heading.id = "share-heading";
  layer.setAttribute("aria-labelledby", heading.id);
  const code = make("div", "share__code");
  const note = make("p", "share__note");
  note.setAttribute("role", "status");
  const label = make("label", "share__link", texts.page_link);
  const field = make("input", "notice__field");
  field.id = "share-link";
  field.readOnly = true;
  label.append(field);

  let given = GIVEN.find(([, of]) => of === task)?.[0] ?? "case";
  /** @param {(whole: import("../pkg/office.js").Page) => void} task */
  const ask = (task) => views.ask(task);

  const copy = command(texts.share_copy, async () => {
    try {
      await navigator.clipboard.writeText(field.value);
      note.textContent = texts.share_copied;
    } catch {
      note.textContent = texts.share_by_hand;
      field.select();
    }
  }, "button--main");
  copy.id = "share-copy";
  const send = command(texts.share_send, () => {
    // Whoever thinks better of it has sent nothing.
    navigator.share({ url: field.value }).catch(() => {});
  });
  const file = command(texts.share_file, () => {
    if (given !== "layouts") {
      saveFile(views, "case");
      return;
    }
    ask((whole) => {
      const set = whole.shelf_view().layouts.length ? whole.shelf_text() : read(KEY) ?? "";
      save("layouts.txt", new Blob([set], { type: "text/plain" }));
    });
  });
  file.id = "share-file";
  const close = command(texts.page_close, () => layer.close(), "button--quiet");
  close.id = "share-close";

  function show() {
    /** @type {ShareView} */
    let shown = { address: "", code: "", note: "", file: false };
    ask((whole) => {
      shown = whole.share(given, room, read(KEY) ?? "", location.href.split("#")[0]);
    });
    code.replaceChildren(...(shown.code ? [drawing(shown.code)] : []));
    code.hidden = !shown.code;
    field.value = shown.address;
    label.hidden = copy.hidden = !shown.address;
    send.hidden = !shown.address || !("share" in navigator);
    file.hidden = !shown.file;
    note.textContent = shown.note;
    layer.dataset.given = given;
  }

  const choices = make("fieldset", "share__choices");
  choices.append(make("legend", "group__heading", texts.share_what));
  for (const [key] of GIVEN) {
    const choice = make("label", "choice");
    const input = make("input", "choice__input");
    input.type = "radio";
    input.name = "given";
    input.value = key;
    input.checked = key === given;
    input.addEventListener("change", () => {
      given = key;
      show();
    });
    choice.append(input, make("span", "choice__face", texts[`share_${key}`]));
    choices.append(choice);
  }

  const tools = make("div", "group__tools");
  tools.append(copy, send, file, close);
  const side = make("div", "share__side");
  side.append(heading, choices, note, label, tools);
  layer.append(side, code);
  document.body.append(layer);
  // Layouts that are waited for come while it stands.
  addEventListener("footroom-shelf", show);
  layer.addEventListener("close", () => {
    removeEventListener("footroom-shelf", show);
    layer.remove();
  });
  show();
  layer.showModal();
}
