// The choice among several machines: which to buy in a sentence, a row for each, and all their figures in a table.

import { button, each, el, mark, parts, say, setMark } from "./dom.js";

/** @import { Comparison, CompareRow, Figure, Shop, Sort } from "./core.js" */
/** @typedef {(candidate: number) => void} Choose */

/** @param {string} id */
const at = (id) => document.getElementById(id);

/** What the reader may care about, as the core calls it and as it is said. @type {Record<Sort, string>} */
const SORTS = { verdict: "best first", waiting: "least waiting", draws: "surest", power: "least power", sound: "quietest", mass: "lightest", price: "cheapest" };

/** Room is kept for so many machines, so that the third moves nothing. */
const ROWS_LEAST = 3;

/** Figures that a row shows where somebody has them. */
const SHOWN = ["Price", "Weight", "Noise, as printed"];

/** What no label says is left out. @param {Figure} figure */
const has = ({ value }) => value !== "" && !value.includes("not on the label");

/** @param {Choose} choose */
function makeRow(choose) {
  const row = el("li", {});
  const pick = button("", () => choose(Number(row.dataset.candidate)));
  pick.append(mark(), el("span", { class: "name" }), el("strong"), el("span", { class: "because" }), el("span", { class: "facts" }));
  row.append(pick);
  return row;
}

/** @param {HTMLElement} row
 * @param {CompareRow} machine */
function fillRow(row, { candidate, name, chosen, buy, answer, cells, because }) {
  const pick = row.firstElementChild;
  const [sign, title, verdict, why, facts] = parts(pick);
  row.dataset.candidate = String(candidate);
  row.dataset.grade = answer.grade;
  setMark(sign, answer.grade);
  pick.setAttribute("aria-pressed", String(chosen));
  pick.classList.toggle("buy", buy);
  say(title, name);
  say(verdict, answer.verdict);
  say(why, because.startsWith(answer.verdict) ? "" : because);
  say(facts, cells.filter((cell) => SHOWN.includes(cell.name) && has(cell)).map(({ value }) => value.split(": ")[0]).join(" · "));
}

/** @param {HTMLTableElement} node
 * @param {CompareRow[]} rows
 * @param {Choose} choose */
function table(node, rows, choose) {
  const names = rows[0].cells.map(({ name }) => name).filter((name) => rows.some(({ cells }) => cells.some((cell) => cell.name === name && has(cell))));
  each(node.tHead.rows[0], ["Compressor", "Verdict", ...names], () => el("th", { scope: "col" }), say);
  each(node.tBodies[0], rows, () => el("tr", {}, el("th", { scope: "row" }, button("", (event) => choose(Number(/** @type {HTMLButtonElement} */ (event.currentTarget).value)), { class: "plain" }))), (line, row) => {
    const pick = line.querySelector("button");
    pick.value = String(row.candidate);
    line.dataset.candidate = pick.value;
    say(pick, row.name);
    const values = [row.answer.verdict, ...names.map((name) => row.cells.find((cell) => cell.name === name)?.value ?? "")];
    while (line.children.length > values.length + 1) line.lastElementChild.remove();
    values.forEach((value, index) => {
      if (!line.children[index + 1]) line.append(el("td"));
      say(line.children[index + 1], value);
    });
  });
}

/** Wires the choice; `choose(index)` takes a machine, `sorted()` is called when the order changes. Returns what shows a comparison, and the order that is wanted.
 * @param {{ choose: Choose, sorted: () => void }} calls */
export function choice({ choose, sorted }) {
  const sort = /** @type {HTMLSelectElement} */ (at("compare-sort"));
  sort.append(...Object.entries(SORTS).map(([value, text]) => el("option", { value }, text)));
  sort.addEventListener("change", sorted);
  /** @param {Comparison} comparison */
  const show = ({ sentence, rows }) => {
    at("choice").classList.remove("pending");
    say(at("compare-sentence"), sentence);
    each(at("machines"), rows, () => makeRow(choose), fillRow);
    if (rows.length) table(/** @type {HTMLTableElement} */ (at("compare-table")), rows, choose);
  };
  return { show, order: () => sort.value };
}

/** While a shop has one machine there is nothing to choose. @param {Shop} shop */
export function frameChoice(shop) {
  const several = shop.candidates.length > 1;
  at("choice").hidden = !several;
  document.body.classList.toggle("several", several);
  at("choice").classList.add("pending");
  at("remove-candidate").hidden = !several;
  at("machines").style.setProperty("--machines", String(Math.max(ROWS_LEAST, shop.candidates.length)));
}
