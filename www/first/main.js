// @ts-check
/**
 * Loads the calculation, hands it what is typed, and puts its view on the page.
 *
 * Two modules: the first shows the case of the address, or the example; the whole takes its place
 * as soon as it is there, with the form and the views.
 *
 * @typedef {import("./stage.js").Page} FirstPage
 * @typedef {import("../pkg/office.js").Page} Page
 * @typedef {import("../pkg/office.js").Form} FormView
 * @typedef {import("../pkg/footroom.js").View} View
 */
import { showBand } from "./band.js";
import { Doors } from "./doors.js";
import { element, make, write } from "./elements.js";
import { Form } from "./form.js";
import { read, write as keep } from "./kept.js";
import { Stage } from "./stage.js";
import { table } from "./table.js";
import { officeModule } from "../page/module.js";

/** @type {FirstPage | null} */
let page = null;
/** @type {Page | null} The same, once all of it is there and it can be changed. */
let whole = null;
/** @type {Record<string, string>} */
let texts = {};
/** @type {View | null} */
let view = null;
/** @type {import("../page/views.js").Views | null} */
let views = null;
/** Not all of the page shows the present case yet, or its whole answer is still to be made. */
let waiting = false;
/** The address carries layouts, which come with the views: until then no case is shown. */
let coming = false;
/** The form does not show the present case yet. */
let formWaits = false;
/** What the address carries is being opened: what it brings along is no step of the visitor's. */
let opening = false;
/** The layouts that the page was sent, for as long as the case is one of them: the address keeps them. */
let sent = "";
/** Counts the changes: what one of them has put off ends with the next. */
let turn = 0;
/** Time for which the page works at the whole answer in one go, ms. */
const TURN_MS = 8;

const stage = new Stage(ask, showInstant);
const doors = new Doors((anew) => keepRoom(anew && !opening));
const form = new Form(element("primary"), element("secondary"), element("limits"), (path, text) => {
  if (whole) change((p) => p.set(path, text));
  else typedEarly.push([path, text, element("units").value]);
});
/** @type {[string, string, string][]} What was typed before it could be calculated, and in which units. */
const typedEarly = [];

/**
 * Runs a task on the whole page, if it is there yet.
 * @param {(page: Page) => void} task
 */
function edit(task) {
  ask(() => {
    if (!whole) return;
    task(whole);
    if (whole.has_beside()) views?.beside();
  });
}

/**
 * Runs a task on the page, the one way to the calculation. A task that ends in a trap leaves it in an
 * unknown state: it is given up, and a fresh start is offered.
 * @param {(page: FirstPage) => void} task
 */
function ask(task) {
  if (!page) return;
  try {
    task(page);
  } catch (error) {
    console.error(error);
    giveUp();
  }
}

function giveUp() {
  page = whole = null;
  fail(texts.crashed);
}

/**
 * @param {string} message
 * @param {"" | "files" | "wasm" | "simd"} [why] the page has the words for it
 */
function fail(message, why = "") {
  document.body.dataset.state = "failed";
  document.body.dataset.why = why;
  element("start").hidden = false;
  element("loading").hidden = true;
  element("failed").hidden = false;
  element("failed-text").textContent = message;
  element("reload").hidden = false;
  for (const button of document.querySelectorAll("button, #scrub")) {
    if (button.id !== "reload" && button.id !== "notice-close") {
      /** @type {HTMLButtonElement} */ (button).disabled = true;
    }
  }
}

/** Fills every static text of the page in the present language. */
function fillTexts() {
  ask((p) => {
    texts = { ...p.texts(), .../** @type {any} */ (whole ? whole.view_texts() : p.form_texts()) };
  });
  for (const place of document.querySelectorAll("[data-text]")) {
    const text = texts[/** @type {HTMLElement} */ (place).dataset.text ?? ""];
    if (text) place.textContent = text;
  }
  for (const id of ["undo", "redo"]) element(id).title = texts[id];
  element("speed-true").title = texts.speed_true;
  element("scene").title = texts.page_keys;
}

/** Puts the present view on the page, all of it. */
function show() {
  showFirst();
  waiting = formWaits = true;
  showRest();
}

/**
 * What is looked at when something is changed: the answer, its stack and the drop. The answer is the
 * first, of the crew exactly as given, and says so, until the whole one is made.
 */
