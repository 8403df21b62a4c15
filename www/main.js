// Wires the page: the core, the shop on the bench, its fields, the answer.

import init, * as core from "./core.js";
import { showAnswer, showTrial, showUnread, showWindow, wireAnswer } from "./answer.js";
import { Bench, read } from "./bench.js";
import { candidateName, showCandidates } from "./candidates.js";
import { compare } from "./compare.js";
import { say } from "./dom.js";
import { doubt } from "./doubt.js";
import { PLATE } from "./fields.js";
import { annotate, fieldsets, fill, goTo, nameOf, nameUnits, pointLabel } from "./form.js";
import { map } from "./map.js";
import { notify } from "./notice.js";
import { register } from "./offline.js";
import { showSections } from "./sections.js";
import { layOut } from "./sheet.js";
import { buildShop, nameParts } from "./shopform.js";
import { said, shops } from "./shops.js";
import { stopwatch } from "./stopwatch.js";
import { showVerdicts } from "./verdicts.js";
import { wasm } from "./wasm.js";

await init({ module_or_path: wasm() });

const at = (id) => document.getElementById(id);
const bench = new Bench();
const profiles = shops(bench);
let report;
let subjectsDue = 0;
const doubted = doubt(at("doubt-box"), at("sure"), core);
const redrawMap = map(at("map-box"), { draw: () => core.map(bench.shop), pick: core.pick_on_map, step: core.step_on_map, chosen: () => bench.shop.chosen });

const redrawComparison = compare(at("compare"), {
  ask: (sort) => core.compare(bench.shop, sort),
  choose,
});

const BLANK = { candidates: core.blank_candidate, places: core.blank_place, tasks: core.blank_task };
const CALLED = { candidates: "The compressor", places: "The place", tasks: "The task" };

function add(list, kind) {
  bench.reshape((shop) => {
    shop[list].push(BLANK[list](kind));
    if (list === "candidates") shop.chosen = shop.candidates.length - 1;
  });
  if (list === "candidates") at("flow").focus();
  else goTo(`${list}.${bench.shop[list].length - 1}.${list === "tasks" ? "flow" : "name"}`);
}

function remove(list, index) {
  let gone;
  const settle = (shop) => {
    shop.chosen = Math.max(0, Math.min(shop.chosen, shop.candidates.length - 1));
  };
  bench.reshape((shop) => {
    [gone] = shop[list].splice(index, 1);
    settle(shop);
  });
  const { shop } = bench;
  const undo = () => {
    if (bench.shop !== shop) return notify("undo", "Another shop is open by now: nothing was put back.");
    bench.reshape((inner) => {
      inner[list].splice(index, 0, gone);
      if (list === "candidates") inner.chosen = index;
    });
  };
  notify("undo", `${CALLED[list]} was removed.`, [["Undo", undo]]);
}

function choose(index) {
  bench.reshape((shop) => {
    shop.chosen = index;
  });
}

function tryOn(remedy) {
  const { verdict, sentence } = report.answer;
  bench.tryOn(remedy, `${verdict}: ${sentence.split(/[.;] /)[0]}`);
  at("trial-keep").focus({ preventScroll: true });
}

function titleBlock(shop) {
  const { name, chosen, units } = shop;
  say(at("sheet-shop"), name.trim() || "Unnamed shop");
  say(at("sheet-candidate"), candidateName(shop, chosen));
  say(at("sheet-units"), units === "metric" ? "L/min, bar, L" : "cfm, psi, gal");
  say(at("sheet-date"), new Date().toLocaleDateString());
}

/** What is on the printed sheet, as it stands now. */
function sheetParts() {
  profiles.address();
  doubted.settle();
  const { rows } = core.compare(bench.shop, "verdict");
  return { report, rows, subjects: core.subjects(), map: core.map(bench.shop), code: core.code(location.href), shop: bench.shop, trial: bench.trial };
}

/** The subjects below the fold come a frame later than the sentence, so that typing stays fluid. */
function subjectsSoon() {
  subjectsDue ||= requestAnimationFrame(() => {
    subjectsDue = 0;
    redrawComparison();
    showSections(core.subjects(), tryOn);
    redrawMap();
  });
}

/** Asks the core and shows what it says. Runs on each keystroke. */
function refresh() {
  try {
    report = core.assess(bench.shop, bench.view);
  } catch (fault) {
    notify("core", `Bellows could not reckon this, which is a defect of Bellows: ${said(fault)}`);
    return;
  }
  showAnswer(report.answer);
  showTrial(bench.trial);
  annotate(report);
  showUnread(report.faults, nameOf, goTo);
  showWindow(report.window);
  showVerdicts(report, { look: (view) => bench.look(view), tryOn, change: goTo });
  subjectsSoon();
  doubted.changed(bench.shop);
  showCandidates(at("candidates"), bench.shop, choose);
  at("remove-candidate").hidden = bench.shop.candidates.length < 2;
  nameParts(bench.shop);
  nameUnits(bench.shop.units);
  titleBlock(bench.shop);
  profiles.saveSoon();
}

/** Lists or the whole shop changed: the fields are made anew. */
function rebuild() {
  const { shop } = bench;
  if (shop.candidates.length === 0) shop.candidates.push(core.blank_candidate());
  buildShop(shop, { add, remove });
  pointLabel(at("label"), shop.chosen);
  fill(bench, read);
  for (const radio of document.querySelectorAll("[name=units]")) radio.checked = radio.value === shop.units;
  refresh();
  profiles.show();
}

at("plate-fields").append(...fieldsets("candidates.0", PLATE));
for (const control of at("plate-fields").querySelectorAll("[data-path]")) {
  control.dataset.own = control.dataset.path.split(".").pop();
}
for (const control of at("plate-fields").querySelectorAll(".times input")) control.closest(".field").after(stopwatch(control));
bench.addEventListener("edit", refresh);
bench.addEventListener("shape", rebuild);
bench.addEventListener("open", rebuild);
document.addEventListener("input", ({ target }) => {
  const { path } = target.dataset;
  if (path) bench.set(path, target.type === "checkbox" ? target.checked : target.value);
  else if (target.name === "units") profiles.chooseUnits(target.value);
});
at("add-candidate").addEventListener("click", () => add("candidates"));
at("remove-candidate").addEventListener("click", () => remove("candidates", bench.shop.chosen));
at("label").addEventListener("submit", (event) => event.preventDefault());
wireAnswer(bench);
addEventListener("beforeprint", () => layOut(at("sheet"), sheetParts));
addEventListener("afterprint", () => {
  at("sheet").hidden = true;
});
profiles.arriveByAddress();
document.documentElement.dataset.core = "ready"; // the browser tests wait for this

await register((load) => {
  const newer = at("newer");
  newer.querySelector("button").addEventListener("click", load);
  newer.hidden = false;
});
