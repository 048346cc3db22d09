// @ts-check
/**
 * Watches the page's start: a script that is missing, or ends in an error, would leave the page with
 * the words that it is loading. It needs no other script, and what it says stands in the page.
 */
"use strict";

(() => {
  const give_up = () => {
    const { body } = document;
    if (body?.dataset.state !== "loading") return;
    body.dataset.state = "failed";
    body.dataset.why = "files";
    for (const [id, hidden] of /** @type {[string, boolean][]} */ ([["loading", true],
      ["failed", false], ["reload", false]])) {
      const element = document.getElementById(id);
      if (element) element.hidden = hidden;
    }
    document.getElementById("reload")?.addEventListener("click", () => location.reload());
  };
  addEventListener("error", ({ target }) => {
    if (target === window || target instanceof HTMLScriptElement) give_up();
  }, true);
  addEventListener("unhandledrejection", give_up);
})();
