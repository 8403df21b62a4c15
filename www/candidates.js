// The row of compressors: which one the answer is about.

import { button, each, say } from "./dom.js";
import { withUnit } from "./units.js";

/** What a candidate is called: by its name, or by its number and what is typed of it. */
export function candidateName({ candidates, units }, index) {
  const { name = "", tank = "", flow = "" } = candidates[index] ?? {};
  const typed = withUnit(tank, "volume", units) || withUnit(flow, "flow", units);
  return name.trim() || `No. ${index + 1}${typed && `, ${typed}`}`;
}

/** Scrolls `row` alone, by no more than brings `node` into it. */
function bringInto(row, node) {
  const [frame, box] = [row, node].map((part) => part.getBoundingClientRect());
  if (box.left < frame.left) row.scrollLeft += box.left - frame.left;
  else if (box.right > frame.right) row.scrollLeft += Math.min(box.right - frame.right, box.left - frame.left);
}

/** Shows the choices where there are any; `choose(index)` takes one. */
export function showCandidates(row, shop, choose) {
  const { candidates, chosen } = shop;
  row.hidden = candidates.length < 2;
  let moved;
  each(row, candidates, (_, index) => button("", () => choose(index)), (node, _, index) => {
    const name = candidateName(shop, index);
    if (index === chosen && (node.getAttribute("aria-pressed") !== "true" || node.textContent !== name)) moved = node;
    say(node, name);
    node.setAttribute("aria-pressed", index === chosen);
  });
  if (moved) bringInto(row, moved);
}
