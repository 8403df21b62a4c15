// Fields: made from the tables in fields.js, bound to the shop by path, never remade while one is typed in.

import { LETTERS, UNITS } from "./fields.js";
import { el, say } from "./dom.js";

let serial = 0;

/** Fields that are laid out in their own way, by sort. */
const CLASSES = { check: "field check", times: "field times" };

function input(sort, id) {
  if (Array.isArray(sort)) {
    return el("select", { id }, ...sort.map(([value, text]) => el("option", { value }, text)));
  }
  if (sort === "check") return el("input", { id, type: "checkbox" });
  const mode = LETTERS.has(sort) ? "text" : "decimal";
  return el("input", { id, inputmode: mode, enterkeyhint: "next", autocomplete: "off" });
}

function field(prefix, [name, label, sort, hint]) {
  serial += 1;
  const id = `f${serial}`;
  const control = input(sort, id);
  control.dataset.path = `${prefix}.${name}`;
  const described = [`${id}-fault`];
  const parts = [el("label", { for: id }, label, " ")];
  if (UNITS[sort]) parts[0].append(el("span", { class: "unit", "data-unit": sort }));
  parts.push(control);
  if (hint) {
    parts.push(el("p", { class: "hint", id: `${id}-hint` }, hint));
    described.unshift(`${id}-hint`);
  }
  parts.push(el("p", { class: "fault", id: `${id}-fault` }));
  control.setAttribute("aria-describedby", described.join(" "));
  return el("div", { class: CLASSES[sort] ?? "field" }, ...parts);
}

/** Fieldsets for one thing at `prefix`, from `groups` of [legend, fields, columns]. */
export function fieldsets(prefix, groups) {
  return groups.map(([legend, fields, columns = "halves"]) => {
    const grid = el("div", { class: `grid ${columns}` }, ...fields.map((row) => field(prefix, row)));
    return el("fieldset", {}, el("legend", {}, legend), grid);
  });
}

const bound = () => document.querySelectorAll("[data-path]");

/** Points the label form at the chosen candidate. */
export function pointLabel(form, chosen) {
  for (const control of form.querySelectorAll("[data-own]")) {
    control.dataset.path = `candidates.${chosen}.${control.dataset.own}`;
  }
}

/** Writes the shop into the fields. One that is typed in keeps its text unless the shop differs. */
export function fill(bench, read) {
  for (const control of bound()) {
    const value = read(bench.shop, control.dataset.path) ?? "";
    if (control.type === "checkbox") control.checked = value === true;
    else if (control.value !== value) control.value = value;
    control.classList.toggle("tried", bench.trial?.before.has(control.dataset.path) ?? false);
  }
}

/** Names the unit of bare numbers beside each field. */
export function nameUnits(system) {
  for (const node of document.querySelectorAll("[data-unit]")) say(node, UNITS[node.dataset.unit][system]);
}

/** Shows what was taken for blank fields, and beside its field why one could not be read. */
export function annotate({ faults, taken }) {
  const byField = new Map(taken.map(({ field, text }) => [field, text]));
  const messages = new Map(faults.map(({ field, message }) => [field, message]));
  for (const control of bound()) {
    const message = messages.get(control.dataset.path) ?? "";
    const place = document.getElementById(`${control.id}-fault`);
    if (place) say(place, message);
    if (message) control.setAttribute("aria-invalid", "true");
    else control.removeAttribute("aria-invalid");
    const text = byField.get(control.dataset.path);
    const placeholder = text ? `taken: ${text}` : "";
    if ("placeholder" in control && control.placeholder !== placeholder) control.placeholder = placeholder;
  }
}

/** The label of the field at `path`, with the name of the part of the shop that it stands in. */
export function nameOf(path) {
  const control = controlAt(path);
  if (!control) return path;
  const label = control.labels[0].firstChild.textContent.trim();
  const part = control.closest("details[data-part]")?.querySelector("summary .part")?.textContent;
  return part ? `${label} (${part})` : label;
}

/** Opens what hides the field at `path` and goes there. */
export function goTo(path) {
  const control = controlAt(path);
  if (!control) return;
  for (let node = control.closest("details"); node; node = node.parentElement.closest("details")) node.open = true;
  control.focus();
  control.scrollIntoView({ block: "center" });
}

const controlAt = (path) => document.querySelector(`[data-path="${CSS.escape(path)}"]`);
