// Notices at the top of the page: what went wrong, what can be undone, what waits for a decision.

import { button, el, say } from "./dom.js";

const box = () => document.getElementById("notices");

/** Shows one notice; one of the same `id` is replaced. `acts` are lists of text, call and attributes, which may be missing. */
export function notify(id, text, acts = []) {
  withdraw(id);
  const buttons = acts.map(([name, act, attributes]) =>
    button(name, () => {
      withdraw(id);
      act();
    }, attributes),
  );
  const words = el("p");
  say(words, text);
  box().append(el("div", { class: "notice", "data-notice": id }, words, ...buttons, button("Dismiss", () => withdraw(id), { class: "plain" })));
}

/** Takes a notice away. */
export function withdraw(id) {
  box().querySelector(`[data-notice="${CSS.escape(id)}"]`)?.remove();
}
