// The answer: the sentence, how sure, what to do next, and the tank's pressure in a strip. Its place is kept whatever it says.

import { each, el, say, sentences, setMark, svg } from "./dom.js";
import { figures } from "./figures.js";
import { copy } from "./share.js";

/** @import { Answer, Chart, Fault, Report } from "./core.js" */

/** @param {string} id */
const at = (id) => document.getElementById(id);

/** ms after the last change when a screen reader is told. */
const SPEAK_MS = 900;
/** Words that are spoken at most. */
const SPOKEN = 25;

let timer = 0;

/** Tells a screen reader once typing rests.
 * @param {string} text */
function speak(text) {
  clearTimeout(timer);
  const words = text.split(/\s+/u);
  timer = setTimeout(() => say(at("spoken"), words.length > SPOKEN ? `${words.slice(0, SPOKEN).join(" ")} …` : text), SPEAK_MS);
}

/** Shows the first thing seen.
 * @param {Answer} answer */
export function showAnswer({ grade, verdict, sentence, odds, next }) {
  setMark(at("answer"), grade);
  say(at("verdict"), verdict);
  say(at("sentence"), sentence);
  say(at("odds"), odds);
  say(at("next"), next);
  speak(`${sentence} ${odds}`);
}

/** The picture of the tank's pressure with the names of its levels: all its words stand in the fold.
 * @param {Chart} chart */
export function showStrip({ size, plot, strokes, bands, labels, summary }) {
  const strip = at("strip");
  const drawn = size[0] > 0 && strokes.length > 0;
  strip.classList.toggle("empty", !drawn);
  say(at("strip-says"), drawn ? (bands.length ? "Tank pressure; hatched: you wait" : "Tank pressure") : "");
  at("strip-levels").replaceChildren();
  if (!drawn) return strip.replaceChildren();
  const [left, top, width, height] = plot;
  for (const { text, at: [, y] } of labels) {
    const level = el("span", {}, text);
    level.style.top = `${(100 * (y - top)) / height}%`;
    at("strip-levels").append(level);
  }
  strip.setAttribute("viewBox", `${left} ${top} ${width} ${height}`);
  strip.replaceChildren(
    svg("title", {}, summary),
    ...bands.map(({ style, rect: [x, y, w, h] }) => svg("rect", { x, y, width: w, height: h, class: `band ${style}` })),
    ...strokes.map(({ style, points }) => svg("polyline", { points, class: `stroke ${style}` })),
  );
}

/** Shows what to look for.
 * @param {Report["window"]} window */
export function showWindow({ sentence, why, figures: sums }) {
  const fold = at("on-window");
  fold.hidden = sentence === "";
  say(fold.querySelector(".sums"), sentence);
  sentences(at("window-why"), why);
  figures(at("window-sums"), sums, "window");
}

/** Lists the fields that could not be read and are out of sight; `name(path)` and `goTo(path)` know the fields.
 * @param {Fault[]} faults
 * @param {(path: string) => string} name
 * @param {(path: string) => void} goTo */
export function showUnread(faults, name, goTo) {
  at("unread").hidden = faults.length === 0;
  each(
    at("unread").querySelector("ul"),
    faults,
    () => {
      const link = el("button", { type: "button", class: "plain" });
      link.addEventListener("click", () => goTo(link.value));
      return el("li", {}, link, el("span"));
    },
    (node, { field, message }) => {
      const link = node.querySelector("button");
      link.value = field;
      say(link, name(field));
      say(node.lastElementChild, ` ${message}`);
    },
  );
}

/** Wires the buttons that belong to the answer. */
export function wireAnswer() {
  at("window-copy").addEventListener("click", async (event) => {
    const button = /** @type {HTMLElement} */ (event.currentTarget);
    const done = await copy(at("on-window").querySelector(".sums").textContent);
    say(button, done ? "Copied" : "Select the sentence and copy it");
  });
}
