// @ts-check
/**
 * The inputs: one row a field of the view, kept in step with it. All words come with the view.
 *
 * @typedef {import("../pkg/office.js").Form} FormView
 * @typedef {import("../pkg/office.js").Field} Field
 * @typedef {import("../pkg/footroom.js").View} View
 */
import { element, make } from "./elements.js";

/** Groups whose fields stand first, in this order; things below follow the site. */
const FIRST = ["line", "crew", "site"];

/** What stands in a row of the crew, a column each, and the names of the columns. */
const CREW = [/^workers\[\d+\]\.position_m$/, /^workers(\.all|\[\d+\])\.mass_kg$/,
  /^workers(\.all|\[\d+\])\.gear\.(length|lock_distance)_m$/, /^workers\[\d+\]\.falls$/];
const CREW_NAMES = ["at", "mass", "gear", "falls"];

/** Letters for which a column of the crew has room. */
const CREW_LETTERS = 8;

/** Letters in a line of the list of spans. */
const SPANS_LINE = 21;

/** @param {string} path */
const idOf = (path) => `in-${path.replaceAll(/[^a-z0-9_]+/gi, "-")}`;

/**
 * What a field does, its range, its default and where that comes from.
 * @param {Field} field
 * @param {Record<string, string>} texts
 */
function hintOf(field, texts) {
  const parts = [field.hint];
  if (field.range) parts.push(`${texts.range_label}: ${field.range}.`);
  if (field.default_value) {
    parts.push(`${texts.default_label}: ${field.default_value} (${field.basis}).`);
  } else if (field.basis) {
    parts.push(`${texts.basis_label}: ${field.basis}.`);
  }
  return parts.join(" ");
}

/** @type {Element | null | undefined} The field that had the focus when the pointer went down. */
let left;
/** What is pressed must not move while its press lasts: the hint above it folds afterwards. */
function foldLate() {
  addEventListener("pointerdown", () => {
    left?.classList.remove("field--held");
    left = document.activeElement?.closest(".field, .crew__cell");
    left?.classList.add("field--held");
  }, { capture: true });
  for (const end of ["pointerup", "pointercancel"]) {
    addEventListener(end, () => {
      const field = left;
      setTimeout(() => field?.classList.remove("field--held"), 300);
    });
  }
}
foldLate();

export class Form {
  /**
   * @param {HTMLElement} primary
   * @param {HTMLElement} secondary
   * @param {HTMLElement} limits
   * @param {(path: string, text: string) => void} changed
   */
  constructor(primary, secondary, limits, changed) {
    this.primary = primary;
    this.secondary = secondary;
    this.limits = limits;
    this.changed = changed;
    this.shape = "";
    /** What is being typed, and not yet taken, stays in its field. */
    this.keepTyped = false;
    /** @type {Record<string, string>} */
    this.texts = {};
    /** @type {Map<string, {row: HTMLElement, input: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement}>} */
    this.rows = new Map();
    /** @type {Map<string, HTMLElement>} */
    this.briefs = new Map();
    /** @type {Set<string>} Folds that the visitor opened. */
    this.open = new Set(["below1"]);
  }

  /**
   * Shows the fields of the view.
   * @param {FormView} held
   * @param {View} view
   * @param {Record<string, string>} texts
   */
  show(held, view, texts) {
    this.texts = texts;
    const shape = JSON.stringify([view.language, view.units,
      held.fields.map((f) => [f.path, f.label, f.group_label, f.choices])]);
    if (shape !== this.shape) {
      this.shape = shape;
      this.build(held.fields, texts);
    }
    for (const field of held.fields) this.fill(field);
    // Feet with inches and their fractions need more room than a number.
    const words = [...this.crewOf(held.fields)].some((f) => f.value.length > CREW_LETTERS);
    document.querySelector(".crew")?.classList.toggle("crew--words", words);
    for (const [group, brief] of this.briefs) {
      const value = (/** @type {string} */ part) => {
        const field = held.fields.find((f) => f.group === group && f.path.endsWith(`.${part}`));
        if (!field) return "";
        return field.unit === "ft-in" ? field.value : `${field.value} ${field.unit}`.trim();
      };
      brief.textContent = group.startsWith("below")
        ? `+${value("height_m")}, ${value("from_m")} … ${value("to_m")}`
        : [value("position_m"), value("mass_kg")].filter(Boolean).join(", ");
    }
  }

