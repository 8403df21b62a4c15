// The printed sheet: one page of Letter or A4. It is laid out on the screen's own terms, so that it can be measured;
// what does not fit gives way by rank, and the sheet names it.

import { machineName } from "./names.js";
import { chartFrame, fillChart } from "./chart.js";
import { codeFrame, fillCode } from "./code.js";
import { el, mark } from "./dom.js";

/** @import { Chart, Code, CompareRow, Figure, Finding, Grade, PlaceRows, Report, Section, Shop, TaskRow } from "./core.js" */
/** Shortens a part of the sheet, or makes it whole again. @typedef {(short: boolean) => void} Fold */
/** What gives way, and what it is called. @typedef {{ name: string, go: Fold }} Give */
/** @typedef {{ report: Report, rows: CompareRow[], subjects: Section[], map?: Section, code: Code, shop: Shop }} Whole */

const HEIGHT = (254 / 25.4) * 96; // CSS pixels: the height of Letter less margins of half an inch
const ROWS = 8; // tasks in the table where room is short, the worst
const PLACES = 4; // places in it
const NAMED = 8; // names in a sentence
const LINK = 1600; // characters of a link that are printed where room is short
const BESIDE = [["Price", "Price"], ["Weight", "Weight"], ["At the ears, indoors", "Noise indoors"]]; // as said here, as the comparison calls it
/** @type {Grade[]} */
const WORST = ["bad", "poor", "unsure", "fair", "note", "good"];

/** @param {string} id */
const at = (id) => document.getElementById(id);
/** @param {{ name: string }[]} items */
const named = (items) => items.slice(0, NAMED).map(({ name }) => name).join(", ") + (items.length > NAMED ? ` and ${items.length - NAMED} more` : "");
/** @param {string} text */
const heading = (text) => el("h2", {}, text);
/** @param {string[]} items */
const list = (items) => el("ul", {}, ...items.map((text) => el("li", {}, text)));
/** @param {Grade} grade
 * @param {...string} words */
const graded = (grade, ...words) => el("span", { class: "verdict", "data-grade": grade }, mark(grade), el("span", {}, ...words));
/** @param {string} title
 * @param {...(Node | string)} parts */
const block = (title, ...parts) => el("section", {}, heading(title), ...parts);

/** @param {Pick<Figure, "name" | "value">[]} items */
function figureList(items) {
  return el("dl", {}, ...items.map(({ name, value }) => el("div", {}, el("dt", {}, name), el("dd", {}, value))));
}

/** @param {Chart} chart
 * @param {string} title */
function picture(chart, title) {
  const frame = chartFrame();
  fillChart(frame, chart);
  return block(title, frame);
}

/** @param {string} assumed */
function answer(assumed) {
  const grade = /** @type {Grade} */ (at("answer").dataset.grade);
  const said = el("p", { class: "verdict", "data-grade": grade }, mark(grade), el("strong", {}, at("verdict").textContent));
  const lines = ["sentence", "odds", "next"].map((id) => at(id).textContent).filter(Boolean);
  return el("header", {}, said, ...lines.map((line) => el("p", {}, line)), el("p", { class: "sure" }, `Assuming: ${assumed}.`));
}

function label() {
  const fields = [...document.querySelectorAll("#boxes .box")];
  const items = fields.map((field) => {
    const input = field.querySelector("input");
    const unit = field.querySelector(".unit").textContent;
    const own = /[a-z⇆]/iu.test(input.value) || unit === "⇆" ? input.value : `${input.value} ${unit}`;
    return { name: field.querySelector("label").textContent.trim(), value: input.value ? own : "not stated" };
  });
  const list = figureList(items);
  list.className = "pairs";
  return block(`The label: ${at("sheet-candidate").textContent}`, list);
}

/** A candidate with the number that it has on the map.
 * @param {Shop} shop
 * @param {number} index */
const numbered = (shop, index) => (shop.candidates[index].name.trim() ? `${index + 1} ` : "") + machineName(shop, index);

/** A row for each machine, the best first; of many the first ones and the chosen one.
 * @param {CompareRow[]} rows
 * @param {Shop} shop */
