// @ts-check
/**
 * The colours of the style sheet, resolved for the canvases, and the moments at which they change.
 */

export const ROLES = ["ink", "paper", "line", "absorber", "below", "person", "margin", "accent", "muted",
  "warning", "concrete"];

const QUERIES = ["(prefers-color-scheme: dark)", "(forced-colors: active)",
  "(prefers-contrast: more)"];

/** @type {HTMLElement | null} */
let probe = null;

/**
 * Reads every role as the browser computes it, forced colours included.
 * @returns {Record<string, string>}
 */
export function readTheme() {
  if (!probe) {
    probe = document.createElement("span");
    probe.className = "unseen";
    probe.setAttribute("aria-hidden", "true");
    probe.style.setProperty("forced-color-adjust", "none");
    document.body.append(probe);
  }
  const style = getComputedStyle(probe);
  /** @type {Record<string, string>} */
  const theme = { font: style.fontFamily };
  for (const role of ROLES) {
    probe.style.color = `var(--${role})`;
    theme[role] = style.color;
  }
  return theme;
}

/**
 * Calls back whenever the colours or the pixel ratio may have changed.
 * @param {() => void} changed
 */
export function watchTheme(changed) {
  for (const query of QUERIES) matchMedia(query).addEventListener("change", changed);
  // A canvas that has lost its surface gets an empty one.
  document.addEventListener("contextrestored", changed, true);
  const watchRatio = () => {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener("change", () => {
      watchRatio();
      changed();
    }, { once: true });
  };
  watchRatio();
}
