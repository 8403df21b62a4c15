// The candidates side by side: a table where there is room, cards on a phone.

import { button, each, el, mark, say, setMark } from "./dom.js";

/** What the reader may care about, as the core calls it and as it is said. */
const SORTS = {
  verdict: "verdict",
  waiting: "least waiting",
  draws: "surest",
  power: "power it asks for",
  sound: "quietest",
  mass: "lightest",
  price: "cheapest",
};

/** The roles are said outright: a table laid out as cards would lose them. */
const cell = (tag, role, ...children) => el(tag, { role }, ...children);

function makeRow(choose) {
  const head = cell(
    "th",
    "rowheader",
    mark(),
    button("", (event) => choose(event.currentTarget.candidate)),
    el("strong"),
    el("span", { class: "beside" }),
  );
  return cell("tr", "row", head);
}

function fillRow(node, { candidate, name, chosen, answer, cells, because }) {
  const [sign, pick, verdict, others] = node.firstElementChild.children;
  setMark(sign, answer.grade);
  node.dataset.candidate = candidate;
  node.dataset.grade = answer.grade;
  pick.candidate = candidate;
  say(pick, name);
  pick.setAttribute("aria-pressed", chosen);
  say(verdict, answer.verdict);
  say(others, because);
  while (node.children.length - 1 > cells.length) node.lastElementChild.remove();
  cells.forEach(({ name: figure, value }, index) => {
    if (!node.children[index + 1]) node.append(cell("td", "cell", el("span", { class: "name", "aria-hidden": "true" }), el("span")));
    const [label, text] = node.children[index + 1].children;
    say(label, figure);
    say(text, value);
  });
}

/** Puts the comparison into `box`; `ask(sort)` gets it from the core, `choose(index)` takes a candidate. Returns what to call after each change. */
export function compare(box, { ask, choose }) {
  const sort = el("select", { id: "compare-sort" }, ...Object.entries(SORTS).map(([value, text]) => el("option", { value }, text)));
  const sentence = el("p", { id: "compare-sentence" });
  const heads = cell("tr", "row", cell("th", "columnheader", "Compressor"));
  const rows = el("tbody", { role: "rowgroup" });
  const table = el("table", { role: "table", "aria-label": "Compressors side by side" }, el("thead", { role: "rowgroup" }, heads), rows);
  box.append(el("h2", {}, "Side by side"), sentence, el("div", { class: "row" }, el("label", { for: sort.id }, "First in the list:"), sort), el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Table of the comparison" }, table));
  const draw = () => {
    const comparison = ask(sort.value);
    box.hidden = comparison.rows.length === 0;
    if (box.hidden) return;
    say(sentence, comparison.sentence);
    const [{ cells }] = comparison.rows;
    each(heads, [{ name: "Compressor" }, ...cells], () => cell("th", "columnheader"), (node, { name }) => say(node, name));
    each(rows, comparison.rows, () => makeRow(choose), fillRow);
  };
  sort.addEventListener("change", draw);
  return draw;
}