function machines(rows, shop) {
  const listed = rows.filter(({ chosen }, row) => chosen || row < NAMED);
  /** @param {CompareRow} row */
  const line = ({ candidate, answer: { grade, verdict }, cells }) => {
    const values = BESIDE.map(([, name]) => cells.find((cell) => cell.name === name)?.value.split(": ")[0]);
    return el("tr", {}, el("th", { scope: "row" }, numbered(shop, candidate)), el("td", {}, graded(grade, verdict)), ...values.map((value) => el("td", {}, value)));
  };
  const head = ["Machine", "Verdict", ...BESIDE.map(([name]) => name)].map((name) => el("th", { scope: "col" }, name));
  const rest = rows.length - listed.length;
  return block("Side by side", el("table", { class: "machines" }, el("tr", {}, ...head), ...listed.map(line)), ...(rest ? [el("p", {}, `${rest} more in the link.`)] : []));
}

/** @param {Finding} finding */
const remedy = ({ text, remedies }) => [text, ...(remedies.length ? [`Fixes: ${remedies.map((each) => each.label).join("; or ")}.`] : [])].join(" ");

/** Tasks down, places across. Returns the node and three ways to shorten it, each to be called with whether it is short.
 * @param {PlaceRows[]} places */
function tasks(places) {
  const columns = places.map(({ grade }, column) => ({ worth: WORST.indexOf(grade), column })).sort((a, b) => a.worth - b.worth);
  const far = new Set(columns.slice(PLACES).map(({ column }) => column));
  /** @param {(place: PlaceRows) => HTMLElement} cell */
  const across = (cell) => places.map((place, column) => {
    const node = cell(place);
    node.classList.toggle("far", far.has(column));
    return node;
  });
  /** @param {string} name
   * @param {(place: PlaceRows) => Node | string} cell */
  const line = (name, cell) => el("tr", {}, el("th", { scope: "row" }, name), ...across((place) => el("td", {}, cell(place))));
  const rows = places[0].tasks.map(({ name }, row) => {
    const worst = Math.min(...places.map((place) => WORST.indexOf(place.tasks[row].grade)));
    return { name, good: WORST[worst] === "good", worst, node: line(name, (place) => graded(place.tasks[row].grade, place.tasks[row].verdict)) };
  });
  const late = new Set([...rows].sort((a, b) => a.worst - b.worst).slice(ROWS));
  const head = el("tr", {}, el("td"), ...across(({ name }) => el("th", { scope: "col" }, name)));
  const power = line("power", ({ circuit: { grade, text } }) => graded(grade, text));
  const table = el("table", {}, head, ...rows.map(({ node }) => node), power, line("air", ({ air }) => air.value));
  const keeps = el("p", { hidden: true }, `At every place these keep up: ${named(rows.filter(({ good }) => good))}.`);
  const more = el("p", { hidden: true }, `Left out here, no worse than these: ${named(rows.filter((row) => late.has(row) && !row.good))}.`);
  const elsewhere = el("p", { hidden: true }, `Left out here, no worse than these: ${named(places.filter((_, column) => far.has(column)))}.`);
  /** @param {(row: typeof rows[number]) => boolean} which
   * @param {HTMLElement} words
   * @returns {Fold} */
  const hide = (which, words) => (short) => {
    for (const row of rows.filter(which)) row.node.hidden = short;
    words.hidden = !short;
  };
  const foldGood = hide(({ good }) => good, keeps);
  const foldLate = hide((row) => late.has(row) && !row.good, more);
  /** @type {Fold} */
  const foldFar = (short) => {
    table.classList.toggle("few", short);
    elsewhere.hidden = !short;
  };
  return {
    node: block("Task by task", table, keeps, more, elsewhere),
    foldGood: rows.some(({ good }) => good) && foldGood,
    foldLate: rows.some((row) => late.has(row) && !row.good) && foldLate,
    foldFar: far.size > 0 && foldFar,
  };
}

/** Puts the sheet together. Returns its nodes and what gives way, the least worth first: what it is called and how it goes and comes back.
 * @param {Whole} whole */