function showFirst() {
  ask((p) => {
    view = p.view();
  });
  if (!view || !page) return;
  const v = view;
  // Each word of the page is looked at anew for its language.
  if (document.documentElement.lang !== v.language) document.documentElement.lang = v.language;
  const blank = v.blank || coming;
  const start = coming || (v.blank && v.coming);
  document.body.toggleAttribute("data-blank", blank);
  document.body.toggleAttribute("data-coming", v.coming);
  element("start").hidden = !start;
  element("result").hidden = start;
  for (const id of ["refused-other", "refused-close"]) element(id).hidden = v.blank;
  element("refused-demo").hidden = !v.blank;
  element("language").value = v.language;
  element("units").value = v.units;
  showAnswer(v);
  showStack(v);
  stage.load(v);
}

/** What was entered, if it waits to be shown. */
function showForm() {
  if (!formWaits || !view || !page) return;
  formWaits = false;
  const v = view;
  element("job-title").textContent = v.title;
  element("job").title = [v.title, v.invented_note ?? ""].join(" ").trim();
  element("job-note").textContent = v.invented_note ? `(${v.invented_note})` : "";
  element("undo").disabled = !v.can_undo;
  element("redo").disabled = !v.can_redo;
  write(element("caution"), v.cautions.join(" "));
  // What was typed meanwhile stays, and is taken with the whole.
  if (!whole && (v.blank || typedEarly.length)) return;
  ask((p) => {
    const held = /** @type {FormView} */ (p.form());
    showProblems(held);
    form.show(held, v, texts);
  });
}

/** The whole answer and all that is made of it, if it waits to be shown. */
function showRest() {
  if (!waiting || !view || !page) return;
  ask((p) => {
    while (p.step());
  });
  if (!view.whole) showFirst();
  showForm();
  if (!page) return;
  waiting = false;
  delete document.body.dataset.waiting;
  const v = view;
  element("methods").replaceChildren(table(v.methods),
    ...v.methods.note.split("\n").map((part) => make("p", "panel__note", part)));
  write(element("model"), v.model);
  element("scene-words").textContent = v.description;
  views?.refresh(v);
  stage.showFollowers();
}

/**
 * Shows what was entered, makes the answer whole, some milliseconds at a time, and shows all else.
 * @param {number} of the change that has put it off
 */
function goOn(of) {
  if (of !== turn || !waiting) return;
  let more = true;
  if (formWaits) {
    showForm();
  } else {
    const until = performance.now() + TURN_MS;
    ask((p) => {
      do more = p.step(); while (more && performance.now() < until);
    });
  }
  if (!page) return;
  if (more) setTimeout(goOn, 0, of);
  else showRest();
}

/** All but what [showFirst] shows comes after the frame that shows it. */
function putOff() {
  waiting = formWaits = true;
  document.body.dataset.waiting = "";
  const of = turn += 1;
  requestAnimationFrame(() => setTimeout(goOn, 0, of));
}

/**
 * The three lines of the answer, and the worst of them as the page's title.
 * @param {View} v
 */
function showHeadline(v) {
  showBand(v.answer, !v.valid);
  if (v.blank || coming) document.title = "Footroom";
  else if (v.whole) document.title = `${v.answer.headline}. ${v.title} (Footroom)`;
}

/** @param {View} v */
function showAnswer(v) {
  const answer = element("answer");
  answer.dataset.kind = v.answer.kind;
  answer.classList.toggle("answer--stale", !v.valid);
  // What is said aloud is the whole answer.
  answer.setAttribute("aria-busy", String(!v.whole));
  showHeadline(v);
  write(element("answer-sentence"), v.answer.sentence);
  write(element("answer-detail"), v.answer.detail);
  const doubts = element("answer-doubts");
  if (doubts.children.length + v.answer.doubts.length > 0) {
    doubts.replaceChildren(...v.answer.doubts.map((doubt) => make("li", "answer__doubt", doubt)));
  }
  const [first = ""] = v.answer.doubts;
  write(element("about-first"), first && `⚠ ${first}`);
  say("answer-placed", v.placed_note);
  say("answer-stale", v.stale_note);
  say("answer-shared", v.shared?.message ?? null);
}

/**
 * @param {string} id
 * @param {string | null} text
 */
function say(id, text) {
  write(element(id), text ?? "");
  element(id).hidden = !text;
}

/** Which rows the stack has. */
let stackShape = "";

