// @ts-check
/**
 * The workers beside the page: hands tasks to those that are free, first come first served, and
 * drops what is not wanted any more. A worker that is long at something unwanted is ended; one is
 * kept from long tasks, so that there is always one that can start at once. Of short tasks each has
 * the next ones at hand, so that it need not wait for a page that is busy painting. Where no worker
 * can be had, the page works itself, a task at a time. What a worker dies of, with a word or without,
 * another one tries once more; then it has failed.
 *
 * @typedef {[string, string, string]} Subject case, language, units
 * @typedef {object} Task
 * @property {string} owner
 * @property {Subject} subject
 * @property {string} method
 * @property {any[]} args
 * @property {boolean} long ended, not waited for, when it is not wanted any more
 * @property {(value: any) => void} [progress] it is made in steps: what each but the last gives
 * @property {string} [leaves] what the worker keeps of it
 * @property {string} [builds] what it goes on from; any worker can do without
 * @property {(value: any) => void} done
 * @property {() => void} [failed] without it nothing is done: null
 * @property {boolean} [again] it has ended a helper before
 *
 * @typedef {object} Helper
 * @property {Worker} worker
 * @property {Map<number, Task>} tasks the one at work and the next, by their numbers
 * @property {boolean} long it is at a long task
 * @property {Set<string | undefined>} keeps
 * @property {boolean} proven it has started
 */
import { plannerModule } from "./module.js";
import { scriptAddress } from "./trusted.js";

/** More do not make the map quicker: what they take to start is longer than it. */
const HELPERS_MAX = 4;
/** Short tasks that a helper has at most: a cell of the map takes 4 ms, the page's picture 30. */
const AT_HAND = 8;

/** Helpers that may be had; fewer when some cannot be started. */
let most = Math.min(Math.max(navigator.hardwareConcurrency || 2, 1), HELPERS_MAX);
/** Helpers that stand ready before anything is asked. */
const READY = 2;

/** @type {Task[]} */
const waiting = [];
/** @type {Helper[]} */
const helpers = [];
/** Tasks handed out so far. */
let handed = 0;
/** The page is at work itself. */
let alone = false;
/** What to do when the page's own work has ended in a trap. */
let trapped = () => {};

/** @param {Task} task */
const fail = ({ failed, done }) => (failed ? failed() : done(null));

/**
 * Ends a helper; what it had at hand waits again.
 * @param {Helper} helper
 */
function end(helper) {
  helper.worker.terminate();
  helpers.splice(helpers.indexOf(helper), 1);
  waiting.unshift(...helper.tasks.values());
}

/** @returns {Helper | null} null: none can be had */
function another() {
  /** @type {Worker} */
  let worker;
  try {
    const address = scriptAddress(new URL("worker.js", import.meta.url));
    worker = new Worker(address, { type: "module" });
  } catch {
    most = helpers.length;
    return null;
  }
  /** @type {Helper} */
  const helper = { worker, tasks: new Map(), long: false, keeps: new Set(),
    proven: false };
  helpers.push(helper);
  const lost = () => {
    if (!helpers.includes(helper)) return;
    const [at] = helper.tasks;
    // It has not even started: so it would be with the next.
    if (!helper.proven) most -= 1;
    const failed = helper.proven && at?.[1].again;
    if (failed) helper.tasks.delete(at[0]);
    else if (helper.proven && at) at[1].again = true;
    end(helper);
    if (failed) fail(at[1]);
    next();
  };
  const name = `footroom ${Math.random()}`;
  worker.addEventListener("message", ({ data }) => {
    if (!helpers.includes(helper)) return;
    if (data.error) {
      lost();
      return;
    }
    // No event tells that the browser has ended a worker, but the lock that it holds is free then.
    if (data.held) navigator.locks?.request(name, lost).catch(() => {});
    helper.proven = true;
    const task = helper.tasks.get(data.number);
    if ("progress" in data) {
      task?.progress?.(data.progress);
      return;
    }
    helper.tasks.delete(data.number);
    helper.long &&= !task?.long;
    next();
    task?.done(data.value);
  });
  worker.addEventListener("error", lost);
  plannerModule().then((module) => worker.postMessage({ module, name })).catch(lost);
  return helper;
}

