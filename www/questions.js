// The four questions about the reader's own shop: one screen each, big buttons, an answer already standing.

import { button, each, el, parts, say, svg } from "./dom.js";

/** @import { Choice, Question, Sheet } from "./core.js" */

/** @param {string} id */
const at = (id) => document.getElementById(id);

/** Faces of outlets and cords: slots as `[x, y, w, h]` in a square of 40, or a round hole `[x, y, r]`. @type {Record<string, number[][]>} */
const FACES = {
  "5-15": [[12, 12, 3, 9], [25, 11, 3, 11], [20, 29, 3.5]],
  "5-20": [[10, 15, 8, 3], [12, 12, 3, 9], [25, 11, 3, 11], [20, 29, 3.5]],
  "6-20": [[9, 15, 9, 3], [25, 11, 3, 11], [25, 15, 7, 3], [20, 29, 3.5]],
  "14-30": [[10, 14, 3, 11], [27, 14, 3, 11], [17, 27, 6, 3], [20, 27, 3, 6], [20, 10, 3]],
  "10-30": [[9, 13, 3, 11], [28, 13, 3, 11], [17, 26, 6, 3], [20, 26, 3, 6]],
  "14-50": [[9, 13, 4, 13], [27, 13, 4, 13], [18, 27, 4, 8], [20, 9, 3.5]],
  schuko: [[13, 20, 3], [27, 20, 3]],
  bs1363: [[17, 8, 6, 8], [8, 23, 8, 5], [24, 23, 8, 5]],
  drill: [[6, 14, 20, 8], [26, 16, 10, 3], [9, 22, 6, 11]],
  punched: [[12, 12, 3], [20, 12, 3], [28, 12, 3], [12, 27, 3], [20, 27, 3], [28, 27, 3]],
  driven: [[8, 8, 12, 8], [18, 16, 5, 17], [13, 33, 15, 3]],
  pulled: [[18, 5, 4, 12], [12, 17, 16, 5], [16, 22, 8, 12]],
};

/** @param {string} name */
function picture(name) {
  if (name.startsWith("cord-")) return svg("svg", { class: "face", viewBox: "0 0 40 40", "aria-hidden": "true" }, svg("path", { d: "M2 30C12 30 10 12 20 12S30 28 38 22", "stroke-width": 15 - Number(name.slice(5)) * 0.75 }));
  const shapes = (FACES[name] ?? []).map(([x, y, w, h]) => (h === undefined ? svg("circle", { cx: x, cy: y, r: w }) : svg("rect", { x, y, width: w, height: h })));
  const round = name === "schuko" ? svg("circle", { class: "plate", cx: 20, cy: 20, r: 18 }) : svg("rect", { class: "plate", x: 2, y: 2, width: 36, height: 36, rx: 6 });
  return svg("svg", { class: "face", viewBox: "0 0 40 40", "aria-hidden": "true" }, round, ...shapes);
}

/** Where all sheets are listed. */
const ALL = -1;

/** Wires the dialog; `ask()` gives the four sheets as they stand, `answer(question, choice)` gives an answer, `details()` leads to all fields.
 * @param {{ ask: () => Sheet[], answer: (question: string, choice: string) => void, details: () => void }} calls */
export function questions({ ask, answer, details }) {
  const dialog = /** @type {HTMLDialogElement} */ (at("questions"));
  const body = at("questions-body");
  /** The sheet that is open; before the first, what stands of all. */
  let step = ALL;

  /** @param {Question} question */
  const option = (question) => {
    const press = button("", () => {
      answer(question.id, press.value);
      show();
      /** @type {HTMLElement} */ (body.querySelector(`[data-question="${question.id}"][value="${press.value}"]`))?.focus();
    }, { class: "option", "data-question": question.id });
    return press;
  };
  /** @param {HTMLButtonElement} press
   * @param {Choice} choice */
  const fillOption = (press, { id, label, hint, picture: face, chosen }) => {
    press.value = id;
    press.setAttribute("aria-pressed", String(chosen));
    press.replaceChildren(...(face ? [picture(face)] : []), el("span", {}, el("b", {}, label), hint ? el("small", {}, hint) : ""));
  };
  /** What stands, a line for each sheet: who finds it right is done. @param {Sheet[]} sheets */
  const showAll = (sheets) => {
    say(at("questions-title"), "Your shop: tap what is wrong");
    body.replaceChildren(...sheets.map(({ title, stands }, index) => {
      const press = button("", () => go(index), { class: "option", "data-sheet": String(index) });
      press.append(el("span", {}, el("b", {}, title), el("small", {}, stands)));
      return press;
    }));
  };
  const show = () => {
    const sheets = ask();
    at("questions-all").hidden = step !== ALL;
    at("questions-back").hidden = step === ALL;
    at("questions-next").hidden = step === ALL || step === sheets.length - 1;
    if (step === ALL) return showAll(sheets);
    const { title, questions: list } = sheets[step];
    say(at("questions-title"), title);
    for (const row of body.querySelectorAll("[data-sheet]")) row.remove();
    each(body, list, () => el("fieldset", {}, el("legend"), el("div", { class: "options" })), (node, question) => {
      const [legend, options] = parts(node);
      say(legend, question.ask);
      options.classList.toggle("few", question.choices.length < 3);
      options.replaceChildren(...question.choices.map((choice) => {
        const press = option(question);
        fillOption(press, choice);
        return press;
      }));
    });
  };
  /** @param {number} to */
  const go = (to) => {
    step = to;
    show();
    body.scrollTop = 0;
    at("questions-title").focus();
  };
  at("questions-open").addEventListener("click", () => {
    dialog.showModal();
    go(ALL);
  });
  at("questions-back").addEventListener("click", () => go(ALL));
  at("questions-next").addEventListener("click", () => go(step + 1));
  at("questions-close").addEventListener("click", () => dialog.close());
  at("questions-all").addEventListener("click", () => {
    dialog.close();
    details();
  });
  dialog.addEventListener("close", () => at("questions-open").focus({ preventScroll: true }));
}
