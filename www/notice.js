// Notices: over the foot of the page, where the thumb is, so that nothing moves. What went wrong, what can be undone, what waits
// for a decision.

import { button, el, say } from "./dom.js";

/** @import { Attributes } from "./dom.js" */
/** A button of a notice. @typedef {[text: string, act: () => unknown, attributes?: Attributes]} Act */

const box = () => document.getElementById("notices");

/** Shows one notice; one of the same `id` is replaced. `acts` are lists of text, call and attributes, which may be missing.
 * @param {string} id
 * @param {string} text
 * @param {Act[]} [acts] */
export function notify(id, text, acts = []) {
  withdraw(id);
  const close = () => withdraw(id);
  const buttons = acts.map(([name, act, attributes]) =>
    button(name, () => {
      close();
      act();
    }, attributes),
  );
  const words = el("p");
  say(words, text);
  const node = el("div", { class: "notice", "data-notice": id }, words, ...buttons, button("Close", close, { class: "plain" }));
  box().append(node);
  node.addEventListener("keydown", ({ key }) => key === "Escape" && close());
}

/** Takes a notice away. Focus that it held goes to what stands first on the page.
 * @param {string} id */
export function withdraw(id) {
  const node = box().querySelector(`[data-notice="${CSS.escape(id)}"]`);
  if (!node) return;
  const held = node.contains(document.activeElement);
  node.remove();
  if (held) document.getElementById("answer").focus({ preventScroll: true });
}