/**
 * Where among those that wait the task stands that a helper starts next; -1: nowhere.
 * @param {Helper | undefined} helper undefined: one that is still to be started
 */
function startable(helper) {
  const mayBeLong = !helper?.tasks.size
    && helpers.filter(({ long }) => long).length < Math.max(most - 1, 1);
  const first = waiting.findIndex((task) => !task.long || mayBeLong);
  const builds = waiting[first]?.builds;
  if (!helper || !builds || helper.keeps.has(builds)) return first;
  // It rather goes on from what it has than from what another one has.
  const own = waiting.findIndex((task) => task.builds && helper.keeps.has(task.builds));
  return own < 0 ? first : own;
}

function next() {
  while (waiting.length) {
    if (most < 1) {
      void workAlone();
      return;
    }
    const [least] = helpers.filter(({ tasks, long }) => tasks.size < AT_HAND && !long)
      .sort((a, b) => a.tasks.size - b.tasks.size);
    const idle = least?.tasks.size ? undefined : least;
    const free = idle ?? (helpers.length < most ? undefined : least);
    if (!free && helpers.length >= most) return;
    const at = startable(free);
    if (at < 0) return;
    const helper = free ?? another();
    if (!helper) continue;
    const [task] = waiting.splice(at, 1);
    const number = handed += 1;
    helper.tasks.set(number, task);
    helper.long = task.long;
    helper.keeps.add(task.leaves);
    const { subject, method, args } = task;
    const steps = Boolean(task.progress);
    // Behind the module, which it may still wait for; where that fails, so does the task.
    plannerModule().then(() => helper.worker.postMessage({
      task: { number, subject, method, args, steps },
    })).catch(() => {});
  }
}

/** Works on the page, which gets its turn after each task. */
async function workAlone() {
  if (alone) return;
  alone = true;
  /** @type {typeof import("../pkg/planner.js")} */
  let part;
  try {
    part = await import("../pkg/planner.js");
    await part.default({ module_or_path: await plannerModule() });
  } catch {
    alone = false;
    waiting.splice(0).forEach(fail);
    return;
  }
  /** @type {import("../pkg/planner.js").Planner | null} */
  let planner = null;
  let subject = "";
  try {
    while (waiting.length) {
      await new Promise((turn) => setTimeout(turn));
      const task = waiting.shift();
      if (!task) break;
      const wanted = JSON.stringify(task.subject);
      if (subject !== wanted) {
        planner?.free();
        planner = new part.Planner(...task.subject);
        subject = wanted;
      }
      const value = /** @type {any} */ (planner)[task.method](...task.args);
      if (task.progress && value?.done === false) {
        // It waits again, so that it can be dropped.
        waiting.unshift(task);
        task.progress(value);
      } else {
        task.done(value);
      }
    }
    planner?.free();
    alone = false;
  } catch (error) {
    // After a trap the planner cannot be relied on, and there is no other.
    console.error(error);
    waiting.length = 0;
    trapped();
  }
}

/**
 * Starts the first helpers, so that they need not be waited for.
 * @param {() => void} [onTrap] gives the page's calculation up
 */
export function prepare(onTrap) {
  trapped = onTrap ?? trapped;
  while (helpers.length < Math.min(READY, most) && another());
}

/**
 * Asks for values of the planner.
 * @param {Task[]} tasks
 */
export function ask(...tasks) {
  waiting.push(...tasks);
  next();
}

/**
 * Drops all that an owner has asked for.
 * @param {string} owner
 */
export function drop(owner) {
  const wanted = (/** @type {Task} */ task) => task.owner !== owner;
  for (const helper of [...helpers]) {
    const forget = [...helper.tasks].filter(([, task]) => !wanted(task)).map(([number]) => number);
    for (const number of forget) helper.tasks.delete(number);
    if (!forget.length) continue;
    if (helper.long) end(helper);
    else plannerModule().then(() => helper.worker.postMessage({ forget })).catch(() => {});
  }
  waiting.splice(0, waiting.length, ...waiting.filter(wanted));
  prepare();
}
