// @ts-check
/**
 * Beside the page: computes what takes many runs, one piece a message, so that the page stays free.
 *
 * @typedef {import("../pkg/office.js").Planner} Planner
 * @typedef {object} Task
 * @property {WebAssembly.Module} [module] first and alone
 * @property {[string, string, string]} subject case, language, units
 * @property {string} method of the planner
 * @property {any[]} args
 */
import { initSync, Planner } from "../pkg/office.js";

/** @type {Planner | null} */
let planner = null;
let subject = "";

addEventListener("message", (/** @type {MessageEvent<Task>} */ { data }) => {
  try {
    if (data.module) {
      initSync({ module: data.module });
      return;
    }
    const wanted = JSON.stringify(data.subject);
    if (subject !== wanted) {
      planner?.free();
      planner = null;
      planner = new Planner(...data.subject);
      subject = wanted;
    }
    const value = /** @type {any} */ (planner)[data.method](...data.args);
    postMessage({ value });
  } catch (error) {
    // After a trap nothing here can be relied on: the page starts another worker.
    postMessage({ error: String(error) });
  }
});
