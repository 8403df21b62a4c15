// The verdict table: places with their tasks. A chosen row opens in place and holds the figures and the picture.

import { chartFrame, fillChart } from "./chart.js";
import { button, each, el, gradeWord, mark, say, setMark } from "./dom.js";
import { figures } from "./figures.js";
import { fillFinding, finding } from "./sections.js";

/** Where there is room the chosen row's detail stands below all places, so that these compare. */
const roomy = matchMedia("(min-width: 60rem)");

const panel = el("div", { id: "row-detail" }, el("div", {}, el("h3"), el("p"), el("dl", { class: "figures" }), button("Change this task", () => toTask(), { class: "plain" })), chartFrame());
let chosenRow;
let toTask;

function placePanel() {
  const home = roomy.matches ? document.getElementById("verdicts") : chosenRow;
  if (panel.parentElement !== home) home?.append(panel);
}
roomy.addEventListener("change", placePanel);

function fillPanel(place, row, picture) {
  const [heading, sentence, list] = panel.firstElementChild.children;
  say(heading, `${row.name}, ${place.name}: ${row.verdict}`);
  say(sentence, row.sentence);
  figures(list, row.figures, "row");
  fillChart(panel.lastElementChild, picture);
}

function makeRow(look) {
  const act = () => {
    look(choose.view);
    panel.scrollIntoView({ block: "nearest" });
  };
  const choose = button("", act, { "aria-controls": panel.id });
  choose.append(mark(), el("span", { class: "task" }), el("span", { class: "verdict" }, el("span", { class: "term" }), el("span")));
  return el("li", {}, choose);
}

function fillRow(item, row, open) {
  const choose = item.firstElementChild;
  const [sign, task, verdict] = choose.children;
  setMark(sign, row.grade);
  choose.dataset.task = row.task;
  choose.dataset.grade = row.grade;
  say(task, row.name);
  say(verdict.children[0], gradeWord(row.grade));
  say(verdict.children[1], row.verdict);
  choose.setAttribute("aria-expanded", open);
}

function makePlace(change) {
  return el(
    "section",
    { class: "place" },
    el("h3", {}, mark(), el("span")),
    el("p", { class: "sums" }),
    el("ul", { class: "rows" }),
    el("dl", { class: "figures small" }),
    el("ul", { class: "findings circuit" }),
    el("div", { class: "row" }, button("", (event) => change(event.currentTarget.path), { class: "plain" })),
  );
}

/** Shows places and tasks. `look(view)` asks for another picture, `tryOn(remedy)` tries a remedy, `change(path)` goes to a field. */
export function showVerdicts(report, { look, tryOn, change }) {
  const { view } = report;
  chosenRow = undefined;
  document.getElementById("verdicts").hidden = report.places.length === 0;
  each(document.getElementById("places"), report.places, () => makePlace(change), (node, place, placeIndex) => {
    const [heading, sums, rows, air, circuit, { firstElementChild: edit }] = node.children;
    node.dataset.place = placeIndex;
    setMark(heading.firstElementChild, place.grade);
    heading.dataset.grade = place.grade;
    say(heading.lastElementChild, place.name);
    say(sums, place.sentence);
    figures(air, [place.air], `air.${placeIndex}`);
    edit.path = `places.${placeIndex}.breaker`;
    say(edit, `Change power and air at ${place.name}`);
    each(rows, place.tasks, () => makeRow(look), (item, row) => {
      const open = placeIndex === view.place && row.task === view.task;
      item.firstElementChild.view = { place: placeIndex, task: row.task };
      fillRow(item, row, open);
      if (!open) return;
      chosenRow = item;
      toTask = () => change(`tasks.${row.task}.flow`);
      fillPanel(place, row, report.picture);
    });
    each(circuit, place.circuit.text ? [place.circuit] : [], finding, (item, fact) => fillFinding(item, fact, tryOn));
  });
  if (chosenRow) placePanel();
  else panel.remove();
}
