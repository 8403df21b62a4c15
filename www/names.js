// What a machine is called where nobody named it.

import { rowOf } from "./form.js";

/** @import { Shop } from "./core.js" */

const BARE = /^[-+]?[\d.,/ -]*\d$/u;

/** @param {string} text
 * @param {string} path */
function withUnit(text, path) {
  const typed = text.trim();
  return BARE.test(typed) ? `${typed} ${rowOf(path)?.unit ?? ""}`.trim() : typed;
}

/** By its name, else by its tank or flow, else by its number.
 * @param {Shop} shop
 * @param {number} index */
export function machineName({ candidates }, index) {
  const { name = "", tank = "", flow = "" } = candidates[index] ?? {};
  const typed = withUnit(tank, "candidates.tank") || withUnit(flow, "candidates.flow");
  return name.trim() || typed || `No. ${index + 1}`;
}
