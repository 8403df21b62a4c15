// The list of what is kept in this browser, with what can be done to each.

import { button, each, el, parts, say } from "./dom.js";

/** @import { Entry } from "./core.js" */
/** @typedef {(name: string, key?: string) => unknown} Act */
/** What can be done to what is kept. @typedef {{ open: Act, remove: Act, duplicate: Act, save: Act }} Acts */

function item() {
  return el("li", {}, el("p", {}, el("strong"), el("span")), el("div", { class: "row" }));
}

/** @param {Entry} entry
 * @param {boolean} open
 * @param {Acts} acts
 * @returns {[id: string, text: string, act: () => unknown][]} */
function buttons({ name, key, damaged }, open, acts) {
  if (damaged) return [["save", "Save its data to a file", () => acts.save(name, key)]];
  /** @type {ReturnType<typeof buttons>} */
  const others = [["duplicate", "Duplicate", () => acts.duplicate(name)], ["remove", "Delete", () => acts.remove(name)]];
  return open ? others : [["open", "Open", () => acts.open(name)], ...others];
}

/** Shows `entries`; `current` is the name of the open one. `acts` holds `open`, `remove`, `duplicate`, `save`.
 * @param {Entry[]} entries
 * @param {string | undefined} current
 * @param {Acts} acts */
export function showKept(entries, current, acts) {
  const list = document.getElementById("kept");
  const held = list.contains(document.activeElement);
  each(list, entries, item, (node, entry) => {
    const open = !entry.damaged && entry.name === current;
    const [words, row] = parts(node);
    node.dataset.key = entry.key;
    say(words.firstElementChild, entry.name);
    say(words.lastElementChild, entry.message ? `: ${entry.message}` : open ? ", open" : "");
    row.replaceChildren(
      ...buttons(entry, open, acts).map(([id, text, act]) => button(text, act, { "data-act": id, "aria-label": `${text}: ${entry.name}` })),
    );
  });
  // Focus goes to what took the removed thing's place.
  if (held && !list.contains(document.activeElement)) (list.querySelector("button") ?? document.getElementById("shop-name")).focus();
}
