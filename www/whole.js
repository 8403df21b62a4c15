// The whole label in one box: pasted, dictated, or scanned by the phone's camera. It fills the boxes and says what it took and left.

import { el, say } from "./dom.js";
import { notify } from "./notice.js";

/** ms without a key after which what was typed by hand is read. */
const REST_MS = 700;

/** @import { LabelFigure, LabelRead, LabelRest } from "./core.js" */

/** @param {LabelFigure} figure */
const named = ({ name, text, piece, note }) => `${name} ${text}${piece && piece !== text ? ` (from “${piece}”)` : ""}${note ? `: ${note}` : ""}`;
/** @param {LabelRest} rest */
const left = ({ piece, reason }) => (reason ? `“${piece}”: ${reason}` : `“${piece}” was not understood`);

/** Wires the box; `take(text)` reads a label into the chosen machine and tells what came of it, `undo()` takes that back. Returns what empties it.
 * @param {HTMLTextAreaElement} box
 * @param {HTMLElement} told
 * @param {{ take: (text: string) => LabelRead, undo: () => void }} calls */
export function wholeLabel(box, told, { take, undo }) {
  let timer = 0;
  let last = "";
  const read = () => {
    clearTimeout(timer);
    const text = box.value.trim();
    if (text === "" || text === last) return;
    last = text;
    const { taken, left: rest } = take(text);
    const lines = [...taken.map(named), ...rest.map(left)];
    told.hidden = lines.length === 0;
    say(told.querySelector(".sums"), `${taken.length} ${taken.length === 1 ? "figure" : "figures"} taken${rest.length ? `, ${rest.length} left` : ""}.`);
    told.querySelector("ul").replaceChildren(...lines.map((line) => el("li", {}, line)));
    const count = `${taken.length} ${taken.length === 1 ? "figure" : "figures"}`;
    const words = taken.length ? `${count} read from the label${rest.length ? `, ${rest.length} left: see below` : ""}.` : "No figure for the boxes was found in that text.";
    notify("undo", words, taken.length ? [["Undo", undo]] : []);
  };
  // What is pasted next is another label: it goes in place of the one that stands there.
  box.addEventListener("focus", () => box.select());
  box.addEventListener("input", (event) => {
    clearTimeout(timer);
    const atOnce = ["insertFromPaste", "insertFromDrop", "insertReplacementText"].includes(/** @type {InputEvent} */ (event).inputType);
    if (atOnce) read();
    else timer = setTimeout(read, REST_MS);
  });
  box.addEventListener("change", read);
  box.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.shiftKey) return;
    event.preventDefault();
    read();
  });
  /** Another machine is chosen: its label is not the one that stands here. */
  return () => {
    clearTimeout(timer);
    box.value = "";
    last = "";
    told.hidden = true;
  };
}