  /**
   * Moves the focus to a field and opens what hides it.
   * @param {string} path
   */
  focus(path) {
    const input = this.rows.get(path)?.input;
    if (!input) return;
    for (let fold = input.closest("details"); fold;
      fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
    input.focus();
  }

  /**
   * @param {Field[]} fields
   * @param {Record<string, string>} texts
   */
  build(fields, texts) {
    const focused = document.activeElement?.id;
    this.rows.clear();
    this.briefs.clear();
    this.primary.replaceChildren();
    this.secondary.replaceChildren();
    this.limits.replaceChildren();
    /** @type {Map<string, Field[]>} */
    const groups = new Map();
    for (const field of fields) {
      if (/^(site\.below|own_limits)\.count$/.test(field.path)) continue;
      groups.set(field.group, [...(groups.get(field.group) ?? []), field]);
    }
    const crew = this.crewOf(fields);
    for (const key of FIRST) {
      const first = (groups.get(key) ?? []).filter((f) => f.primary && !crew.has(f));
      if (!first.length) continue;
      const block = this.block(first);
      if (key === "crew") block.append(this.crew(fields, texts));
      this.primary.append(block);
    }
    for (const [key, list] of groups) {
      if (key.startsWith("below")) {
        this.primary.append(this.fold(key, list, () => this.removeBelow(fields, key), texts));
        continue;
      }
      if (key === "sets") {
        this.limits.append(this.block(list));
        continue;
      }
      if (key.startsWith("own")) {
        const remove = () => {
          this.changed(`own_limits[${Number(key.slice(3)) - 1}].kept`, "off");
          element("add-own")?.focus();
        };
        this.limits.append(this.fold(key, list, remove, texts));
        continue;
      }
      const rest = list.filter((f) => !f.primary && !crew.has(f));
      if (rest.length) this.secondary.append(this.fold(key, rest, null, texts));
    }
    this.primary.append(this.adder("below", "site.below.count", fields, texts.page_add_below));
    this.limits.append(this.adder("own", "own_limits.count", fields, texts.page_add_own));
    if (focused) element(focused)?.focus();
  }

  /**
   * The fields that stand in the rows of the crew.
   * @param {Field[]} fields
   */
  crewOf(fields) {
    return new Set(fields.filter(({ path }) => CREW.some((cell) => cell.test(path))));
  }

  /**
   * The crew in rows: one for all, one for each.
   * @param {Field[]} fields
   * @param {Record<string, string>} texts
   */
  crew(fields, texts) {
    const crew = make("div", "crew");
    const cells = [...this.crewOf(fields)];
    const head = make("div", "crew__row crew__head");
    head.setAttribute("aria-hidden", "true");
    const unit = (/** @type {RegExp} */ cell) => {
      const { unit: name = "" } = cells.find((f) => cell.test(f.path)) ?? {};
      return name && name !== "ft-in" ? `, ${name}` : "";
    };
    head.append(make("span", "crew__who"), ...CREW.map((cell, i) =>
      make("span", "crew__name", texts[`page_crew_${CREW_NAMES[i]}`] + unit(cell))));
    crew.append(head);
    const rows = ["workers.all.", ...fields.map((f) => /^workers\[\d+\]\./.exec(f.path)?.[0] ?? "")];
    for (const start of new Set(rows)) {
      const own = start ? cells.filter((f) => f.path.startsWith(start)) : [];
      if (!own.length) continue;
      const number = /\d+/.exec(start)?.[0];
      const row = make("div", "crew__row");
      row.append(make("span", "crew__who",
        number === undefined ? texts.page_crew_all : String(Number(number) + 1)));
      for (const cell of CREW) {
        const field = own.find((f) => cell.test(f.path));
        row.append(field ? this.cell(field, number !== undefined) : make("span", "crew__none"));
      }
      crew.append(row);
    }
    return crew;
  }

  /**
   * A field in a row: its label is for who listens, its column names it.
   * @param {Field} field
   * @param {boolean} one it is about one worker
   */
  cell(field, one) {
    const cell = this.row(field);
    cell.className = "crew__cell";
    const label = /** @type {HTMLElement} */ (cell.firstElementChild);
    label.className = "unseen";
    if (one) label.prepend(`${field.group_label}, `);
    cell.querySelector(".field__unit")?.remove();
    return cell;
  }

  /** @param {Field[]} fields */
  block(fields) {
    const block = make("section", "group");
    const heading = make("h3", "group__heading", fields[0].group_label);
    block.append(heading, ...fields.map((field) => this.row(field)));
    return block;
  }

  /**
   * @param {string} key
   * @param {Field[]} fields
   * @param {(() => void) | null} remove
   * @param {Record<string, string>} texts
   */
  fold(key, fields, remove, texts) {
    const fold = make("details", "group__fold");
    fold.open = this.open.has(key);
    fold.addEventListener("toggle", () => {
      if (fold.open) this.open.add(key);
      else this.open.delete(key);
    });
    const summary = make("summary", "group__summary", `${fields[0].group_label} `);
    if (/^(worker|below)\d/.test(key)) {
      const brief = make("span", "group__brief");
      summary.append(brief);
      this.briefs.set(key, brief);
    }
    fold.append(summary, ...fields.map((field) => this.row(field)));
    if (remove) {
      const tools = make("div", "group__tools");
      const button = make("button", "button button--quiet group__tool", texts.page_remove);
      button.type = "button";
      button.setAttribute("aria-label", `${texts.page_remove}: ${fields[0].group_label}`);
      button.addEventListener("click", remove);
      tools.append(button);
      fold.append(tools);
    }
    return fold;
  }

  /**
   * The button that adds an entry to a list.
   * @param {string} group
   * @param {string} path of the number of entries
   * @param {Field[]} fields
   * @param {string} text
   */
  adder(group, path, fields, text) {
    const count = Number(fields.find((f) => f.path === path)?.value ?? 0);
    const tools = make("div", "group__tools");
    const button = make("button", "button button--quiet group__tool", text);
    button.type = "button";
    button.id = `add-${group}`;
    button.addEventListener("click", () => {
      this.open.add(`${group}${count + 1}`);
      this.changed(path, String(count + 1));
    });
    tools.append(button);
    return tools;
  }

  /**
   * Removes one thing below: those after it move up by one, the last goes.
   * @param {Field[]} fields
   * @param {string} key
   */
  removeBelow(fields, key) {
    const index = Number(key.slice(5)) - 1;
    const count = fields.filter((f) => /^site\.below\[\d+\]\.kind$/.test(f.path)).length;
    const value = (/** @type {string} */ path) => this.rows.get(path)?.input.value ?? "";
    for (let i = index; i + 1 < count; i += 1) {
      for (const part of ["kind", "height_m", "from_m", "to_m"]) {
        this.changed(`site.below[${i}].${part}`, value(`site.below[${i + 1}].${part}`));
      }
    }
    this.changed("site.below.count", String(count - 1));
    element("add-below")?.focus();
  }

  /** @param {Field} field */
  row(field) {
    const id = idOf(field.path);
    const spans = field.path === "line.spans_m";
    const falls = CREW[3].test(field.path);
    const wide = field.kind === "text" || field.path === "line.rope";
    const row = make("div", "field");
    if (wide) row.classList.add("field--wide");
    else if (field.kind === "choice") row.classList.add("field--choice");
    else if (spans) row.classList.add("field--list");
    // Feet and inches are written in the value itself.
    const words = field.unit === "ft-in";
    if (words) row.classList.add("field--words");
    const label = make("label", "field__label", field.label);
    label.htmlFor = id;
    if (field.unit) label.append(make("span", "unseen", ` (${field.unit})`));
    const input = falls ? make("input", "crew__falls")
      : field.choices ? make("select", "field__input")
        : make(spans ? "textarea" : "input", "field__input");
    input.id = id;
    input.name = field.path;
    if (input instanceof HTMLTextAreaElement) {
      input.rows = 1;
      input.autocomplete = "off";
      input.spellcheck = false;
      // A list that wraps, not lines of it.
      input.addEventListener("keydown", (event) => {
        if (event.key !== "Enter") return;
        event.preventDefault();
        input.dispatchEvent(new Event("change", { bubbles: true }));
      });
    } else if (falls) {
      /** @type {HTMLInputElement} */ (input).type = "checkbox";
    } else if (input instanceof HTMLInputElement) {
      input.type = "text";
      if (field.kind === "number") input.classList.add("field__input--number");
      input.autocomplete = "off";
      input.spellcheck = false;
      // Feet and inches have words in them: these need all letters.
      if (field.kind === "number" && !words) {
        input.inputMode = "decimal";
      }
    } else {
      for (const choice of field.choices ?? []) {
        input.append(new Option(choice.label, choice.value));
      }
    }
    input.setAttribute("aria-describedby", `${id}-hint ${id}-fault`);
    const text = () => {
      if (!falls) return input.value;
      return /** @type {HTMLInputElement} */ (input).checked ? "on" : "off";
    };
    input.addEventListener("change", () => this.changed(field.path, text()));
    const hint = make("p", "field__hint", hintOf(field, this.texts));
    hint.id = `${id}-hint`;
    const fault = make("p", "field__fault");
    fault.id = `${id}-fault`;
    fault.setAttribute("aria-live", "polite");
    row.append(label, input);
    if (!wide && !words && !spans && field.kind !== "choice") {
      const unit = make("span", "field__unit", field.unit);
      unit.setAttribute("aria-hidden", "true");
      row.append(unit);
    }
    row.append(fault, hint);
    this.rows.set(field.path, { row, input });
    return row;
  }

  /** @param {Field} field */
  fill(field) {
    const input = this.rows.get(field.path)?.input;
    if (!input) return;
    const typing = this.keepTyped && document.activeElement === input;
    if (input.type === "checkbox") {
      /** @type {HTMLInputElement} */ (input).checked = field.value === "on";
    } else if (input.value !== field.value && !typing) input.value = field.value;
    // A list as long as it may be stands whole.
    if (input instanceof HTMLTextAreaElement) {
      const rows = Math.ceil(Math.max(field.value.length, 1) / SPANS_LINE);
      if (input.rows !== rows) input.rows = rows;
    }
    const bad = field.fault !== null && field.fault !== undefined;
    input.setAttribute("aria-invalid", String(bad));
    const fault = element(`${input.id}-fault`);
    if (fault && fault.textContent !== (field.fault ?? "")) fault.textContent = field.fault ?? "";
    const hint = element(`${input.id}-hint`);
    const text = hintOf(field, this.texts);
    if (hint && hint.textContent !== text) hint.textContent = text;
  }
}
