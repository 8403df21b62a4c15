// The map of flow against tank. It costs more than a keystroke may, so it is asked for only while it is open.

import { say } from "./dom.js";
import { fillSection, makeSection } from "./sections.js";

/** Puts a closed map into `box`; `ask()` gets the section from the core. Returns what to call after each change. */
export function map(box, ask) {
  const node = makeSection({ id: "map" });
  let waiting = 0;
  const draw = () => {
    waiting = 0;
    if (node.open) fillSection(node, ask(), () => {});
  };
  const soon = () => {
    if (node.open && !waiting) waiting = requestAnimationFrame(draw);
  };
  const [, title, sums] = node.firstElementChild.children;
  say(title, "The map: flow against tank");
  say(sums, "Which flow on which tank keeps up, where one waits, and where these machines lie.");
  node.addEventListener("toggle", soon);
  box.append(node);
  return soon;
}