/** @param {import("../pkg/footroom.js").StackRow} row */
function stackRow(row) {
  const line = make("tr", "rows__line");
  if (row.total) line.classList.add("rows__line--total");
  if (row.key === "footroom") line.classList.add("rows__line--footroom");
  const name = make("th", "rows__name");
  name.scope = "row";
  if (row.pattern) name.append(make("span", `swatch swatch--${row.pattern}`));
  name.append(row.label);
  line.append(name, make("td", "rows__value"));
  return line;
}

/** @param {View} v */
function showStack(v) {
  write(element("stack-of"), v.worker_label);
  const rows = element("stack-rows");
  const shape = JSON.stringify(v.stack.map((row) => [row.key, row.label, row.pattern]));
  if (shape !== stackShape) {
    stackShape = shape;
    rows.replaceChildren(...v.stack.map(stackRow));
  }
  // Rows that stay are laid out faster than new ones.
  v.stack.forEach((row, i) => write(rows.children[i].lastElementChild, row.value));
  write(element("stack-note"), v.stack_note);
}

/** @param {FormView} v */
function showProblems(v) {
  const box = element("problems");
  box.hidden = v.problems.length === 0;
  element("problems-list").replaceChildren(...v.problems.map((problem) => {
    const item = make("li", "problems__item");
    const link = make("a", "problems__link", problem.message);
    link.href = "#inputs";
    link.addEventListener("click", (event) => {
      event.preventDefault();
      form.focus(problem.path);
    });
    item.append(link);
    return item;
  }));
}

/**
 * Shows the numbers of the instant.
 * @param {number} time_s
 * @param {boolean} settled
 */
function showInstant(time_s, settled) {
  ask((p) => {
    const now = p.readout(time_s);
    const still = stage.held === "hanging";
    element("time").textContent = still ? "—" : now.time;
    element("now-time").textContent = still ? texts.page_hanging : now.time;
    element("scrub").setAttribute("aria-valuetext", still ? texts.page_hanging : now.time);
    const rows = element("now-rows");
    if (rows.childElementCount !== 2 * now.rows.length) {
      rows.replaceChildren(...now.rows.flatMap(() =>
        [make("dt", "pairs__name"), make("dd", "pairs__value")]));
    }
    now.rows.forEach((row, i) => {
      write(rows.children[2 * i], row.label);
      write(rows.children[2 * i + 1], row.value);
    });
    if (settled) element("now-spoken").textContent = now.spoken;
  });
  write(element("play"), stage.playing ? texts.pause : texts.play);
}

/**
 * Changes the case, shows it, and keeps it in the address bar. What is looked at comes with the next
 * frame, the rest right after it, and before anything else is done on the page.
 * @param {(page: Page) => void} task
 * @param {boolean} [another] it shows another one of the layouts that were sent
 */
function change(task, another = false) {
  if (!another) sent = "";
  edit(task);
  showFirst();
  putOff();
  clearTimeout(keeping);
  keeping = setTimeout(keepSoon, KEEP_MS);
}

/** @type {ReturnType<typeof setTimeout> | undefined} The case is about to be kept. */
let keeping;
/** Time after a change at which the case is kept, ms: by then it is on the screen. */
const KEEP_MS = 50;

/** The address has whole answers only. */
function keepSoon() {
  if (waiting && page) keeping = setTimeout(keepSoon, KEEP_MS);
  else keepInAddress();
}

function keepInAddress() {
  clearTimeout(keeping);
  keeping = undefined;
  showRest();
  if (!view?.valid || view.blank || !views || views.handles.dragging) return;
  edit((p) => writeAddress(linkOf(p)));
}

/**
 * The link to what is shown: the case, or the layouts that were sent.
 * @param {Page} p
 */
const linkOf = (p) => (sent ? p.set_link(sent) : p.link());

/**
 * Puts a link and the room into the address. An entry of the history that the page has written says
 * which room it is: on the way back and forward the room changes and the case stays.
 * @param {string} link
 * @param {boolean} [anew] as a new entry
 */
function writeAddress(link, anew = false) {
  const address = link + doors.part();
  const { room } = doors;
  history[anew ? "pushState" : "replaceState"]({ room }, "",
    address ? `#${address}` : location.pathname + location.search);
}

/** @param {boolean} anew the visitor has gone to another room */
function keepRoom(anew) {
  writeAddress(fragment(), anew);
  if (keeping) keepInAddress();
}

