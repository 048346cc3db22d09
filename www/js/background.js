// @ts-check
/**
 * The workers beside the page: hands tasks to those that are free, first come first served, and
 * drops what is not wanted any more. A worker that is long at something unwanted is ended.
 *
 * @typedef {[string, string, string]} Subject case, language, units
 * @typedef {object} Task
 * @property {string} owner
 * @property {Subject} subject
 * @property {string} method
 * @property {any[]} args
 * @property {boolean} long ended, not waited for, when it is not wanted any more
 * @property {(value: any) => void} done
 * @property {(error: unknown) => void} failed
 *
 * @typedef {object} Helper
 * @property {Worker} worker
 * @property {Task | null} task
 * @property {boolean} loaded
 */
import { officeModule } from "./module.js";

/** More do not make the map quicker: it has eight rows. */
const HELPERS_MAX = 4;

/** @type {Task[]} */
const waiting = [];
/** @type {Helper[]} */
const helpers = [];

/** @param {Helper} helper */
function end(helper) {
  helper.worker.terminate();
  helpers.splice(helpers.indexOf(helper), 1);
}

/** @returns {Helper} */
function another() {
  const worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
  /** @type {Helper} */
  const helper = { worker, task: null, loaded: false };
  helpers.push(helper);
  const over = (/** @type {unknown} */ error) => {
    const { task } = helper;
    end(helper);
    task?.failed(error);
    void next();
  };
  worker.addEventListener("message", ({ data }) => {
    if (data.error) {
      over(data.error);
      return;
    }
    const { task } = helper;
    helper.task = null;
    void next();
    task?.done(data.value);
  });
  worker.addEventListener("error", (event) => over(event.message));
  return helper;
}

async function next() {
  const module = await officeModule();
  const most = Math.min(Math.max(navigator.hardwareConcurrency || 2, 1), HELPERS_MAX);
  while (waiting.length) {
    const helper = helpers.find((one) => !one.task) ?? (helpers.length < most ? another() : null);
    if (!helper) return;
    const task = /** @type {Task} */ (waiting.shift());
    helper.task = task;
    const { subject, method, args } = task;
    const first = helper.loaded ? {} : { module };
    helper.loaded = true;
    helper.worker.postMessage({ subject, method, args, ...first });
  }
}

/**
 * Asks for a value of the planner.
 * @param {Task} task
 */
export function ask(task) {
  waiting.push(task);
  void next().catch(task.failed);
}

/**
 * Drops all that an owner has asked for.
 * @param {string} owner
 */
export function drop(owner) {
  for (let i = waiting.length - 1; i >= 0; i -= 1) {
    if (waiting[i].owner === owner) waiting.splice(i, 1);
  }
  for (const helper of [...helpers]) {
    if (helper.task?.owner !== owner) continue;
    if (helper.task.long) end(helper);
    else helper.task = { ...helper.task, done: () => {}, failed: () => {} };
  }
}
