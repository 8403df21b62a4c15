// The six boxes of the label. Each holds its unit, which a tap changes; what is refused is said at the box and moves nothing.

import { say } from "./dom.js";
import { rowOf } from "./form.js";

/** @import { Shop } from "./core.js" */

/** The boxes that stand in index.html, by key. */
const BOXES = ["flow", "tank", "amps", "volts", "cut_out", "price"];

const UNIT = /[^\d\s.,/+-].*$/u;
/** @param {string} id */
const at = (id) => /** @type {HTMLInputElement} */ (document.getElementById(id));

/** The number of a text, without its unit. @param {string} text */
const bare = (text) => text.replace(UNIT, "").trim();

/** The unit that is typed, or blank. @param {string} text */
const typed = (text) => text.match(UNIT)?.[0].trim() ?? "";

/** @param {string} key
 * @param {(text: string) => void} set */
function nextUnit(key, set) {
  const input = at(key);
  const units = rowOf(`candidates.0.${key}`)?.units ?? [];
  if (units.length < 2 || input.value.trim() === "") return input.focus();
  const now = typed(input.value) || units[0];
  const next = units[(units.findIndex((unit) => unit.toLowerCase() === now.toLowerCase()) + 1) % units.length];
  set(`${bare(input.value)} ${next}`);
}

/** Wires the boxes; `set(path, text)` puts a text into a field.
 * @param {(path: string, text: string) => void} set */
export function wireBoxes(set) {
  for (const key of BOXES) {
    at(`${key}-unit`).addEventListener("click", () => {
      nextUnit(key, (text) => {
        at(key).value = text;
        set(at(key).dataset.path, text);
      });
    });
  }
}

/** Names boxes and units as they stand for the chosen machine.
 * @param {Shop} shop */
export function nameBoxes({ units, candidates, chosen }) {
  for (const key of BOXES) {
    const label = at(key).labels[0];
    const flowAt = key === "flow" && candidates[chosen]?.at.trim();
    say(label, flowAt ? `Air at ${/[a-z]/iu.test(flowAt) ? flowAt : `${flowAt} ${rowOf("candidates.at")?.unit ?? ""}`}` : label.dataset[units]);
    const row = rowOf(`candidates.0.${key}`);
    const text = at(key).value;
    const unit = at(`${key}-unit`);
    const several = (row?.units.length ?? 0) > 1;
    const own = typed(text) !== "" && key !== "price";
    at(key).classList.toggle("typed", own);
    say(unit, own ? (several ? "⇆" : "") : row?.unit);
    unit.setAttribute("aria-label", several ? `Change the unit of ${label.textContent}` : `Unit of ${label.textContent}`);
    unit.disabled = !several;
  }
}
