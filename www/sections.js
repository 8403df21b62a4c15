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
  say(ground, basis && `Based on: ${basis}`);
  each(row, remedies, () => button("", (event) => tryOn(event.currentTarget.remedy)), (item, remedy) => {
    item.remedy = remedy;
    item.dataset.sets = remedy.changes.map(({ field }) => field).join(" ");
    say(item, `Try ${remedy.label}`);
  });
}

/** A fold under a plain question, which says its own answer while closed. */
export function makeSection({ id }) {
  const summary = el("summary", {}, mark(), el("span", { class: "title" }), el("span", { class: "sums" }));
  return el(
    "details",
    { class: "subject", id: `on-${id}` },
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

/** Shows `sections` in `box` in their order, each in the node that it had, so that what the reader opened stays open. What is no longer told goes. */
export function fillBox(box, sections, tryOn) {
  const told = new Set(sections.map(({ id }) => `on-${id}`));
  for (const node of [...box.querySelectorAll(":scope > .subject:not([data-own])")]) if (!told.has(node.id)) node.remove();
  for (const section of sections) putSection(box, section, tryOn);
  arrange(box);
}

/** Shows one subject in the node that it had, else in a new one. */
export function putSection(box, section, tryOn) {
  let node = document.getElementById(`on-${section.id}`);
  if (!node) {
    node = makeSection(section);
    box.append(node);
  }
  fillSection(node, section, tryOn);
  return node;
}

/** The order in which a builder asks. */
const ORDER = ["danger", "power", "tasks", "mend", "window", "doubt", "paint", "line", "auxiliary", "label", "carry", "sound", "box", "water", "cold", "money", "plan", "map"];

/** Puts folds into the order in which a builder asks; those that nobody placed come last. */
export function arrange(box) {
  const rank = (node) => (ORDER.indexOf(node.id.slice(3)) + 1 || ORDER.length + 1);
  const nodes = [...box.querySelectorAll(":scope > .subject")].sort((one, other) => rank(one) - rank(other));
  nodes.forEach((node, index) => {
    if (box.children[index] !== node) box.insertBefore(node, box.children[index] ?? null);
  });
}
