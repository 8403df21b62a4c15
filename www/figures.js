// Names and figures. Each figure opens its own sum in place; the core hands a sum over only where one is open.

import { sum_of as sumOf } from "./core.js";
import { each, el, say } from "./dom.js";

/** What a reader has opened, by list and name: it stays open whatever is typed. */
const opened = new Set();

let made = 0;

/** A term and what stands for it. */
const pair = () => el("div", {}, el("dt"), el("dd"));

function fillPair(node, [name, value]) {
  say(node.firstElementChild, name);
  say(node.lastElementChild, value);
}

function makeFigure() {
  const id = `sum-${(made += 1)}`;
  const ask = el("button", { type: "button", class: "ask", "aria-controls": id, "aria-expanded": "false" });
  const sum = el("dd", { class: "sum", id, hidden: true }, el("p", { class: "equation" }), el("dl"));
  const node = el("div", {}, el("dt", {}, ask, el("span")), el("dd"), sum);
  ask.addEventListener("click", () => {
    const { key } = node.dataset;
    if (!opened.delete(key)) opened.add(key);
    fillSum(node);
  });
  return node;
}

function fillSum(node) {
  const [term, value, panel] = node.children;
  const { list, index, key } = node.dataset;
  const sum = opened.has(key) && sumOf(list, Number(index));
  term.firstElementChild.setAttribute("aria-expanded", Boolean(sum));
  panel.hidden = !sum;
  if (!sum) return;
  const [equation, parts] = panel.children;
  say(equation, sum.equation);
  each(parts, [...sum.put_in, ["gives", value.textContent], ["source", sum.source], ["leaves out", sum.leaves_out]], pair, fillPair);
}

/** Shows `items` in `list`; `id` is what the core calls the list. */
export function figures(list, items, id) {
  each(list, items, makeFigure, (node, { name, value, sum }, index) => {
    const [term, shown] = node.children;
    const [ask, plain] = term.children;
    Object.assign(node.dataset, { list: id, index, key: `${id} ${name}` });
    ask.hidden = !sum;
    say(ask, name);
    say(plain, sum ? "" : name);
    say(shown, value);
    fillSum(node);
  });
}
