// How long one can work: places with their tasks. A chosen row opens in place and holds its figures and the picture; chosen again,
// it closes.

import { chartFrame, fillChart } from "./chart.js";
import { button, each, el, gradeWord, mark, parts, say, setMark } from "./dom.js";
import { figures } from "./figures.js";
import { fillFinding, finding } from "./sections.js";

/** @import { Chart, Report, TaskRow, View } from "./core.js" */
/** @import { TryOn } from "./sections.js" */
/** @typedef {(view: View) => void} Look */
/** @typedef {(path: string) => void} Change */
/** @typedef {HTMLButtonElement & { view: View }} Chooser */

const panel = el("div", { id: "row-detail" }, el("div", {}, el("p"), el("dl", { class: "figures" }), button("Change this task", () => toTask(), { class: "plain" })), chartFrame());
let toTask = () => {};
/** The row that the reader closed. */
let closed = "";

/** @param {TaskRow} row
 * @param {Chart} picture */
function fillPanel(row, picture) {
  const [sentence, list] = parts(panel.firstElementChild);
  say(sentence, row.sentence);
  figures(list, row.figures, "row");
  fillChart(parts(panel)[1], picture);
}

/** @param {Look} look */
function makeRow(look) {
  const act = () => {
    const { place, task } = choose.view;
    const name = `${place} ${task}`;
    closed = choose.getAttribute("aria-expanded") === "true" ? name : "";
    look(choose.view);
  };
  const choose = /** @type {Chooser} */ (button("", act));
  choose.append(mark(), el("span", { class: "task" }), el("span", { class: "verdict" }, el("span", { class: "term", "aria-hidden": "true" }), el("span")));
  return el("li", {}, choose);
}

/** @param {HTMLElement} item
 * @param {TaskRow} row
 * @param {boolean} open */
function fillRow(item, row, open) {
  const [choose] = parts(item);
  const [sign, task, verdict] = parts(choose);
  setMark(sign, row.grade);
  choose.dataset.task = String(row.task);
  choose.dataset.grade = row.grade;
  say(task, row.name);
  say(verdict.children[0], gradeWord(row.grade));
  say(verdict.children[1], row.verdict);
  choose.setAttribute("aria-expanded", String(open));
}

/** @param {Change} change */
function makePlace(change) {
  return el(
    "section",
    { class: "place" },
    el("h3", {}, mark(), el("span")),
    el("p", { class: "sums" }),
    el("ul", { class: "rows" }),
    el("dl", { class: "figures small" }),
    el("ul", { class: "findings circuit" }),
    el("div", { class: "row" }, button("", (event) => change(/** @type {HTMLButtonElement} */ (event.currentTarget).value), { class: "plain" })),
  );
}

/** What the fold says while closed: that no job waits anywhere, else how the one does that is looked at. @param {Report} report */
function summary({ places, view }) {
  const place = places[view.place];
  const row = place?.tasks.find(({ task }) => task === view.task) ?? place?.tasks[0];
  if (!row) return "No flow to judge yet.";
  const rows = places.flatMap(({ tasks }) => tasks);
  if (!rows.some(({ waits }) => waits)) return rows.every(({ grade }) => grade === "good") ? "No job waits." : "No job waits, but it is hard on the motor.";
  return `${row.name.replace(/^./u, (first) => first.toUpperCase())}: ${row.verdict}.`;
}

/** Shows places and tasks. `look(view)` asks for another picture, `tryOn(remedy)` tries a fix, `change(path)` goes to a field.
 * @param {Report} report
 * @param {{ look: Look, tryOn: TryOn, change: Change }} calls */
export function showTasks(report, { look, tryOn, change }) {
  const { view } = report;
  const fold = document.getElementById("on-tasks");
  fold.hidden = report.places.length === 0;
  const [sign, , sums] = parts(fold.firstElementChild);
  const worst = report.places[view.place]?.tasks.find(({ task }) => task === view.task);
  setMark(sign, worst?.grade ?? "note");
  say(sums, summary(report));
  /** @type {Element | undefined} */
  let chosen;
  each(document.getElementById("places"), report.places, () => makePlace(change), (node, place, placeIndex) => {
    const [heading, words, rows, air, circuit, foot] = parts(node);
    const edit = foot.querySelector("button");
    node.dataset.place = String(placeIndex);
    setMark(parts(heading)[0], place.grade);
    heading.dataset.grade = place.grade;
    say(heading.lastElementChild, place.name);
    say(words, place.sentence);
    figures(air, [place.air], `air.${placeIndex}`);
    edit.value = `places.${placeIndex}.breaker`;
    say(edit, `Change power and air at ${place.name}`);
    each(rows, place.tasks, () => makeRow(look), (item, row) => {
      const open = placeIndex === view.place && row.task === view.task && closed !== `${placeIndex} ${row.task}`;
      /** @type {Chooser} */ (item.firstElementChild).view = { place: placeIndex, task: row.task };
      fillRow(item, row, open);
      if (!open) return;
      chosen = item;
      toTask = () => change(`tasks.${row.task}.flow`);
      fillPanel(row, report.picture);
    });
    each(circuit, place.circuit.text ? [place.circuit] : [], finding, (item, fact) => fillFinding(item, fact, tryOn));
  });
  if (!chosen) panel.remove();
  else if (panel.parentElement !== chosen) chosen.append(panel);
}
