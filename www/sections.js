// The subjects of the answer: findings with what they rest on and what mends them, figures, a picture, cautions.

import { chartFrame, fillChart } from "./chart.js";
import { button, each, el, figures, mark, say, sentences, setMark } from "./dom.js";

/** An empty finding, for `fillFinding`. */
export function finding() {
  return el("li", {}, mark(), el("div", {}, el("p"), el("p", { class: "basis" }), el("div", { class: "row remedies" })));
}

/** Shows a finding; `tryOn(remedy)` tries what would mend it. */
export function fillFinding(node, { grade, text, basis, remedies }, tryOn) {
  const [sign, body] = node.children;
  const [fact, ground, row] = body.children;
  setMark(sign, grade);
  node.dataset.grade = grade;
  say(fact, text);
  say(ground, basis && `Rests on: ${basis}`);
  each(row, remedies, () => button("", (event) => tryOn(event.currentTarget.remedy)), (item, remedy) => {
    item.remedy = remedy;
    say(item, `Try ${remedy.label}`);
  });
}

function makeSection() {
  const summary = el("summary", {}, mark(), el("span", { class: "title", role: "heading", "aria-level": "2" }), el("span", { class: "sums" }));
  return el(
    "details",
    { class: "subject" },
    summary,
    el("ul", { class: "findings" }),
    el("dl", { class: "figures" }),
    chartFrame(),
    el("ul", { class: "cautions" }),
  );
}

function fillSection(node, section, tryOn) {
  const [summary, findings, list, frame, cautions] = node.children;
  const [sign, title, sums] = summary.children;
  node.id = `on-${section.id}`;
  setMark(sign, section.grade);
  summary.dataset.grade = section.grade;
  say(title, section.title);
  say(sums, section.sentence);
  each(findings, section.findings, finding, (item, fact) => fillFinding(item, fact, tryOn));
  figures(list, section.figures);
  frame.hidden = !section.chart;
  if (section.chart) fillChart(frame, section.chart);
  sentences(cautions, section.cautions);
}

/** Shows all subjects. Which are open is the reader's business once they are there. */
export function showSections(sections, tryOn) {
  each(document.getElementById("sections"), sections, makeSection, (node, section) => fillSection(node, section, tryOn));
}
