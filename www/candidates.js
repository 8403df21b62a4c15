// The row of compressors: which one the answer is about.

import { button, each, say } from "./dom.js";

/** What a candidate is called. */
export const candidateName = (candidate, index) => candidate?.name.trim() || `No. ${index + 1}`;

/** Shows the choices where there are any; `choose(index)` takes one. */
export function showCandidates(row, { candidates, chosen }, choose) {
  row.hidden = candidates.length < 2;
  each(row, candidates, (_, index) => button("", () => choose(index)), (node, candidate, index) => {
    say(node, candidateName(candidate, index));
    node.setAttribute("aria-pressed", index === chosen);
  });
}
