// The subjects of the answer: findings with what they rest on and what mends them, figures, a picture, cautions.

import { chartFrame, fillChart } from "./chart.js";
import { button, each, el, mark, say, sentences, setMark } from "./dom.js";
import { figures } from "./figures.js";

/** An empty finding, for `fillFinding`. */
export function finding() {
  return el("li", {}, mark(), el("div", {}, el("p"), el("p", { class: "basis" }), el("div", { class: "row remedies" })));
}

/** Shows a finding; `tryOn(remedy)` tries what would mend it. */
export function fillFinding(node, { id, grade, text, basis, remedies }, tryOn) {
  const [sign, body] = node.children;
  const [fact, ground, row] = body.children;
  setMark(sign, grade);
  node.dataset.finding = id;
  node.dataset.grade = grade;
  say(fact, text);
  say(ground, basis && `Rests on: ${basis}`);
  each(row, remedies, () => button("", (event) => tryOn(event.currentTarget.remedy)), (item, remedy) => {
    item.remedy = remedy;
    item.dataset.sets = remedy.changes.map(({ field }) => field).join(" ");
    say(item, `Try ${remedy.label}`);
  });
}

/** What would mend it is open at first, the other subjects where a reader opens them. */
export function makeSection({ id }) {
  const summary = el("summary", {}, mark(), el("span", { class: "title", role: "heading", "aria-level": "2" }), el("span", { class: "sums" }));
  return el(
    "details",
    { class: "subject", id: `on-${id}`, open: id === "mend" },
    summary,
    el("ul", { class: "findings" }),
    el("dl", { class: "figures" }),
    chartFrame(),
    el("ul", { class: "cautions" }),
  );
}

/** Shows a subject in its node. */
export function fillSection(node, section, tryOn) {
  const [summary, findings, list, frame, cautions] = node.children;
  const [sign, title, sums] = summary.children;
  setMark(sign, section.grade);
  summary.dataset.grade = section.grade;
  say(title, section.title);
  say(sums, section.sentence);
  each(findings, section.findings, finding, (item, fact) => fillFinding(item, fact, tryOn));
  figures(list, section.figures, section.id);
  frame.hidden = !section.chart;
  if (section.chart) fillChart(frame, section.chart);
  sentences(cautions, section.cautions);
}

/** Shows `sections` in `box`, each in the node that it had, so that what the reader opened stays open. */
function fillBox(box, sections, tryOn) {
  const had = new Map([...box.children].map((node) => [node.id, node]));
  const nodes = sections.map((section) => {
    const node = had.get(`on-${section.id}`) ?? makeSection(section);
    fillSection(node, section, tryOn);
    return node;
  });
  for (const node of had.values()) if (!nodes.includes(node)) node.remove();
  nodes.forEach((node, index) => {
    if (box.children[index] !== node) box.insertBefore(node, box.children[index] ?? null);
  });
}

/** Shows all subjects; what would mend the answer stands next to its reasons. */
export function showSections(sections, tryOn) {
  const mends = ({ id }) => id === "mend";
  fillBox(document.getElementById("mend"), sections.filter(mends), tryOn);
  fillBox(document.getElementById("sections"), sections.filter((section) => !mends(section)), tryOn);
}
