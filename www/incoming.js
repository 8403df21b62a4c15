// Shops from a file whose names are kept already: asks once for all of them.

import { button, el } from "./dom.js";

/** @import { OnClash, Shop } from "./core.js" */
/** Index of a shop and what becomes of it. @typedef {[index: number, choice: OnClash]} Decided */

const CHOICES = [["both", "Keep both"], ["replace", "Replace the one here"], ["leave", "Leave out"]];

/** @param {string} name
 * @param {string} words
 * @param {string} first */
function question(name, words, first) {
  /** @param {string[]} choice */
  const radio = ([value, text]) => el("label", {}, el("input", { type: "radio", name, value, checked: value === first }), ` ${text}`);
  return el("fieldset", { class: "choice" }, el("legend", {}, words), ...CHOICES.map(radio));
}

/** @param {Element} question
 * @param {string} selector */
const radioIn = (question, selector) => /** @type {HTMLInputElement} */ (question.querySelector(selector));

/** Asks in `box` about the shops `at`, which are indices into `shops`; `decide(choices)` gets pairs of index and choice.
 * @param {HTMLElement} box
 * @param {Shop[]} shops
 * @param {number[]} at
 * @param {(choices: Decided[]) => void} decide */
export function askClashes(box, shops, at, decide) {
  const close = () => {
    box.hidden = true;
    box.replaceChildren();
  };
  const each = at.map((index) => question(`clash-${index}`, `“${shops[index].name.trim()}”`, "both"));
  const all = question("clash-all", "All of them", "");
  all.addEventListener("change", ({ target }) => {
    const { value } = /** @type {HTMLInputElement} */ (target);
    for (const one of each) radioIn(one, `[value=${value}]`).checked = true;
  });
  const go = button("Import", () => {
    const choices = at.map((index, row) => /** @type {Decided} */ ([index, radioIn(each[row], ":checked").value]));
    close();
    decide(choices);
  });
  const head = el("h3", { tabindex: "-1" }, at.length === 1 ? "A shop of this name is kept here already" : "Shops of these names are kept here already");
  box.replaceChildren(head, ...(at.length > 1 ? [all] : []), el("div", { class: "clashes" }, ...each), el("div", { class: "row" }, go, button("Cancel", close)));
  box.hidden = false;
  head.focus();
}
