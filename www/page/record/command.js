// @ts-check
/** The commands of the record's views. */
import { make } from "../../first/elements.js";

/**
 * @param {string} text
 * @param {() => void} act
 * @param {string} [extra]
 */
export function command(text, act, extra = "") {
  const made = make("button", `button ${extra}`.trim(), text);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}
