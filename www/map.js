// The map of flow against tank. It costs more than a keystroke may, so it is asked for only while it is open.
// A point of it is read by touch, or by the arrow keys.

import { el, mark, parts, say, setMark, svg } from "./dom.js";
import { fillSection, makeSection } from "./sections.js";

/** @import { Label, Reading, Section } from "./core.js" */
/** @typedef {[x: number, y: number]} Point */
/** @typedef {Promise<Reading | null>} Read */

/** Tanks to the right and steps of flow up, by key. @type {Record<string, [right: number, up: number]>} */
const STEPS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1], PageUp: [0, 10], PageDown: [0, -10] };
const HINT = "Touch the map to read it at a point, or go over it with the arrow keys: Page Up and Page Down take larger steps, Home goes to the chosen machine.";

/** The core's point under a pointer: the browser knows how the picture is scaled.
 * @param {SVGSVGElement} picture
 * @param {MouseEvent} event
 * @returns {Point} */
function under(picture, { clientX, clientY }) {
  const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(picture.getScreenCTM().inverse());
  return [x, y];
}

/** Puts a closed map into `box`; `pick` and `step` read it at a point, `chosen` tells which machine is. Returns what draws it.
 * @param {Element} box
 * @param {{ pick: (...at: Point) => Read, step: (x: number, y: number, right: number, up: number) => Read, chosen: () => number }} calls */
export function map(box, { pick, step, chosen }) {
  const node = makeSection({ id: "map" });
  node.dataset.own = "";
  const picture = /** @type {SVGSVGElement} */ (node.querySelector("svg.chart"));
  const reading = el("p", { class: "reading", role: "status" }, mark(), el("span", {}, HINT));
  const cross = svg("g", { class: "cross", "aria-hidden": "true" }, svg("path"), svg("circle"));
  let [left, top, width, height] = [0, 0, 0, 0];
  /** @type {Point | undefined} */
  let at;
  /** @type {Label[]} */
  let points = [];

  /** @param {Reading | null} read */
  const show = (read) => {
    if (!read) return;
    at = read.at;
    const [x, y] = at;
    const [lines, spot] = parts(cross);
    lines.setAttribute("d", `M${left} ${y}h${width}M${x} ${top}v${height}`);
    spot.setAttribute("cx", String(x));
    spot.setAttribute("cy", String(y));
    if (cross.parentNode !== picture) picture.append(cross);
    setMark(parts(reading)[0], read.grade);
    say(reading.lastElementChild, read.text);
  };
  /** @type {Section | undefined} */
  let told;
  /** @param {Section} section */
  const redraw = async (section) => {
    told = section;
    if (!node.open) return;
    fillSection(node, section, () => {});
    reading.hidden = !section.chart;
    if (!section.chart) return;
    [left, top, width, height] = section.chart.plot;
    points = section.chart.labels.filter(({ style }) => style.split(" ").includes("point"));
    if (at) show(await pick(...at));
  };

  picture.setAttribute("role", "application");
  picture.setAttribute("aria-roledescription", "map");
  picture.setAttribute("tabindex", "0");
  picture.addEventListener("click", async (event) => show(await pick(...under(picture, event))));
  // Keys that come while the core still reads go on from where the one before it led.
  let going = Promise.resolve();
  picture.addEventListener("keydown", (event) => {
    const way = STEPS[event.key];
    const home = event.key === "Home";
    if (!(way || home) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const machine = points.find(({ text }) => text === String(chosen() + 1));
    going = going.then(async () => {
      if (at && way) show(await step(...at, ...way));
      else if (machine) show(await pick(...machine.at));
      else if (way) show(await step(left + width / 2, top + height / 2, 0, 0));
    });
  });
  picture.after(reading);
  const [, title, sums] = parts(node.firstElementChild);
  say(title, "Which sizes would do?");
  say(sums, "A map of flow against tank, with your machines on it.");
  node.addEventListener("toggle", () => told && redraw(told));
  box.append(node);
  return redraw;
}
