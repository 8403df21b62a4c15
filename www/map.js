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

/** Puts a closed map into `box`; `pick` and `step` read it at a point, `chosen` tells which machine is. Returns what draws it. */
export function map(box, { pick, step, chosen }) {
  const node = makeSection({ id: "map" });
  node.dataset.own = "";
  const picture = node.querySelector("svg.chart");
  const reading = el("p", { class: "reading", role: "status" }, mark(), el("span", {}, HINT));
  const cross = svg("g", { class: "cross", "aria-hidden": "true" }, svg("path"), svg("circle"));
  let [left, top, width, height] = [0, 0, 0, 0];
  let at;
  let points = [];

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
  let told;
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
  const [, title, sums] = node.firstElementChild.children;
  say(title, "Which sizes would do?");
  say(sums, "A map of flow against tank, with your machines on it.");
  node.addEventListener("toggle", () => told && redraw(told));
  box.append(node);
  return redraw;
}