/** Shows what there is to be given away, that of the present task first. */
async function share() {
  await later;
  keepInAddress();
  const { tasks, room } = doors;
  const part = await views?.part(import("../page/share.js"));
  if (part && views) part.open(views, doors.part(), tasks.get(room)?.id ?? "");
}

/**
 * Tells something under the head of the page, with a text to keep when there is one.
 * @param {string} text
 * @param {string} [label]
 * @param {string} [keptText]
 * @param {boolean} [bad]
 */
function notice(text, label, keptText, bad = false) {
  element("notice").hidden = false;
  element("notice").classList.toggle("notice--bad", bad);
  element("notice-text").textContent = text;
  element("notice-kept").hidden = !keptText;
  element("notice-kept-label").textContent = label ?? "";
  element("notice-field").value = keptText ?? "";
}

/** The part of the address that carries a case and its notes, not the room; empty when it carries none. */
function fragment() {
  const part = location.hash.slice(1).replace(/&room=[\w.-]*/, "");
  return element(part) ? "" : part;
}

/**
 * Whether a fragment carries a set of layouts, not a case.
 * @param {string} part
 */
const isSet = (part) => /^c\d+\./.test(part);

/**
 * Says, in a place of its own, that a link could not be read, and keeps its text there.
 * @param {string} link
 * @param {string} [why]
 */
function refuse(link, why = "") {
  element("refused-link").value = link;
  write(element("refused-why"), why);
  element("refused").hidden = false;
}

/** Opens what the address carries: a case, or a set of layouts. */
async function openAddress() {
  opening = true;
  await openFragment(fragment());
  opening = false;
}

/** @param {string} part */
async function openFragment(part) {
  if (!part) return;
  // The first of a set of layouts is the case on the page; the view that compares them has all.
  const set = isSet(part);
  let fault = "";
  edit((p) => {
    fault = (set ? p.open_set(part) : p.open_link(part)) ?? "";
  });
  if (fault) {
    refuse(location.href, fault);
    return;
  }
  element("notice").hidden = element("refused").hidden = true;
  sent = set ? part.split("&")[0] : "";
  if (set) await views?.openSet(part);
}

/**
 * What a link says of units or language; null: nothing that there is here.
 * @param {"units" | "language"} key
 */
function said(key) {
  const value = new RegExp(`&${key}=([\\w-]+)`).exec(location.hash)?.[1] ?? "";
  return element(key).querySelector(`[value="${value}"]`) ? value : null;
}

/** Takes units and language that the address brings. What the device keeps of them stays. */
function takeVoice() {
  const units = said("units");
  const language = said("language");
  ask((p) => {
    if (units) p.set_units(units);
    if (language) p.set_language(language);
  });
  if (language) fillTexts();
}

/**
 * A choice of the visitor's: it is kept, and goes before what the opened link said.
 * @param {"units" | "language"} key
 */
function choose(key) {
  const { value } = element(key);
  keep(key, value);
  const address = location.hash.replace(new RegExp(`(&${key}=)[\\w-]*`), `$1${value}`);
  history.replaceState(history.state, "", address || location.href);
}

/**
 * Keys of the player, as long as no field wants them.
 * @param {KeyboardEvent} event
 */
function onKey(event) {
  const target = /** @type {HTMLElement} */ (event.target);
  if (!page || document.querySelector("dialog[open]")) return;
  if (takesBack(event, target)) return;
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (target.closest("input, select, textarea, [contenteditable]")) return;
  if (event.key === " " && target.closest("button, a, summary")) return;
  /** @type {Record<string, () => void>} */
  const keys = {
    " ": () => stage.play(),
    ArrowLeft: () => stage.step(-1, event.shiftKey),
    ArrowRight: () => stage.step(1, event.shiftKey),
    Home: () => stage.goTo(0),
    End: () => stage.toHanging(),
    l: () => stage.toLowest(),
    t: () => void views?.startTalk(),
  };
  const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
  if (act) act();
  else if (!doors.key(event.key)) return;
  event.preventDefault();
}

/** Something was typed into the field that has the focus, and is not taken yet. */
let typing = false;

/**
 * The platform's keys for undo and redo, unless a field takes back what is being typed into it.
 * @param {KeyboardEvent} event
 * @param {HTMLElement} target
 */
