// @ts-check
/**
 * Beside the page: computes what takes many runs, one piece a message, so that the page stays free.
 * What lies here to be done is looked at anew after each piece: it may not be wanted any more. A task
 * in steps is such a piece at each step, and tells how far it is.
 *
 * @typedef {import("../pkg/planner.js").Planner} Planner
 * @typedef {object} Task
 * @property {number} number under which the answer goes back
 * @property {[string, string, string]} subject case, language, units
 * @property {string} method of the planner
 * @property {any[]} args
 * @property {boolean} [steps] it is asked again until its value says that it is done
 *
 * @typedef {object} Message one of these
 * @property {WebAssembly.Module} [module] first
 * @property {string} [name] with it: of the lock that this worker holds as long as it lives
 * @property {Task} [task]
 * @property {number[]} [forget]
 */
import { initSync, Planner } from "../pkg/planner.js";

/**
 * Planners by their subject, the last used last: tasks in steps go on from what theirs has.
 * @type {Map<string, Planner>}
 */
const planners = new Map();
/** As many layouts as there can be, the shown case, and one to compare it with. */
const PLANNERS_MAX = 6;

/** @param {[string, string, string]} subject */
function plannerOf(subject) {
  const key = JSON.stringify(subject);
  const planner = planners.get(key) ?? new Planner(...subject);
  planners.delete(key);
  planners.set(key, planner);
  const [oldest] = planners;
  if (planners.size > PLANNERS_MAX) {
    oldest[1].free();
    planners.delete(oldest[0]);
  }
  return planner;
}
/** @type {Task[]} */
let tasks = [];

/** Takes its turn behind the messages that have come meanwhile. */
const turn = new MessageChannel();
/** Not before it has begun. */
let due = true;

function next() {
  if (due || !tasks.length) return;
  due = true;
  turn.port2.postMessage(null);
}

/** @param {boolean} held that its lock says that it lives */
function begin(held) {
  postMessage({ held });
  due = false;
  next();
}

/** @param {() => void} act */
function told(act) {
  try {
    act();
  } catch (error) {
    // After a trap nothing here can be relied on: the page starts another worker.
    postMessage({ error: String(error) });
  }
}

turn.port1.addEventListener("message", () => told(() => {
  due = false;
  const task = tasks.shift();
  if (!task) return;
  const value = /** @type {any} */ (plannerOf(task.subject))[task.method](...task.args);
  const unfinished = task.steps && value?.done === false;
  if (unfinished) tasks.push(task);
  postMessage({ number: task.number, [unfinished ? "progress" : "value"]: value });
  next();
}));
turn.port1.start();

addEventListener("message", (/** @type {MessageEvent<Message>} */ { data }) => told(() => {
  const { module, name, task, forget } = data;
  if (module) {
    initSync({ module });
    const { locks } = navigator;
    if (!locks) begin(false);
    locks?.request(name ?? "", () => {
      begin(true);
      return new Promise(() => {});
    }).catch(() => begin(false));
  }
  if (task) tasks.push(task);
  if (forget) tasks = tasks.filter(({ number }) => !forget.includes(number));
  next();
}));
