// Small helpers: nodes are made once and then filled again, so that focus, caret and open details stay.

/** @import { Grade } from "./core.js" */

const SVG = "http://www.w3.org/2000/svg";

/** What a grade is called: a mark and a colour never stand alone. */
const GRADES = {
  good: "good",
  note: "note",
  unsure: "not known",
  fair: "with limits",
  poor: "only just",
  bad: "does not do",
};

/** Names and values; true is a bare name, false and null leave it out. @typedef {Record<string, unknown>} Attributes */

/** @template {Element} E
 * @param {E} node
 * @param {Attributes} attributes
 * @param {(Node | string)[]} children */
function put(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) node.setAttribute(name, "");
    else if (value !== false && value != null) node.setAttribute(name, String(value));
  }
  node.append(...children);
  return node;
}

/** An HTML element.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Attributes} [attributes]
 * @param {...(Node | string)} children */
export function el(tag, attributes = {}, ...children) {
  return put(document.createElement(tag), attributes, children);
}

/** An SVG element.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Attributes} [attributes]
 * @param {...(Node | string)} children */
export function svg(tag, attributes = {}, ...children) {
  return put(document.createElementNS(SVG, tag), attributes, children);
}

/** The elements that a node of ours was made of.
 * @param {Element} node */
export const parts = (node) => /** @type {HTMLElement[]} */ ([...node.children]);

/** A button that calls `act`.
 * @param {Node | string} text
 * @param {(event: MouseEvent) => void} act
 * @param {Attributes} [attributes] */
export function button(text, act, attributes = {}) {
  const node = el("button", { type: "button", ...attributes }, text);
  node.addEventListener("click", act);
  return node;
}

/** Sets text only where it changes: a live region then speaks only when there is news.
 * @param {Node} node
 * @param {string} [text] */
export function say(node, text = "") {
  if (node.textContent !== text) node.textContent = text;
}

/** Gives `parent` one child for each item: makes what is missing, drops what is left over, fills all.
 * @template T
 * @template {Element} E
 * @param {Element} parent
 * @param {readonly T[]} items
 * @param {(item: T, index: number) => E} make
 * @param {(node: E, item: T, index: number) => void} fill */
export function each(parent, items, make, fill) {
  while (parent.children.length > items.length) parent.lastElementChild.remove();
  items.forEach((item, index) => {
    if (!parent.children[index]) parent.append(make(item, index));
    fill(/** @type {E} */ (parent.children[index]), item, index);
  });
}

/** A list of sentences.
 * @param {Element} list
 * @param {string[]} texts */
export function sentences(list, texts) {
  each(list, texts, () => el("li"), (node, text) => say(node, text));
}

/** The picture of a grade with its word for screen readers.
 * @param {Grade} [grade] */
export function mark(grade = "note") {
  const node = el("span", { class: "graded" }, svg("svg", { class: "mark", "aria-hidden": "true" }, svg("use")), el("span", { class: "unseen" }));
  setMark(node, grade);
  return node;
}

/** Changes the grade that a mark shows; `node` holds the mark or is it.
 * @param {HTMLElement} node
 * @param {Grade} grade */
export function setMark(node, grade) {
  if (node.dataset.grade === grade) return;
  node.dataset.grade = grade;
  node.querySelector("use").setAttribute("href", `#mark-${grade}`);
  const word = node.querySelector(".unseen");
  if (word) say(word, `${GRADES[grade] ?? grade}: `);
}

/** What a grade is called.
 * @param {Grade} grade */
export const gradeWord = (grade) => GRADES[grade] ?? grade;

/** Calls `act` once `wait` ms have passed with no further call; `now()` calls it at once if it is due.
 * @param {() => void} act
 * @param {number} wait */
export function later(act, wait) {
  /** @type {number | undefined} */
  let timer;
  const now = () => {
    if (timer === undefined) return;
    clearTimeout(timer);
    timer = undefined;
    act();
  };
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(now, wait);
  };
  return { soon, now };
}
