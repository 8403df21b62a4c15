// Fields: made from the rows in fields.js and the core's table, bound to the shop by path, never remade while one is typed in.

import { LETTERS, TIMES } from "./fields.js";
import { el, say } from "./dom.js";

/** @import { FieldNotes, FieldRow, Forms, Shop } from "./core.js" */
/** @import { Choice, Field, Group } from "./fields.js" */

/** @type {Map<string, FieldRow>} */
let table = new Map();
let strokeUnit = "";
let byStroke = new Set();

/** Takes over the core's table; units hang on the shop. @param {Forms} forms */
export function learn({ table: { fields }, tasks, stroke_unit }) {
  table = new Map(fields.map((row) => [row.path, row]));
  strokeUnit = `${stroke_unit} a stroke`;
  byStroke = new Set(tasks.filter((task) => task.by_stroke).map(({ kind }) => kind));
}

/** The core's row for the field at `path`. @param {string} path */
export const rowOf = (path) => table.get(path.replace(/\.\d+\./u, "."));

let serial = 0;

/** @param {FieldRow | undefined} row
 * @param {string} key
 * @param {string} id
 * @param {Choice[] | null | undefined} choices */
function input(row, key, id, choices) {
  if (choices) return el("select", { id }, ...choices.map(([value, text]) => el("option", { value }, text)));
  if (row?.holds === "tick") return el("input", { id, type: "checkbox" });
  const letters = row?.holds !== "figure" || LETTERS.has(key);
  return el("input", { id, inputmode: letters ? "text" : "decimal", enterkeyhint: "next", autocomplete: "off", maxlength: row?.most });
}

/** @param {string} prefix
 * @param {Field} field */
function field(prefix, [key, label, hint, choices]) {
  serial += 1;
  const path = `${prefix}.${key}`;
  const row = rowOf(path);
  const id = prefix.startsWith("candidates") ? key : `f${serial}`;
  const control = input(row, key, id, choices);
  control.dataset.path = path;
  const described = [`${id}-fault`];
  /** @type {HTMLElement[]} */
  const parts = [el("label", { for: id }, label, " ")];
  if (row?.holds === "figure") parts[0].append(el("span", { class: "unit", "data-unit": path }));
  parts.push(control);
  if (hint) {
    parts.push(el("p", { class: "hint", id: `${id}-hint` }, hint));
    described.unshift(`${id}-hint`);
  }
  parts.push(el("p", { class: "fault", id: `${id}-fault` }));
  control.setAttribute("aria-describedby", described.join(" "));
  const kind = row?.holds === "tick" ? "field check" : TIMES.has(key) ? "field times" : "field";
  return el("div", { class: kind }, ...parts);
}

/** Fieldsets for one thing at `prefix`, from `groups` of [legend, fields].
 * @param {string} prefix
 * @param {Group[]} groups
 * @param {Record<string, Choice[]>} [lists] */
export function fieldsets(prefix, groups, lists = {}) {
  return groups.map(([legend, fields]) => {
    const rows = fields.map(([key, label, hint, choices]) => field(prefix, [key, label, hint, choices ?? lists[key]]));
    return el("fieldset", {}, el("legend", {}, legend), el("div", { class: "grid" }, ...rows));
  });
}

const bound = () => /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll("[data-path]"));

/** Points the machine's form at the chosen one.
 * @param {HTMLElement} form
 * @param {number} chosen */
export function pointLabel(form, chosen) {
  for (const control of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll("[data-own]"))) control.dataset.path = `candidates.${chosen}.${control.dataset.own}`;
}

/** Writes the shop into the fields. One that is typed in keeps its text unless the shop differs.
 * @param {Shop} shop
 * @param {(shop: Shop, path: string) => any} read
 * @param {Set<string>} tried */
export function fill(shop, read, tried) {
  for (const control of bound()) {
    const value = read(shop, control.dataset.path) ?? "";
    if (control.type === "checkbox") control.checked = value === true;
    else if (control.value !== value) control.value = value;
    control.classList.toggle("tried", tried.has(control.dataset.path));
  }
}

/** Names the unit of bare numbers beside each field. @param {Shop} shop */
export function nameUnits(shop) {
  for (const node of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-unit]"))) {
    const [list, index, key] = node.dataset.unit.split(".");
    const strokes = list === "tasks" && key === "flow" && byStroke.has(shop.tasks[Number(index)]?.kind);
    say(node, strokes ? strokeUnit : rowOf(node.dataset.unit)?.unit);
  }
}

/** Shows what is assumed for blank fields, and at its field why one could not be read. @param {FieldNotes} notes */
export function annotate({ faults, taken }) {
  const byField = new Map(taken.map(({ field: path, text }) => [path, text]));
  const messages = new Map(faults.map(({ field: path, message }) => [path, message]));
  for (const control of bound()) {
    const message = messages.get(control.dataset.path) ?? "";
    const place = document.getElementById(`${control.id}-fault`);
    if (place) say(place, message);
    if (message) control.setAttribute("aria-invalid", "true");
    else control.removeAttribute("aria-invalid");
    const text = byField.get(control.dataset.path);
    const placeholder = text ? `assuming ${text}` : "";
    if ("placeholder" in control && !control.closest(".box") && control.placeholder !== placeholder) control.placeholder = placeholder;
  }
}

/** The label of the field at `path`, with the name of the part of the shop that it stands in. @param {string} path */
export function nameOf(path) {
  const control = controlAt(path);
  if (!control) return rowOf(path)?.name ?? path;
  const label = control.labels[0].firstChild.textContent.trim();
  const part = control.closest("details[data-part]")?.querySelector("summary .part")?.textContent;
  return part ? `${label} (${part})` : label;
}

/** Opens what hides the field at `path` and goes there. @param {string} path */
export function goTo(path) {
  const control = controlAt(path);
  if (!control) return;
  for (let node = control.closest("details"); node; node = node.parentElement.closest("details")) node.open = true;
  control.focus();
  control.scrollIntoView({ block: "center" });
}

/** @param {string} path */
const controlAt = (path) => /** @type {HTMLInputElement} */ (document.querySelector(`[data-path="${CSS.escape(path)}"]`));
