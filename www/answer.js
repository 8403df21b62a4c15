// The answer: verdict, sentence, reasons, the shopping window, and what is being tried on.

import { each, el, say, sentences, setMark } from "./dom.js";
import { figures } from "./figures.js";
import { copy } from "./share.js";

const at = (id) => document.getElementById(id);

/** Shows the first thing seen, and why. */
export function showAnswer({ grade, verdict, sentence, reasons }) {
  setMark(at("answer"), grade);
  say(at("verdict"), verdict);
  say(at("sentence"), sentence);
  sentences(at("reasons"), reasons);
  at("why").hidden = reasons.length === 0;
}

/** Shows what to look for. */
export function showWindow({ sentence, why, figures: sums }) {
  at("window").hidden = sentence === "";
  say(at("window-sentence"), sentence);
  sentences(at("window-why"), why);
  figures(at("window-sums"), sums, "window");
  at("window").querySelector("details").hidden = why.length === 0;
}

/** Shows what is being tried on, and what the answer was before. */
export function showTrial(trial) {
  at("trial").hidden = at("trial-before").hidden = trial === null;
  if (trial === null) return;
  const [first, ...others] = trial.labels;
  say(at("trial-what"), `Trying: ${first}${others.length ? ` and ${others.length} more` : ""}.`);
  say(at("trial-before"), `${others.length ? `Trying: ${trial.labels.join(", and ")}. ` : ""}Before: ${trial.verdict}.`);
}

/** Lists the fields that could not be read, wherever they are; `name(path)` and `goTo(path)` know the fields. */
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
      node.firstElementChild.value = field;
      say(node.firstElementChild, name(field));
      say(node.lastElementChild, ` ${message}`);
    },
  );
}

/** Some phones slide the page under an open keyboard: the answer follows the part that is seen. */
function stayInView({ offsetTop, scale }) {
  at("answer").style.translate = scale === 1 && offsetTop > 0 ? `0 ${offsetTop}px` : "";
}

/** Wires the buttons that belong to the answer. */
export function wireAnswer(bench) {
  for (const moved of ["resize", "scroll"]) visualViewport?.addEventListener(moved, () => stayInView(visualViewport));
  at("trial-keep").addEventListener("click", () => bench.keepTrial());
  at("trial-undo").addEventListener("click", () => bench.undoTrial());
  at("window-copy").addEventListener("click", async (event) => {
    const button = event.currentTarget;
    const done = await copy(at("window-sentence").textContent);
    say(button, done ? "Copied" : "Select the sentence and copy it");
  });
}
