// The map of flow against tank. It costs more than a keystroke may, so it is asked for only while it is open.
// A point of it is read by touch, or by the arrow keys.

import { el, mark, say, setMark, svg } from "./dom.js";
import { fillSection, makeSection } from "./sections.js";

/** Tanks to the right and steps of flow up, by key. */
const STEPS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1], PageUp: [0, 10], PageDown: [0, -10] };
const HINT = "Touch the map to read it at a point, or go over it with the arrow keys: Page Up and Page Down take larger steps, Home goes to the chosen machine.";

/** The core's point under a pointer: the browser knows how the picture is scaled. */
function under(picture, { clientX, clientY }) {
  const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(picture.getScreenCTM().inverse());
  return [x, y];
}

/** Puts a closed map into `box`; `core` draws it, picks a point, steps from one and tells which machine is chosen. Returns what to call after each change. */
export function map(box, { draw, pick, step, chosen }) {
  const node = makeSection({ id: "map" });
  const picture = node.querySelector("svg.chart");
  const reading = el("p", { class: "reading", role: "status" }, mark(), el("span", {}, HINT));
  const cross = svg("g", { class: "cross", "aria-hidden": "true" }, svg("path"), svg("circle"));
  let [left, top, width, height] = [0, 0, 0, 0];
  let at;
  let points = [];
  let waiting = 0;

  const show = (read) => {
    if (!read) return;
    at = read.at;
    const [x, y] = at;
    const [lines, spot] = cross.children;
    lines.setAttribute("d", `M${left} ${y}h${width}M${x} ${top}v${height}`);
    spot.setAttribute("cx", x);
    spot.setAttribute("cy", y);
    if (cross.parentNode !== picture) picture.append(cross);
    setMark(reading.firstElementChild, read.grade);
    say(reading.lastElementChild, read.text);
  };
  const redraw = () => {
    waiting = 0;
    if (!node.open) return;
    const section = draw();
    fillSection(node, section, () => {});
    reading.hidden = !section.chart;
    if (!section.chart) return;
    [left, top, width, height] = section.chart.plot;
    points = section.chart.labels.filter(({ style }) => style.split(" ").includes("point"));
    if (at) show(pick(...at));
  };
  const soon = () => {
    if (node.open && !waiting) waiting = requestAnimationFrame(redraw);
  };

  picture.setAttribute("role", "application");
  picture.setAttribute("aria-roledescription", "map");
  picture.setAttribute("tabindex", "0");
  picture.addEventListener("click", (event) => show(pick(...under(picture, event))));
  picture.addEventListener("keydown", (event) => {
    const way = STEPS[event.key];
    const home = event.key === "Home";
    if (!(way || home) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const machine = points.find(({ text }) => text === String(chosen() + 1));
    if (at && way) show(step(...at, ...way));
    else if (machine) show(pick(...machine.at));
    else if (way) show(step(left + width / 2, top + height / 2, 0, 0));
  });
  picture.after(reading);
  const [, title, sums] = node.firstElementChild.children;
  say(title, "The map: flow against tank");
  say(sums, "Which flow on which tank keeps up, where one waits, and where these machines lie.");
  node.addEventListener("toggle", soon);
  box.append(node);
  return soon;
}
