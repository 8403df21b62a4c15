// A clock for one hand beside a loud machine: one large button or the space bar, says when to press, can be cancelled, counts on over
// a reload, shows its runs and lets a bad one be struck.

import { button, el, say } from "./dom.js";

/** A second touch this soon, ms, is the same touch: a hand that shakes does not stop the clock. */
const BOUNCE = 500;

/** When to press, by field. @type {Record<string, string[]>} */
const WHEN = {
  pump_up: ["Press as the motor starts on the drained tank", "Press as the motor stops"],
  leak_time: ["Press with the motor off and the gauge at the first reading", "Press as the gauge comes to the second reading"],
};

/** @param {string} own */
const key = (own) => `bellows.clock.${own}`;

/** Where storage is refused the clock runs on without a memory.
 * @param {string} own
 * @param {number} [begun] */
function remember(own, begun) {
  try {
    if (begun === undefined) sessionStorage.removeItem(key(own));
    else sessionStorage.setItem(key(own), String(begun));
  } catch {
    // It still counts.
  }
}

/** @param {string} own */
function remembered(own) {
  try {
    return Number(sessionStorage.getItem(key(own))) || undefined;
  } catch {
    return undefined;
  }
}

/** @param {string} text */
const runsIn = (text) => text.split(";").map((run) => run.trim()).filter(Boolean);

/** Keeps the screen lit while the clock runs, where the browser can. */
const light = () => navigator.wakeLock?.request("screen").catch(() => /** @type {undefined} */ (undefined));

/** A clock that adds its times to `control`, a text field of times apart by ";". @param {HTMLInputElement} control */
export function timer(control) {
  const { own } = control.dataset;
  const [start, stop] = WHEN[own];
  const word = el("span", {}, `Start. ${start}.`);
  const shown = el("span", { class: "running", "aria-hidden": "true" });
  const runs = el("ul", { class: "runs" });
  const done = el("p", { class: "hint", role: "status" });
  let begun = remembered(own);
  let ticking = 0;
  /** @type {Promise<WakeLockSentinel | undefined> | undefined} */
  let lit;
  const seconds = () => Math.round((Date.now() - begun) / 100) / 10;

  /** @param {string[]} list */
  const put = (list) => {
    control.value = list.join("; ");
    control.dispatchEvent(new Event("input", { bubbles: true }));
    showRuns();
  };
  const showRuns = () => {
    const list = runsIn(control.value);
    runs.replaceChildren(...list.map((run, index) => el("li", {}, `${run} `, button("Strike", () => {
      put(list.filter((_, other) => other !== index));
      face.focus();
    }, { class: "plain", "aria-label": `Strike the run of ${run}` }))));
  };
  const run = () => {
    ticking = setInterval(() => say(shown, `${seconds().toFixed(1)} s`), 100);
    lit = light();
    say(word, `Stop. ${stop}.`);
    node.classList.add("on");
    cancel.hidden = false;
    say(done);
  };
  const rest = () => {
    begun = undefined;
    remember(own, undefined);
    clearInterval(ticking);
    lit?.then((lock) => lock?.release());
    say(word, `Start. ${start}.`);
    say(shown);
    node.classList.remove("on");
    cancel.hidden = true;
  };
  const press = () => {
    if (begun === undefined) {
      begun = Date.now();
      remember(own, begun);
      run();
    } else if (Date.now() - begun > BOUNCE) {
      const time = `${seconds()} s`;
      rest();
      put([...runsIn(control.value), time]);
      say(done, `${time} added.`);
    }
  };
  const face = button(word, press, { class: "face" });
  face.append(shown);
  const cancel = button("Cancel this run", () => {
    rest();
    say(done, "Cancelled.");
    face.focus();
  }, { hidden: true });
  const node = el("div", { class: "clock" }, face, cancel, runs, done);
  control.addEventListener("change", showRuns);
  if (begun !== undefined) run();
  return { node, showRuns };
}