function compose({ report, rows, subjects, map, code, shop }) {
  /** @type {Give[]} */
  const gives = [];
  /** @template {HTMLElement} E
   * @param {string} name
   * @param {E} node */
  const weak = (name, node) => {
    gives.unshift({ name, go: (short) => (node.hidden = short) });
    return node;
  };
  /** @param {string} id */
  const subject = (id) => subjects.find((section) => section.id === id);
  /** @param {string} id */
  const figuresOn = (id) => {
    const section = subject(id);
    return section?.figures.length ? [weak(`figures on ${section.id}`, block(section.title, figureList(section.figures)))] : [];
  };
  const { places, window, picture: curve, view } = report;
  const left = [];
  const right = [label()];
  const wide = el("div", { class: "columns" });
  const table = places.length && tasks(places);
  const camera = codeFrame();
  fillCode(camera, code);
  const cautions = /** @type {HTMLElement} */ (at("cautions").cloneNode(true));
  const title = /** @type {HTMLElement} */ (at("title-block").cloneNode(true));
  const link = title.querySelector("#sheet-link");
  link.textContent = code.text;
  for (const node of [cautions, title, ...title.querySelectorAll("[id]")]) node.removeAttribute("id");

  // From here in the order of worth: what is called last gives way first.
  if (code.text.length > LINK) {
    const words = `${code.text.length} characters, too many to print here: send it as text or as a file.`;
    gives.unshift({ name: "", go: (short) => link.replaceChildren(short ? words : code.text) });
  }
  if (window.sentence) left.push(block("What to look for", el("p", { class: "window" }, window.sentence)));
  if (table.foldFar) gives.unshift({ name: "", go: table.foldFar });
  if (table.foldLate) gives.unshift({ name: "", go: table.foldLate });
  const mend = subject("mend");
  if (mend) left.push(weak("what would mend it", block(mend.title, list(mend.findings.map(remedy)))));
  const beside = rows.length > 1 ? [weak("the machines side by side", machines(rows, shop))] : [];
  if (map?.chart) {
    const frame = picture(map.chart, map.title);
    const names = shop.candidates.map((_, index) => numbered(shop, index));
    if (names.length > 1) frame.append(el("p", {}, `Machines: ${names.slice(0, NAMED).join("; ")}.`));
    right.unshift(weak("the map", frame));
  }
  const plan = subject("plan");
  if (plan) left.push(weak("the plan", block(plan.title, list(plan.findings.map(({ text }) => text)))));
  const row = places[view.place]?.tasks.find(({ task }) => task === view.task);
  const hardest = row ? [weak(`figures on ${row.name}`, block(`${row.name}, ${places[view.place].name}`, figureList(row.figures)))] : [];
  for (const node of hardest) node.className = "spread";
  wide.append(...["power", "line", "label"].flatMap(figuresOn));
  if (table.foldGood) gives.unshift({ name: "", go: table.foldGood });
  wide.append(...["water", "sound", "carry", "money"].flatMap(figuresOn));
  if (row) right.push(weak("the tank’s pressure over time", picture(curve, curve.title)));

  const missing = el("p", { class: "missing" });
  const halves = el("div", { class: "halves" }, el("div", {}, ...left), el("div", {}, ...right));
  const foot = el("div", { class: "foot" }, el("div", {}, cautions, title), camera);
  return { sheet: [answer(report.assumed), halves, ...beside, ...(table ? [table.node] : []), ...hardest, wide, missing, foot], gives, missing };
}

/** Fills `box` for the printer; `ask()` gives what is to be on the sheet.
 * @param {HTMLElement} box
 * @param {() => Whole} ask */
export function layOut(box, ask) {
  const { sheet, gives, missing } = compose(ask());
  box.replaceChildren(...sheet);
  box.hidden = false;
  box.style.zoom = "";
  /** @type {Give[]} */
  const gone = [];
  const height = () => box.getBoundingClientRect().height;
  const tell = () => {
    const names = gone.map(({ name }) => name).filter(Boolean);
    missing.textContent = names.length ? `Left out for want of room: ${names.join(", ")}. The link opens all of it.` : "";
  };
  for (const give of gives) {
    if (height() <= HEIGHT) break;
    give.go(true);
    gone.push(give);
    tell();
  }
  // What went before something larger may fit again: the most worth first.
  for (const give of [...gone].reverse()) {
    give.go(false);
    gone.splice(gone.indexOf(give), 1);
    tell();
    if (height() <= HEIGHT) continue;
    give.go(true);
    gone.push(give);
    tell();
  }
  if (height() > HEIGHT) box.style.zoom = String(HEIGHT / height()); // names of great length: smaller letters
}
