// @ts-check
/**
 * The workers beside the page: hands tasks to those that are free, first come first served, and
 * drops what is not wanted any more. A worker that is long at something unwanted is ended; one is
 * kept from long tasks, so that there is always one that can start at once.
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
 */
import { officeModule } from "./module.js";

/** More do not make the map quicker: it has eight rows. */
const HELPERS_MAX = 4;

const most = Math.min(Math.max(navigator.hardwareConcurrency || 2, 1), HELPERS_MAX);
/** Helpers that stand ready before anything is asked, and that may be long at something. */
const READY = Math.min(most, 2);
const LONG_MAX = Math.max(most - 1, 1);

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
  const helper = { worker, task: null };
  helpers.push(helper);
  const over = (/** @type {unknown} */ error) => {
    const { task } = helper;
    end(helper);
    task?.failed(error);
    next();
  };
  worker.addEventListener("message", ({ data }) => {
    if (data.error) {
      over(data.error);
      return;
    }
    const { task } = helper;
    helper.task = null;
    next();
    task?.done(data.value);
  });
  worker.addEventListener("error", (event) => over(event.message));
  officeModule().then((module) => worker.postMessage({ module })).catch(over);
  return helper;
}

/** The first task that may start now, taken out of those that wait. */
function startable() {
  const long = helpers.filter(({ task }) => task?.long).length;
  const at = waiting.findIndex((task) => !task.long || long < LONG_MAX);
  return at < 0 ? null : waiting.splice(at, 1)[0];
}

function next() {
  for (;;) {
    const free = helpers.find((one) => !one.task);
    if (!free && helpers.length >= most) return;
    const task = startable();
    if (!task) return;
    const helper = free ?? another();
    helper.task = task;
    const { subject, method, args } = task;
    // Behind the module, which it may still wait for; where that fails, so does the task.
    officeModule().then(() => helper.worker.postMessage({ subject, method, args })).catch(() => {});
  }
}

/** Starts the first helpers, so that they need not be waited for. */
export function prepare() {
  while (helpers.length < READY) another();
}

/**
 * Asks for a value of the planner.
 * @param {Task} task
 */
export function ask(task) {
  waiting.push(task);
  next();
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
  prepare();
}
