// Shops from a file whose names are kept already: asks once for all of them.

import { button, el } from "./dom.js";

const CHOICES = [["both", "Keep both"], ["replace", "Replace the one here"], ["leave", "Leave out"]];

function question(name, words, first) {
  const radio = ([value, text]) => el("label", {}, el("input", { type: "radio", name, value, checked: value === first }), ` ${text}`);
  return el("fieldset", { class: "choice" }, el("legend", {}, words), ...CHOICES.map(radio));
}

/** Asks in `box` about the shops `at`, which are indices into `shops`; `decide(choices)` gets pairs of index and choice. */
export function askClashes(box, shops, at, decide) {
  const close = () => {
    box.hidden = true;
    box.replaceChildren();
  };
  const each = at.map((index) => question(`clash-${index}`, `“${shops[index].name.trim()}”`, "both"));
  const all = question("clash-all", "All of them", "");
  all.addEventListener("change", ({ target }) => {
    for (const one of each) one.querySelector(`[value=${target.value}]`).checked = true;
  });
  const go = button("Import", () => {
    const choices = at.map((index, row) => [index, each[row].querySelector(":checked").value]);
    close();
    decide(choices);
  });
  const head = el("h3", { tabindex: "-1" }, at.length === 1 ? "A shop of this name is kept here already" : "Shops of these names are kept here already");
  box.replaceChildren(head, ...(at.length > 1 ? [all] : []), el("div", { class: "clashes" }, ...each), el("div", { class: "row" }, go, button("Cancel", close)));
  box.hidden = false;
  head.focus();
}
