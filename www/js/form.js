// @ts-check
/**
 * The inputs: one row a field of the view, kept in step with it. All words come with the view.
 *
 * @typedef {import("../pkg/footroom.js").View} View
 * @typedef {import("../pkg/footroom.js").Field} Field
 */

/** Groups whose fields stand first, in this order; things below follow the site. */
const FIRST = ["line", "crew", "site"];

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {string} name
 * @param {string} [text]
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, name, text) {
  const made = document.createElement(tag);
  made.className = name;
  if (text !== undefined) made.textContent = text;
  return made;
}

/** @param {string} path */
const idOf = (path) => `in-${path.replaceAll(/[^a-z0-9_]+/gi, "-")}`;

/** @param {Field} field */
const hintOf = (field) => [field.hint, field.range,
  field.default_value && `${field.default_value}: ${field.basis}`,
  !field.default_value && field.basis].filter(Boolean).join(" · ");

export class Form {
  /**
   * @param {HTMLElement} primary
   * @param {HTMLElement} secondary
   * @param {(path: string, text: string) => void} changed
   */
  constructor(primary, secondary, changed) {
    this.primary = primary;
    this.secondary = secondary;
    this.changed = changed;
    this.shape = "";
    /** @type {Map<string, {row: HTMLElement, input: HTMLInputElement | HTMLSelectElement}>} */
    this.rows = new Map();
    /** @type {Map<string, HTMLElement>} */
    this.briefs = new Map();
    /** @type {Set<string>} Folds that the visitor opened. */
    this.open = new Set(["below1"]);
  }

  /**
   * Shows the fields of the view.
   * @param {View} view
   * @param {Record<string, string>} texts
   */
  show(view, texts) {
    const shape = JSON.stringify([view.language, view.units,
      view.fields.map((f) => [f.path, f.label, f.group_label, f.choices])]);
    if (shape !== this.shape) {
      this.shape = shape;
      this.build(view.fields, texts);
    }
    for (const field of view.fields) this.fill(field);
    for (const [group, brief] of this.briefs) {
      const shown = view.fields.filter((f) => f.group === group
        && /\.(position_m|mass_kg|height_m|from_m|to_m)$/.test(f.path));
      brief.textContent = shown.map((f) => `${f.value} ${f.unit}`.trim()).join(" · ");
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
    /** @type {Map<string, Field[]>} */
    const groups = new Map();
    for (const field of fields) {
      if (field.path === "site.below.count") continue;
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
      const rest = list.filter((f) => !f.primary);
      if (rest.length) this.secondary.append(this.fold(key, rest, null, texts));
    }
    this.primary.append(this.addBelow(fields, texts));
    if (focused) document.getElementById(focused)?.focus();
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
      const button = make("button", "button button--quiet", texts.page_remove);
      button.type = "button";
      button.setAttribute("aria-label", `${texts.page_remove}: ${fields[0].group_label}`);
      button.addEventListener("click", remove);
      tools.append(button);
      fold.append(tools);
    }
    return fold;
  }

  /**
   * @param {Field[]} fields
   * @param {Record<string, string>} texts
   */
  addBelow(fields, texts) {
    const count = Number(fields.find((f) => f.path === "site.below.count")?.value ?? 0);
    const tools = make("div", "group__tools");
    const button = make("button", "button button--quiet", texts.page_add_below);
    button.type = "button";
    button.id = "add-below";
    button.addEventListener("click", () => {
      this.open.add(`below${count + 1}`);
      this.changed("site.below.count", String(count + 1));
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
    document.getElementById("add-below")?.focus();
  }

  /** @param {Field} field */
  row(field) {
    const id = idOf(field.path);
    const wide = field.kind === "text" || field.path === "line.rope";
    const row = make("div", "field");
    if (wide) row.classList.add("field--wide");
    else if (field.kind === "choice") row.classList.add("field--choice");
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
      if (field.kind === "number" && !/spans|[a-z] /.test(field.path)) input.inputMode = "decimal";
      if (/spans/.test(field.path)) input.inputMode = "text";
    } else {
      for (const choice of field.choices ?? []) {
        input.append(new Option(choice.label, choice.value));
      }
    }
    input.setAttribute("aria-describedby", `${id}-hint ${id}-fault`);
    input.addEventListener("change", () => this.changed(field.path, input.value));
    const hint = make("p", "field__hint", hintOf(field));
    hint.id = `${id}-hint`;
    const fault = make("p", "field__fault");
    fault.id = `${id}-fault`;
    fault.setAttribute("aria-live", "polite");
    row.append(label, input);
    if (!wide && field.kind !== "choice") {
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
    if (input.value !== field.value) input.value = field.value;
    const bad = field.fault !== null && field.fault !== undefined;
    input.setAttribute("aria-invalid", String(bad));
    const fault = document.getElementById(`${input.id}-fault`);
    if (fault && fault.textContent !== (field.fault ?? "")) fault.textContent = field.fault ?? "";
    const hint = document.getElementById(`${input.id}-hint`);
    const text = hintOf(field);
    if (hint && hint.textContent !== text) hint.textContent = text;
  }
}
