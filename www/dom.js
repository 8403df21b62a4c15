// Small helpers: nodes are made once and then filled again, so that focus, caret and open details stay.

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

function put(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) node.setAttribute(name, "");
    else if (value !== false && value != null) node.setAttribute(name, value);
  }
  node.append(...children);
  return node;
}

/** An HTML element. */
export function el(tag, attributes = {}, ...children) {
  return put(document.createElement(tag), attributes, children);
}

/** An SVG element. */
export function svg(tag, attributes = {}, ...children) {
  return put(document.createElementNS(SVG, tag), attributes, children);
}

/** A button that calls `act`. */
export function button(text, act, attributes = {}) {
  const node = el("button", { type: "button", ...attributes }, text);
  node.addEventListener("click", act);
  return node;
}

/** Sets text only where it changes: a live region then speaks only when there is news. */
export function say(node, text = "") {
  if (node.textContent !== text) node.textContent = text;
}

/** Gives `parent` one child for each item: makes what is missing, drops what is left over, fills all. */
export function each(parent, items, make, fill) {
  while (parent.children.length > items.length) parent.lastElementChild.remove();
  items.forEach((item, index) => {
    if (!parent.children[index]) parent.append(make(item, index));
    fill(parent.children[index], item, index);
  });
}

/** A list of sentences. */
export function sentences(list, texts) {
  each(list, texts, () => el("li"), (node, text) => say(node, text));
}

/** The picture of a grade with its word for screen readers. */
export function mark(grade = "note") {
  const node = el("span", { class: "graded" }, svg("svg", { class: "mark", "aria-hidden": "true" }, svg("use")), el("span", { class: "unseen" }));
  setMark(node, grade);
  return node;
}

/** Changes the grade that a mark shows; `node` holds the mark or is it. */
export function setMark(node, grade) {
  if (node.dataset.grade === grade) return;
  node.dataset.grade = grade;
  node.querySelector("use").setAttribute("href", `#mark-${grade}`);
  const word = node.querySelector(".unseen");
  if (word) say(word, `${GRADES[grade] ?? grade}: `);
}

/** What a grade is called. */
export const gradeWord = (grade) => GRADES[grade] ?? grade;

/** Calls `act` once `wait` ms have passed with no further call; `now()` calls it at once if it is due. */
export function later(act, wait) {
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
