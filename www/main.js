// Wires the page: the core, the shop on the bench, its fields, the answer as it comes from the worker.

import { schema, Session } from "./core.js";
import { showAnswer, showStrip, showUnread, showWindow, wireAnswer } from "./answer.js";
import { Bench, read, said } from "./bench.js";
import { nameBoxes, wireBoxes } from "./boxes.js";
import { choice, frameChoice } from "./choice.js";
import { say } from "./dom.js";
import { PLATE } from "./fields.js";
import { sumsBy } from "./figures.js";
import { files } from "./files.js";
import { annotate, fieldsets, fill, goTo, learn, nameOf, nameUnits, pointLabel } from "./form.js";
import { Judge } from "./judge.js";
import { keeping } from "./keeping.js";
import { links } from "./links.js";
import { load } from "./load.js";
import { map } from "./map.js";
import { machineName } from "./names.js";
import { notify } from "./notice.js";
import { register } from "./offline.js";
import { questions } from "./questions.js";
import { arrange, fillBox, putSection, wireLater } from "./sections.js";
import { layOut } from "./sheet.js";
import { buildShop, learnKinds, nameParts } from "./shopfields.js";
import { showTasks } from "./tasks.js";
import { timer } from "./timer.js";
import { wholeLabel } from "./whole.js";

/** @import { Change, Comparison, Report, Section, Told } from "./core.js" */
/** @import { List } from "./shopfields.js" */

/** What a machine has beside figures. */
const NO_FIGURES = new Set(["name", "kind", "wheels"]);

/** @param {string} id */
const at = (id) => document.getElementById(id);
const root = document.documentElement;

/** Says that the page is dead, and what to do. @param {unknown} fault */
function dead(fault) {
  root.dataset.core = "dead";
  say(at("dead-why"), said(fault));
}

async function begin() {
  const module = await load();
  const session = new Session();
  const found = session.begin(navigator.language);
  const bench = new Bench(session);
  page(bench, new Judge(module), found);
}

/** @param {Bench} bench
 * @param {Judge} judge
 * @param {import("./core.js").Begun} found */
