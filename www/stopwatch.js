// A stopwatch for one hand beside a loud machine: one large button starts and stops it, and the time goes into a field.

import { button, el, say } from "./dom.js";

/** A second touch this soon, ms, is the same touch: a hand that shakes does not stop the clock. */
const BOUNCE = 500;

const seconds = (since) => Math.round((performance.now() - since) / 100) / 10;

/** Keeps the screen lit while the clock runs, where the browser can; the clock runs without it as well. */
const light = () => navigator.wakeLock?.request("screen").catch(() => undefined);

/** A stopwatch that adds its times to `control`, a text field of times apart by ";". */
export function stopwatch(control) {
  const what = control.labels[0].firstChild.textContent.trim().toLowerCase();
  const word = el("span", {}, `Start: ${what}`);
  const shown = el("span", { class: "running", "aria-hidden": "true" });
  const done = el("p", { class: "hint", role: "status" });
  let begun;
  let ticking;
  let lit;

  const start = () => {
    begun = performance.now();
    ticking = setInterval(() => say(shown, `${seconds(begun).toFixed(1)} s`), 100);
    lit = light();
    say(word, `Stop: ${what}`);
    say(done);
  };
  const stop = () => {
    const time = `${seconds(begun)} s`;
    begun = undefined;
    clearInterval(ticking);
    lit?.then((lock) => lock?.release());
    say(word, `Start: ${what}`);
    say(shown);
    const before = control.value.trim();
    control.value = before ? `${before}; ${time}` : time;
    control.dispatchEvent(new Event("input", { bubbles: true }));
    say(done, `${time} added.`);
  };
  const press = () => {
    if (begun === undefined) start();
    else if (performance.now() - begun > BOUNCE) stop();
  };
  const face = button(word, press);
  face.append(shown);
  return el("div", { class: "clock" }, face, done);
}
