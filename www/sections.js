// The subjects of the answer: findings with what they rest on and what mends them, figures, a picture, cautions.

import { chartFrame, fillChart } from "./chart.js";
import { button, each, el, mark, parts, say, sentences, setMark } from "./dom.js";
import { figures } from "./figures.js";

/** @import { Finding, Remedy, Section } from "./core.js" */
/** @typedef {(remedy: Remedy) => void} TryOn */
/** @typedef {HTMLButtonElement & { remedy: Remedy }} Trial */

/** An empty finding, for `fillFinding`. */
export function finding() {
  return el("li", {}, mark(), el("div", {}, el("p"), el("p", { class: "basis" }), el("div", { class: "row remedies" })));
}

/** Shows a finding; `tryOn(remedy)` tries what would mend it.
 * @param {HTMLElement} node
 * @param {Finding} finding
 * @param {TryOn} tryOn */
export function fillFinding(node, { id, grade, text, basis, remedies }, tryOn) {
  const [sign, body] = parts(node);
  const [fact, ground, row] = parts(body);
  setMark(sign, grade);
  node.dataset.finding = id;
  node.dataset.grade = grade;
  say(fact, text);
  say(ground, basis && `Based on: ${basis}`);
  each(row, remedies, () => /** @type {Trial} */ (button("", (event) => tryOn(/** @type {Trial} */ (event.currentTarget).remedy))), (item, remedy) => {
    item.remedy = remedy;
    item.dataset.sets = remedy.changes.map(({ field }) => field).join(" ");
    say(item, `Try ${remedy.label}`);
  });
}

/** A fold under a plain question, which says its own answer while closed. @param {{ id: string }} section */
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

/** Shows a subject in its node.
 * @param {Element} node
 * @param {Section} section
 * @param {TryOn} tryOn */
export function fillSection(node, section, tryOn) {
  const [summary, findings, list, frame, cautions] = parts(node);
  const [sign, title, sums] = parts(summary);
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

/** Shows `sections` in `box` in their order, each in the node that it had, so that what the reader opened stays open. What is no longer told goes.
 * @param {HTMLElement} box
 * @param {Section[]} sections
 * @param {TryOn} tryOn */
export function fillBox(box, sections, tryOn) {
  const told = new Set(sections.map(({ id }) => `on-${id}`));
  for (const node of [...box.querySelectorAll(":scope > .subject:not([data-own])")]) if (!told.has(node.id)) node.remove();
  for (const section of sections) putSection(box, section, tryOn);
  arrange(box);
}

/** Shows one subject in the node that it had, else in a new one.
 * @param {HTMLElement} box
 * @param {Section} section
 * @param {TryOn} tryOn */
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
const ORDER = ["danger", "power", "tasks", "mend", "paint", "read", "window", "doubt", "line", "auxiliary", "label", "carry", "sound", "box", "water", "cold", "money", "plan", "map"];

/** Those of them that stand in sight at once; the others come at a tap. */
const FIRST = new Set(["danger", "power", "tasks", "mend", "paint", "read"]);

/** Grades that ask for a look. */
const TO_MIND = new Set(["fair", "poor", "bad"]);

/** Says at the button of the other folds how many of them want a look. @param {HTMLElement} box */
function count(box) {
  const later = [.../** @type {NodeListOf<HTMLElement>} */ (box.querySelectorAll(":scope > .later:not([hidden]) > summary"))];
  const minded = later.filter(({ dataset }) => TO_MIND.has(dataset.grade ?? "")).length;
  say(document.getElementById("later-count"), minded ? `${minded} to mind` : "");
}

/** Wires the button of the folds that do not stand in sight at once. @param {HTMLElement} box */
export function wireLater(box) {
  const press = document.getElementById("later-open");
  press.addEventListener("click", () => press.setAttribute("aria-expanded", String(box.classList.toggle("all"))));
}

/** Puts folds into the order in which a builder asks; those that nobody placed come last. @param {HTMLElement} box */
export function arrange(box) {
  /** @param {Element} node */
  const rank = (node) => (ORDER.indexOf(node.id.slice(3)) + 1 || ORDER.length + 1);
  const nodes = [...box.querySelectorAll(":scope > .subject")].sort((one, other) => rank(one) - rank(other));
  nodes.forEach((node, index) => {
    node.classList.toggle("later", !FIRST.has(node.id.slice(3)));
    if (box.children[index] !== node) box.insertBefore(node, box.children[index] ?? null);
  });
  count(box);
}