function page(bench, judge, found) {
  const { session } = bench;
  /** What the worker told last, by part. @type {{ answer?: Report, choice?: Comparison, subjects?: Section[], map?: Section }} */
  const parts = {};
  const folds = at("folds");

  /** The sheet is printed once all of the answer is there. */
  let printing = false;
  const shelf = keeping(bench, { opened: () => link.retell() });
  const link = links(bench, { shelf, answered });
  files(bench, { arrive: link.arrive, shelf });
  const drawMap = map(folds, {
    pick: (x, y) => judge.call("pick_on_map", x, y),
    step: (x, y, right, up) => judge.call("step_on_map", x, y, right, up),
    chosen: () => bench.shop.chosen,
  });
  const compared = choice({ choose: (index) => bench.act(() => session.choose(index)), sorted: () => ask() });
  sumsBy((list, index) => judge.call("sum", list, index));

  /** Waits until the sentence is that of the shop as it stands. */
  async function answered() {
    while (root.dataset.answer === "working") await new Promise((done) => judge.addEventListener("part", done, { once: true }));
  }

  /** Asks the worker about the shop as it stands. */
  function ask() {
    root.dataset.answer = "working";
    // What stands below the answer is still that of the one before.
    folds.setAttribute("aria-busy", "true");
    judge.ask({ text: session.text(), view: bench.view, sort: compared.order() });
  }

  /** @param {{ label: string, changes: Change[] }} remedy */
  function tryOn({ label, changes }) {
    const was = parts.answer?.answer.sentence.split(/(?<=[.;]) /u)[0] ?? "";
    bench.act(() => session.apply(changes, `“${label}” was put in.`));
    shelf.offerUndo(`Put in: ${label}. Before: ${was}`);
  }

  const show = {
    /** @param {Report} report */
    answer(report) {
      root.dataset.answer = "answered";
      showAnswer(report.answer);
      showStrip(report.picture);
      say(at("assumed"), report.assumed);
      showWindow(report.window);
      showTasks(report, { look: (view) => bench.look(view), tryOn, change: goTo });
    },
    choice: compared.show,
    /** @param {Section[]} sections */
    subjects: (sections) => fillBox(folds, sections, tryOn),
    /** @param {Told} told */
    doubt({ section }) {
      putSection(folds, section, tryOn).dataset.own = "";
      arrange(folds);
    },
    map: drawMap,
    done() {
      root.dataset.answer = "settled";
      folds.removeAttribute("aria-busy");
      if (printing) print();
      printing = false;
    },
    /** @param {string} why */
    fault(why) {
      root.dataset.answer = "settled";
      notify("core", `Bellows could not figure this, which is a defect of Bellows: ${why}. What you typed is kept.`, [["Start again", () => location.reload()]]);
    },
  };
  judge.addEventListener("part", (event) => {
    const { part, value } = /** @type {CustomEvent} */ (event).detail;
    /** @type {Record<string, unknown>} */ (parts)[part] = value;
    /** @type {Record<string, (value: any) => void>} */ (show)[part](value);
  });

  /** Nothing of the machine is typed yet: there is nothing to say of it, nor to compare it with. @param {object} machine */
  const isBlank = (machine) => Object.entries(machine).every(([key, value]) => NO_FIGURES.has(key) || value === "");

  /** What can be shown at once, without judging. */
  function echo() {
    document.body.classList.toggle("blank", isBlank(bench.candidate ?? {}));
    const notes = session.notes();
    annotate(notes);
    showUnread(notes.faults, nameOf, goTo);
    nameBoxes(bench.shop);
    nameUnits(bench.shop);
    nameParts(bench.shop);
    say(at("sheet-shop"), bench.shop.name.trim() || "Unnamed shop");
    say(at("sheet-candidate"), machineName(bench.shop, bench.shop.chosen));
    say(at("sheet-units"), bench.shop.units === "metric" ? "L/min, bar, L" : "cfm, psi, gal");
    say(at("sheet-date"), new Date().toLocaleDateString());
    link.soon();
    ask();
  }

  /** The machine that the boxes are of. @type {number | undefined} */
  let machine;
  let emptyLabel = () => {};

  /** Lists or the whole shop changed: the fields are made anew. */
  function rebuild() {
    const forms = session.forms();
    learn(forms);
    learnKinds(forms.tasks);
    buildShop(bench.shop, { add, remove });
    if (machine !== undefined && machine !== bench.shop.chosen) emptyLabel();
    machine = bench.shop.chosen;
    pointLabel(at("label"), machine);
    fill(bench.shop, read, new Set(session.undoable()?.fields.filter((path) => !path.startsWith("candidates.")) ?? []));
    for (const clock of clocks) clock.showRuns();
    for (const radio of /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll("[name=units]"))) radio.checked = radio.value === bench.shop.units;
    frameChoice(bench.shop);
    shelf.show();
    echo();
  }

  const CALLED = { candidates: "compressor", places: "place", tasks: "task" };

  /** @param {List} list
   * @param {string} [kind] */
  function add(list, kind) {
    try {
      const index = bench.act(() => session.add(list, kind));
      if (list === "candidates") at("flow").focus();
      else goTo(`${list}.${index}.${list === "tasks" ? "flow" : "name"}`);
    } catch (fault) {
      notify("list", said(fault));
    }
  }

  /** @param {List} list
   * @param {number} index */
  function remove(list, index) {
    bench.act(() => session.remove(list, index, `The ${CALLED[list]} was removed.`));
    shelf.offerUndo(`The ${CALLED[list]} was removed.`);
    /** @type {HTMLElement} */ (document.querySelector("[data-notice=undo] button")).focus({ preventScroll: true });
  }

  // ---- fields ----
  learn(session.forms());
  wireBoxes((path, text) => bench.set(path, text));
  at("plate-fields").append(...fieldsets("candidates.0", PLATE));
  for (const control of /** @type {NodeListOf<HTMLInputElement>} */ (at("plate-fields").querySelectorAll("[data-path]"))) control.dataset.own = control.id;
  const clocks = [.../** @type {NodeListOf<HTMLInputElement>} */ (at("plate-fields").querySelectorAll(".times input"))].map((control) => {
    const clock = timer(control);
    control.closest(".field").after(clock.node);
    return clock;
  });
  document.addEventListener("input", ({ target }) => {
    const control = /** @type {HTMLInputElement} */ (target);
    const { path } = control.dataset;
    if (path) bench.set(path, control.type === "checkbox" ? String(control.checked) : control.value);
    else if (control.name === "units") shelf.attempt(() => bench.act(() => session.choose_units(control.value)));
  });
  at("label").addEventListener("submit", (event) => event.preventDefault());
  emptyLabel = wholeLabel(/** @type {HTMLTextAreaElement} */ (at("whole")), at("on-read"), { take: (text) => bench.act(() => session.read_label(text)), undo: shelf.undo });
  questions({
    ask: () => session.questions(),
    answer: (question, picked) => bench.act(() => session.answer_question(question, picked)),
    details: () => {
      /** @type {HTMLDetailsElement} */ (at("shop")).open = true;
      at("shop").scrollIntoView();
    },
  });
  wireAnswer();
  wireLater(folds);
  at("add-candidate").addEventListener("click", () => add("candidates"));
  at("remove-candidate").addEventListener("click", () => remove("candidates", bench.shop.chosen));
  at("new-shop").addEventListener("click", () => {
    bench.act(() => session.open_example(navigator.language, "The example was opened."));
    shelf.offerUndo("The example is open.");
    scrollTo(0, 0);
  });
  at("blank-shop").addEventListener("click", () => {
    bench.act(() => session.open_fresh(navigator.language, "A blank shop was opened."));
    shelf.offerUndo("A blank shop is open.");
    scrollTo(0, 0);
  });
  at("shops-open").addEventListener("click", () => {
    at("profiles").scrollIntoView();
    at("shop-name").focus({ preventScroll: true });
  });

  // ---- the printed sheet ----
  at("print").addEventListener("click", () => {
    if (root.dataset.answer === "settled") print();
    else printing = true;
  });
  addEventListener("beforeprint", () => {
    if (!parts.answer) return;
    link.address();
    layOut(at("sheet"), () => ({ report: parts.answer, rows: parts.choice?.rows ?? [], subjects: parts.subjects ?? [], map: parts.map, code: session.code(location.href), shop: bench.shop }));
  });
  addEventListener("afterprint", () => {
    at("sheet").hidden = true;
  });

  bench.addEventListener("edit", echo);
  link.begin(found);
  // Built once, whatever was opened by then.
  bench.addEventListener("shape", rebuild);
  rebuild();
  arrange(folds);
  const undoable = session.undoable();
  if (undoable && !document.querySelector("[data-notice]")) shelf.offerUndo(undoable.what);
  if (found.message) notify("store", found.message);
  root.dataset.schema = String(schema());
  root.dataset.core = "ready"; // the browser tests wait for this
  register((loadNewer) => {
    const newer = at("newer");
    newer.querySelector("button").addEventListener("click", loadNewer);
    newer.hidden = false;
  });
}

begin().catch(dead);
