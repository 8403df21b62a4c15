// A picture from coordinates that the core computed: bands, lines, words, axes, and the same as a table.

import { each, el, parts, say, svg } from "./dom.js";

/** @import { Chart, Label, Stroke } from "./core.js" */
/** @typedef {{ x: number, y: number, width: number, height: number }} Place */

/** The shades that `index.html` has lines for. */
const HATCHED = new Set(["waiting", "fair"]);

/** @param {number} x
 * @param {number} y
 * @param {string} className
 * @param {string} text */
const word = (x, y, className, text) => svg("text", { x, y, class: className }, text);

/** @param {Chart} chart */
function axes({ plot: [left, top, width, height], x, y }) {
  const foot = top + height;
  const across = x.ticks.flatMap(({ at, text }) => [
    svg("line", { x1: at, x2: at, y1: top, y2: foot, class: "rule" }),
    word(at, foot, "tick x", text),
  ]);
  const up = y.ticks.flatMap(({ at, text }) => [
    svg("line", { x1: left, x2: left + width, y1: at, y2: at, class: "rule" }),
    word(left, at, "tick y", text),
  ]);
  return [...across, ...up, svg("rect", { x: left, y: top, width, height, class: "frame" })];
}

/** @param {Label} label */
function label({ text, style, at: [x, y] }) {
  const words = word(x, y, `word ${style}`, text);
  if (!style.split(" ").includes("point")) return words;
  return svg("g", {}, svg("circle", { cx: x, cy: y, class: "spot" }), words);
}

/** A shade, and over it the lines that tell it from other shades where colour does not.
 * @param {string} style
 * @param {Place} place */
function band(style, place) {
  const shade = svg("rect", { ...place, class: `band ${style}` });
  return HATCHED.has(style) ? [shade, svg("rect", { ...place, fill: `url(#hatch-${style})` })] : [shade];
}

/** @param {Chart} chart
 * @param {string} id */
function drawing(chart, id) {
  const [left, top, width, height] = chart.plot;
  return [
    svg("title", { id: `${id}-title` }, chart.title),
    svg("desc", { id: `${id}-desc` }, chart.summary),
    ...chart.bands.flatMap(({ style, rect: [x, y, w, h] }) => band(style, { x, y, width: w, height: h })),
    ...axes(chart),
    ...chart.strokes.map(({ style, points }) => svg("polyline", { points, class: `stroke ${style}` })),
    ...chart.labels.map(label),
    word(left, top, "axis y", chart.y.title),
    word(left + width, top + height, "axis x", chart.x.title),
  ];
}

/** @typedef {"band" | "stroke"} Sort */
/** @param {{ style: string }} item
 * @param {Sort} sort */
function keyItem({ style }, sort) {
  const sample =
    sort === "band"
      ? band(style, { x: 1, y: 2, width: 26, height: 10 })
      : [svg("polyline", { points: "1,7 27,7", class: `stroke ${style}` })];
  return svg("svg", { class: "sample", viewBox: "0 0 28 14", "aria-hidden": "true" }, ...sample);
}

/** @param {Element} list
 * @param {Chart} chart */
function key(list, chart) {
  /** @param {{ name: string, style: string }[]} items
   * @param {Sort} sort */
  const named = (items, sort) => {
    const seen = new Set();
    return items.filter(({ name }) => name && !seen.has(name) && seen.add(name)).map((item) => ({ item, sort }));
  };
  const entries = [...named(chart.strokes, "stroke"), ...named(chart.bands, "band")];
  list.replaceChildren(...entries.map(({ item, sort }) => el("li", {}, keyItem(item, sort), item.name)));
}

/** @param {HTMLTableElement} node
 * @param {Chart} chart */
function table(node, { title, head, rows }) {
  say(node.caption, title);
  /** @param {"td" | "th"} cell
   * @returns {(line: Element, cells: string[]) => void} */
  const row = (cell) => (line, cells) => each(line, cells, () => el(cell, cell === "th" ? { scope: "col" } : {}), (td, text) => say(td, text));
  row("th")(node.tHead.rows[0], head);
  each(node.tBodies[0], rows, () => el("tr"), row("td"));
}

/** Letters keep their size on every screen: the style sheet multiplies by what one picture unit measures. */
const watcher = new ResizeObserver((entries) => {
  for (const { target: picture, contentRect } of entries) {
    const target = /** @type {SVGSVGElement} */ (picture);
    if (contentRect.width > 0) target.style.setProperty("--unit", String(target.viewBox.baseVal.width / contentRect.width));
  }
});

let serial = 0;

/** An empty picture, for `fillChart`. */
export function chartFrame() {
  serial += 1;
  const id = `chart-${serial}`;
  const picture = svg("svg", { role: "img", "aria-labelledby": `${id}-title ${id}-desc`, id, class: "chart" });
  watcher.observe(picture);
  return el(
    "figure",
    {},
    el("figcaption", {}, el("strong"), el("span")),
    picture,
    el("ul", { class: "key" }),
    el("details", { class: "as-table" }, el("summary", {}, "The same as a table"), el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Table" }, el("table", {}, el("caption"), el("thead", {}, el("tr")), el("tbody")))),
  );
}

/** Draws `chart` into a frame.
 * @param {HTMLElement} frame
 * @param {Chart} chart */
export function fillChart(frame, chart) {
  const [width, height] = chart.size;
  frame.hidden = !(width > 0 && height > 0);
  if (frame.hidden) return;
  const [title, summary] = parts(frame.firstElementChild);
  say(title, chart.title);
  say(summary, chart.summary);
  const picture = frame.querySelector("svg");
  picture.setAttribute("viewBox", `0 0 ${width} ${height}`);
  picture.replaceChildren(...drawing(chart, picture.id));
  key(frame.querySelector(".key"), chart);
  table(frame.querySelector("table"), chart);
  frame.querySelector("details").hidden = chart.rows.length === 0;
}
