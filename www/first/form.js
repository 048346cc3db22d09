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
    /** @type {Map<string, {row: HTMLElement, input: HTMLInputElement | HTMLSelectElement}>} */
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
    for (const key of FIRST) {
      const first = (groups.get(key) ?? []).filter((f) => f.primary);
      if (first.length) this.primary.append(this.block(first));
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
      const rest = list.filter((f) => !f.primary);
      if (rest.length) this.secondary.append(this.fold(key, rest, null, texts));
    }
    this.primary.append(this.adder("below", "site.below.count", fields, texts.page_add_below));
    this.limits.append(this.adder("own", "own_limits.count", fields, texts.page_add_own));
    if (focused) element(focused)?.focus();
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
    const wide = field.kind === "text" || field.path === "line.rope";
    const row = make("div", "field");
    if (wide) row.classList.add("field--wide");
    else if (field.kind === "choice") row.classList.add("field--choice");
    else if (field.path === "line.spans_m") row.classList.add("field--list");
    // Feet and inches are written in the value itself.
    const words = field.unit === "ft-in";
    if (words) row.classList.add("field--words");
    const label = make("label", "field__label", field.label);
    label.htmlFor = id;
    if (field.unit) label.append(make("span", "unseen", ` (${field.unit})`));
    const input = field.choices ? make("select", "field__input") : make("input", "field__input");
    input.id = id;
    input.name = field.path;
    if (input instanceof HTMLInputElement) {
      input.type = "text";
      if (field.kind === "number") input.classList.add("field__input--number");
      input.autocomplete = "off";
      input.spellcheck = false;
      // Spans are a list, and feet and inches have words in them: these need all letters.
      if (field.kind === "number" && !words && field.path !== "line.spans_m") {
        input.inputMode = "decimal";
      }
    } else {
      for (const choice of field.choices ?? []) {
        input.append(new Option(choice.label, choice.value));
      }
    }
    input.setAttribute("aria-describedby", `${id}-hint ${id}-fault`);
    input.addEventListener("change", () => this.changed(field.path, input.value));
    const hint = make("p", "field__hint", hintOf(field, this.texts));
    hint.id = `${id}-hint`;
    const fault = make("p", "field__fault");
    fault.id = `${id}-fault`;
    fault.setAttribute("aria-live", "polite");
    row.append(label, input);
    if (!wide && !words && field.kind !== "choice") {
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
    if (input.value !== field.value && !typing) input.value = field.value;
    // A list may be longer than its place.
    if (field.path === "line.spans_m" && input.title !== field.value) input.title = field.value;
    const bad = field.fault !== null && field.fault !== undefined;
    input.setAttribute("aria-invalid", String(bad));
    const fault = element(`${input.id}-fault`);
    if (fault && fault.textContent !== (field.fault ?? "")) fault.textContent = field.fault ?? "";
    const hint = element(`${input.id}-hint`);
    const text = hintOf(field, this.texts);
    if (hint && hint.textContent !== text) hint.textContent = text;
  }
}