function takesBack(event, target) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return false;
  const key = event.key.toLowerCase();
  const again = key === "y" || (key === "z" && event.shiftKey);
  if (!again && key !== "z") return false;
  if (target.closest("textarea") || (typing && target.closest("input"))) return false;
  event.preventDefault();
  const tool = element(again ? "redo" : "undo");
  if (!tool.disabled && !document.body.hasAttribute("data-blank")) tool.click();
  return true;
}

function listen() {
  const on = (/** @type {string} */ id, /** @type {() => void} */ act) =>
    element(id).addEventListener("click", act);
  on("play", () => stage.play());
  on("step-back", () => stage.step(-1));
  on("step-forward", () => stage.step(1));
  on("to-start", () => stage.goTo(0));
  on("to-lowest", () => stage.toLowest());
  on("to-hanging", () => stage.toHanging());
  on("undo", () => change((p) => p.undo()));
  on("redo", () => change((p) => p.redo()));
  on("demo", () => change((p) => p.demo()));
  // It is asked for before the form is there, too.
  on("refused-demo", () => {
    ask((p) => p.demo());
    show();
  });
  on("refused-close", () => {
    element("refused").hidden = true;
  });
  on("newer-close", () => {
    element("newer").hidden = true;
  });
  on("share", () => void share());
  on("reload", () => location.reload());
  on("notice-close", () => {
    element("notice").hidden = true;
  });
  element("scrub").addEventListener("input", () => stage.goTo(Number(element("scrub").value)));
  for (const speed of document.querySelectorAll("[name=speed]")) {
    const input = /** @type {HTMLInputElement} */ (speed);
    input.addEventListener("change", () => {
      stage.speed = Number(input.value);
    });
    if (input.checked) stage.speed = Number(input.value);
  }
  element("units").addEventListener("change", () => {
    choose("units");
    ask((p) => p.set_units(element("units").value));
    show();
  });
  element("language").addEventListener("change", () => {
    ask((p) => p.set_language(element("language").value));
    fillTexts();
    choose("language");
    show();
  });
  element("inputs").addEventListener("submit", (/** @type {Event} */ event) =>
    event.preventDefault());
  document.querySelector(".skip")?.addEventListener("click", (event) => {
    // The fragment belongs to the case.
    event.preventDefault();
    element("answer").focus();
  });
  for (const input of ["keydown", "beforeinput"]) {
    addEventListener(input, (event) => {
      // Who types changes the case again: its whole answer can wait.
      const { target } = event;
      if (target instanceof Element && target.closest("#inputs")) showForm();
      else showRest();
    }, { capture: true });
  }
  for (const input of ["pointerdown", "click", "beforeprint"]) {
    addEventListener(input, showRest, { capture: true });
  }
  addEventListener("keydown", onKey);
  addEventListener("input", () => {
    typing = true;
  });
  for (const done of ["change", "focusin"]) {
    addEventListener(done, () => {
      typing = false;
    });
  }
  addEventListener("pagehide", () => {
    if (keeping) keepInAddress();
  });
  addEventListener("popstate", ({ state }) => {
    if (!state?.room) return;
    doors.take(location.hash);
    // The case is that of now, not that of the entry.
    if (whole && view?.valid && !view.blank) edit((p) => writeAddress(linkOf(p)));
  });
  addEventListener("hashchange", async () => {
    if (history.state?.room) return;
    doors.take(location.hash);
    takeVoice();
    await openAddress();
    history.replaceState({ room: doors.room }, "");
    show();
    openTalk();
  });
}

/** The talk that the address carries waits for the answer to its case. */
let planWaits = false;

/** Takes the plan of the talk that the address carries, and begins the talk where it asks for that. */
function openTalk() {
  planWaits = Boolean(view?.coming);
  if (!view || view.blank || planWaits || !views) return;
  views.openPlan(`#${fragment()}`);
  if (!doors.starts(location.hash)) return;
  // It begins once: whoever loads the page again is at its list.
  writeAddress(fragment());
  void views.startTalk();
}

/** What is fetched after the first view. */
let later = Promise.resolve();

