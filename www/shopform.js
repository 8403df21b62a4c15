// The shop's own fields: places and tasks as lists that grow and shrink, and air line, auxiliary receiver, limits.

import { AUXILIARY, LIMITS, LINE, PLACE, TASK, TASKS } from "./fields.js";
import { button, el, say } from "./dom.js";
import { fieldsets } from "./form.js";

const kindName = (kind) => TASKS.find(([value]) => value === kind)?.[1] ?? "Task";

/** What a place is called. */
export const placeName = (place, index) => place.name.trim() || `Place ${index + 1}`;
/** What a task is called. */
export const taskName = (task) => task.name.trim() || kindName(task.kind);

function part(prefix, groups, extra) {
  const title = el("span", { class: "part" });
  return el("details", { "data-part": prefix }, el("summary", {}, title), ...fieldsets(prefix, groups), extra);
}

function placePart(index, { remove }) {
  const drop = button("Remove this place", () => remove("places", index));
  return part(`places.${index}`, PLACE, el("div", { class: "row" }, drop));
}

function taskPart(index, { remove }) {
  const drop = button("Remove this task", () => remove("tasks", index));
  const details = part(`tasks.${index}`, TASK, el("div", { class: "row" }, drop));
  const id = `task-on-${index}`;
  const on = el("input", { type: "checkbox", id, "data-path": `tasks.${index}.on` });
  return el("div", { class: "switched" }, el("label", { for: id }, on, el("span", { class: "unseen" })), details);
}

function list(box, title, parts, add) {
  const open = [...box.querySelectorAll("details")].map((node) => node.open);
  box.replaceChildren(el("h3", {}, title), ...parts, add);
  box.querySelectorAll("details").forEach((node, index) => {
    node.open = open.length === parts.length && open[index];
  });
}

/** Makes the fields anew after a list has changed. `acts` holds `add(list, kind)` and `remove(list, index)`. */
export function buildShop(shop, acts) {
  const box = (id) => document.getElementById(id);
  const addPlace = button("Add a place", () => acts.add("places"));
  list(box("shop-places"), "Places", shop.places.map((_, index) => placePart(index, acts)), el("div", { class: "row" }, addPlace));
  const kinds = el("select", { id: "new-task" }, ...TASKS.map(([value, text]) => el("option", { value }, text)));
  const addTask = button("Add this task", () => acts.add("tasks", kinds.value));
  const adder = el("div", { class: "row" }, el("label", { for: "new-task", class: "unseen" }, "Kind of the new task"), kinds, addTask);
  list(box("shop-tasks"), "Tasks", shop.tasks.map((_, index) => taskPart(index, acts)), adder);
  if (!box("shop-line").children.length) {
    box("shop-line").append(...fieldsets("line", LINE));
    box("shop-auxiliary").append(...fieldsets("auxiliary", AUXILIARY));
    box("shop-limits").append(...fieldsets("limits", LIMITS));
  }
}

/** Keeps the headings of places and tasks in step with what is typed. */
export function nameParts(shop) {
  const titles = (id) => document.querySelectorAll(`#${id} summary .part`);
  titles("shop-places").forEach((node, index) => say(node, placeName(shop.places[index], index)));
  titles("shop-tasks").forEach((node, index) => {
    const task = shop.tasks[index];
    say(node, taskName(task));
    const row = node.closest(".switched");
    say(row.querySelector(".unseen"), `${taskName(task)} is part of this build`);
    row.classList.toggle("off", !task.on);
    row.querySelector(`[data-path="tasks.${index}.flow"]`).labels[0].querySelector(".unit").dataset.unit =
      ["squeezer", "rivet_puller", "cleco_tool"].includes(task.kind) ? "stroke" : "flow";
  });
}
