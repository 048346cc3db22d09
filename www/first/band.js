// @ts-check
/**
 * The three lines of the answer, side by side: room, strength, anywhere on the line.
 *
 * @typedef {import("../pkg/footroom.js").Answer} Answer
 */
import { element, write } from "./elements.js";

/**
 * @param {Answer} answer
 * @param {boolean} stale it does not belong to what the fields hold
 */
export function showBand(answer, stale) {
  const band = element("band");
  band.hidden = !answer.lines.length;
  band.dataset.mark = stale ? "stale" : answer.mark;
  for (const line of answer.lines) {
    const block = element(`line-${line.key}`);
    block.dataset.mark = stale ? "stale" : line.mark;
    block.toggleAttribute("data-worst", line.mark === answer.mark);
    const [heading, sign, number, word, text] = [".band__heading", ".band__sign", "output",
      ".band__word", ".band__text"].map((part) => /** @type {HTMLElement} */ (
      block.querySelector(part)));
    write(heading, line.heading);
    write(sign, line.sign);
    write(number, line.number);
    write(word, line.word);
    write(text, line.text);
    if (line.key === "anywhere") {
      const show = element("show-worst");
      show.hidden = !line.show;
      write(show, line.show ?? "");
    }
  }
}
