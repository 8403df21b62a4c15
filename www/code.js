// The code for a phone's camera: one path, black on white in every light.

import { el, parts, say, svg } from "./dom.js";

/** @import { Code } from "./core.js" */

/** An empty code, for `fillCode`. */
export function codeFrame() {
  const picture = svg("svg", { class: "code", role: "img", "aria-label": "Link to this shop as a code for a camera" }, svg("rect", { fill: "#fff" }), svg("path", { fill: "#000" }));
  return el("figure", { class: "coded" }, picture, el("figcaption"));
}

/** Shows what the core made of the address; where it is too long, the reason stands alone.
 * @param {HTMLElement} frame
 * @param {Code} code */
export function fillCode(frame, { side, side_mm, path, note }) {
  const [picture, words] = parts(frame);
  const [ground, dark] = parts(picture);
  picture.toggleAttribute("hidden", side === 0);
  for (const [name, value] of Object.entries({ viewBox: `0 0 ${side} ${side}`, width: `${side_mm}mm`, height: `${side_mm}mm` })) picture.setAttribute(name, value);
  for (const name of ["width", "height"]) ground.setAttribute(name, String(side));
  dark.setAttribute("d", path);
  say(words, note);
}