/** @param {Promise<typeof import("../page/views.js")>} script */
async function openViews(script) {
  try {
    const { Views, openPage } = await script;
    page = whole = await openPage(element("language").value, element("units").value);
    views = new Views({
      stage,
      ask: edit,
      change,
      texts: () => texts,
      focus: (path) => {
        // Limits of one's own are in the view of the checks.
        if (!path.startsWith("own_limits")) {
          doors.enter("plan");
          doors.showPart("inputs");
        }
        form.focus(path);
      },
      keep: keepInAddress,
      own: () => {
        sent = "";
        keepInAddress();
      },
      lead: (fold) => doors.lead(fold),
      notice,
      fail: giveUp,
      came: () => {
        show();
        keepInAddress();
        if (planWaits) openTalk();
      },
      answered: () => {
        ask((p) => {
          view = p.view();
        });
        if (view && page) showHeadline(view);
      },
    });
  } catch (error) {
    console.error(error);
    element("loading").textContent = texts.page_later_failed;
    element("coming").hidden = true;
    notice(texts.page_later_failed, "", "", true);
    return;
  }
  element("demo").disabled = element("share").disabled = false;
  fillTexts();
  // The example may have been asked for under a link that the first view has refused.
  const example = !element("refused").hidden && !view?.blank;
  const part = fragment();
  if (!part) edit((p) => p.demo());
  await openAddress();
  if (example) edit((p) => p.demo());
  coming = false;
  // As one after another, so that each can be taken back.
  for (const [path, text, units] of typedEarly.splice(0)) {
    edit((p) => {
      p.set_units(units);
      p.set(path, text);
    });
  }
  edit((p) => p.set_units(element("units").value));
  form.keepTyped = true;
  show();
  form.keepTyped = false;
  element("coming").hidden = true;
  openTalk();
  stage.drawAll();
  document.body.dataset.views = "ready";
}

/** A module that gives a number of 128 bits. */
const WIDE = [0, 97, 115, 109, 1, 0, 0, 0, 1, 5, 1, 96, 0, 1, 123, 3, 2, 1, 0, 10, 10, 1, 8, 0, 65, 0,
  253, 15, 253, 98, 11];

/** What the browser lacks to run the calculation; null: nothing. */
function unable() {
  if (typeof WebAssembly !== "object") return "wasm";
  return WebAssembly.validate(new Uint8Array(WIDE)) ? null : "simd";
}

async function start() {
  element("reload").addEventListener("click", () => location.reload());
  /** @type {typeof import("../pkg/footroom.js")} */
  let module;
  try {
    module = await import("../pkg/footroom.js");
    await module.default();
  } catch (error) {
    console.error(error);
    fail("", unable() ?? "files");
    return;
  }
  // It is on its way while the first answer is made. Where it does not come is said by who waits.
  officeModule().catch(() => {});
  const rest = import("../page/views.js");
  rest.catch(() => {});
  const language = said("language") ?? read("language")
    ?? (navigator.language.startsWith("es") ? "es" : "en");
  const kept = read("units");
  const units = said("units") ?? (kept === "us" || kept === "metric" ? kept
    : navigator.language.endsWith("-US") ? "us" : "metric");
  const first = new module.Page(language === "es" ? "es" : "en", units);
  page = first;
  fillTexts();
  listen();
  const part = fragment();
  coming = isSet(part);
  // What exactly is wrong with a link is said by the whole program, as soon as it is there.
  if (!part) first.demo();
  else if (!coming && !first.take_link(part)) refuse(location.href);
  doors.take(location.hash);
  history.replaceState({ room: doors.room }, "");
  for (const id of ["play", "step-back", "step-forward", "to-start", "to-lowest",
    "to-hanging", "scrub"]) element(id).disabled = false;
  showFirst();
  if (!page) return;
  putOff();
  document.body.dataset.state = "ready";
  element("coming").hidden = false;
  later = openViews(rest);
  await later;
  try {
    const { keepOffline } = await import("../page/offline.js");
    const { resumeWork, saveOnLeaving, saveWork } = await import("../page/work.js");
    if (views) await resumeWork(change, views);
    saveOnLeaving(edit);
    await keepOffline(offerVersion, () => !whole || saveWork(whole));
  } catch (error) {
    // It works as it stands, only not without a network.
    console.error(error);
  }
}

/**
 * Tells of a version that is stored, or of a newer one and how to take it.
 * @param {"stored" | "newer"} what
 * @param {() => void} act
 */
function offerVersion(what, act) {
  if (what === "stored") {
    element("model").title = texts.offline_ready;
    return;
  }
  element("newer-text").textContent = texts.update_ready;
  element("newer-take").onclick = act;
  element("newer").hidden = false;
}

void start();
