// The shop's own fields: places and tasks as lists that grow and shrink, and air line, second tank, limits.

import { AUXILIARY, LIMITS, LINE, PLACE, TASK } from "./fields.js";
import { button, el, say } from "./dom.js";
import { fieldsets } from "./form.js";

/** @import { Place, Shop, Task, TaskChoice, TaskKind } from "./core.js" */
/** @import { Choice, Group } from "./fields.js" */
/** A list of the shop, as its parts are called. @typedef {"candidates" | "places" | "tasks"} List */
/** @typedef {{ add: (list: List, kind?: string) => void, remove: (list: List, index: number) => void }} Acts */

/** @type {Choice[]} */
let kinds = [];
/** @param {TaskKind} kind */
const kindName = (kind) => kinds.find(([value]) => value === kind)?.[1] ?? "Another air tool";

/** Takes over the kinds of task from the core. @param {TaskChoice[]} tasks */
export function learnKinds(tasks) {
  kinds = [...tasks.map(({ kind, name }) => /** @type {Choice} */ ([kind, name.replace(/^./u, (first) => first.toUpperCase())])), ["other", "Another air tool"]];
}

/** What a place is called.
 * @param {Place} place
 * @param {number} index */
export const placeName = (place, index) => place.name.trim() || `Place ${index + 1}`;
/** What a task is called. @param {Task} task */
export const taskName = (task) => task.name.trim() || kindName(task.kind);

/** @param {string} prefix
 * @param {Group[]} groups
 * @param {HTMLElement} extra */
function part(prefix, groups, extra) {
  return el("details", { "data-part": prefix }, el("summary", {}, el("span", { class: "part" })), ...fieldsets(prefix, groups, { kind: kinds }), extra);
}

/** @param {number} index
 * @param {Acts} acts */
function placePart(index, { remove }) {
  const drop = button("Remove this place", () => remove("places", index), { class: "plain" });
  return part(`places.${index}`, PLACE, el("div", { class: "row end" }, drop));
}

/** @param {number} index
 * @param {Acts} acts */
function taskPart(index, { remove }) {
  const drop = button("Remove this task", () => remove("tasks", index), { class: "plain" });
  const details = part(`tasks.${index}`, TASK, el("div", { class: "row end" }, drop));
  const id = `task-on-${index}`;
  const on = el("input", { type: "checkbox", id, "data-path": `tasks.${index}.on` });
  return el("div", { class: "switched" }, el("label", { for: id }, on, el("span", { class: "unseen" })), details);
}

/** @param {HTMLElement} box
 * @param {string} title
 * @param {HTMLElement[]} parts
 * @param {HTMLElement} add */
function list(box, title, parts, add) {
  const open = [...box.querySelectorAll("details")].map((node) => node.open);
  box.replaceChildren(el("h3", {}, title), ...parts, add);
  box.querySelectorAll("details").forEach((node, index) => {
    node.open = open.length === parts.length && open[index];
  });
}

/** Makes the fields anew after a list has changed. `acts` holds `add(list, kind)` and `remove(list, index)`.
 * @param {Shop} shop
 * @param {Acts} acts */
export function buildShop(shop, acts) {
  /** @param {string} id */
  const box = (id) => document.getElementById(id);
  const addPlace = button("Add a place", () => acts.add("places"));
  list(box("shop-places"), "Places", shop.places.map((_, index) => placePart(index, acts)), el("div", { class: "row" }, addPlace));
  const choose = el("select", { id: "new-task" }, ...kinds.map(([value, text]) => el("option", { value }, text)));
  const addTask = button("Add this task", () => acts.add("tasks", choose.value));
  const adder = el("div", { class: "row" }, el("label", { for: "new-task", class: "unseen" }, "Kind of the new task"), choose, addTask);
  list(box("shop-tasks"), "Work", shop.tasks.map((_, index) => taskPart(index, acts)), adder);
  if (!box("shop-line").children.length) {
    box("shop-line").append(...fieldsets("line", LINE));
    box("shop-auxiliary").append(...fieldsets("auxiliary", AUXILIARY));
    box("shop-limits").append(...fieldsets("limits", LIMITS));
  }
}

/** Keeps the headings of places and tasks in step with what is typed. @param {Shop} shop */
export function nameParts(shop) {
  /** @param {string} id */
  const titles = (id) => document.querySelectorAll(`#${id} summary .part`);
  titles("shop-places").forEach((node, index) => say(node, placeName(shop.places[index], index)));
  titles("shop-tasks").forEach((node, index) => {
    const task = shop.tasks[index];
    say(node, taskName(task));
    const row = node.closest(".switched");
    say(row.querySelector(".unseen"), `${taskName(task)} is part of this build`);
    row.classList.toggle("off", !task.on);
  });
}
