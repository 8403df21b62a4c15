// Names and figures. Each figure opens its own sum in place; the core hands a sum over only where one is open.

import { each, el, parts, say } from "./dom.js";

/** @import { Figure, Sum } from "./core.js" */
/** @typedef {(list: string, index: number) => Promise<Sum | null>} Ask */

/** What a reader has opened, by list and name: it stays open whatever is typed. */
const opened = new Set();

let made = 0;

/** How a sum is asked for. @type {Ask} */
let ask = async () => null;

/** Tells where sums come from. @param {Ask} asks */
export function sumsBy(asks) {
  ask = asks;
}

/** A term and what stands for it. */
const pair = () => el("div", {}, el("dt"), el("dd"));

/** @param {Element} node
 * @param {string[]} pair */
function fillPair(node, [name, value]) {
  say(node.firstElementChild, name);
  say(node.lastElementChild, value);
}

function makeFigure() {
  const id = `sum-${(made += 1)}`;
  const opener = el("button", { type: "button", class: "ask", "aria-controls": id, "aria-expanded": "false" });
  const sum = el("dd", { class: "sum", id, hidden: true }, el("p", { class: "equation" }), el("dl"));
  const node = el("div", {}, el("dt", {}, opener, el("span")), el("dd"), sum);
  opener.addEventListener("click", () => {
    const { key } = node.dataset;
    if (!opened.delete(key)) opened.add(key);
    fillSum(node);
  });
  return node;
}

/** @param {HTMLElement} node */
async function fillSum(node) {
  const [term, value, panel] = parts(node);
  const { list, index, key } = node.dataset;
  const sum = opened.has(key) ? await ask(list, Number(index)) : null;
  if (node.dataset.key !== key) return;
  term.firstElementChild.setAttribute("aria-expanded", String(Boolean(sum)));
  panel.hidden = !sum;
  if (!sum) return;
  const [equation, rows] = parts(panel);
  say(equation, sum.equation);
  each(rows, [...sum.put_in, ["gives", value.textContent], ["source", sum.source], ["leaves out", sum.leaves_out]], pair, fillPair);
}

/** Shows `items` in `list`; `id` is what the core calls the list.
 * @param {Element} list
 * @param {Figure[]} items
 * @param {string} id */
export function figures(list, items, id) {
  each(list, items, makeFigure, (node, { name, value, sum }, index) => {
    const [term, shown] = parts(node);
    const [opener, plain] = parts(term);
    Object.assign(node.dataset, { list: id, index, key: `${id} ${name}` });
    opener.hidden = !sum;
    say(opener, name);
    say(plain, sum ? "" : name);
    say(shown, value);
    fillSum(node);
  });
}
