// Files: one shop or all of them, out and in. A file with several goes to what is kept, one with a single shop to the bench.

import { why } from "./bench.js";
import { askClashes } from "./incoming.js";
import { notify, withdraw } from "./notice.js";
import { download } from "./share.js";

/** @import { Shop, Step } from "./core.js" */
/** @import { Bench } from "./bench.js" */
/** @import { Decided } from "./incoming.js" */
/** @import { Shelf } from "./keeping.js" */
/** @import { Act } from "./notice.js" */

/** @param {string} id */
const at = (id) => document.getElementById(id);

/** Files around `bench`; `arrive(open, what)` opens a shop from outside, `shelf` is what keeps.
 * @param {Bench} bench
 * @param {{ arrive: (open: (what: string) => void, what: string) => void, shelf: Shelf }} calls */
export function files(bench, { arrive, shelf }) {
  const { session } = bench;

  function exportAll() {
    shelf.attempt(() => {
      const [text, count, unread] = session.export_all();
      download("Bellows shops", text);
      const rest = unread ? ` ${unread} that cannot be read ${unread === 1 ? "is" : "are"} not in it: save ${unread === 1 ? "its" : "their"} data from the list below.` : "";
      notify("exported", `${count === 1 ? "One shop is" : `${count} shops are`} in the file.${rest}`);
    });
  }

  /** Opens a file that was chosen or dropped. @param {File} file */
  async function open(file) {
    withdraw("exported");
    /** @type {Shop[]} */
    let found;
    try {
      session.check_size(file.size);
      found = session.shops_in(await file.text());
    } catch (fault) {
      notify("link", `${file.name} could not be opened, and nothing was changed: ${why(fault)}`);
      return;
    }
    if (found.length === 1) arrive((what) => session.open_file(found[0], what), file.name);
    else takeIn(found);
  }

  /** Several shops go to what is kept; where names clash the reader is asked first. @param {Shop[]} found */
  function takeIn(found) {
    const clashing = session.clashes(found);
    if (clashing.length) askClashes(at("incoming"), found, clashing, (choices) => takeSo(found, choices));
    else takeSo(found, []);
  }

  /** @param {Shop[]} found
   * @param {Decided[]} choices */
  function takeSo(found, choices) {
    const blank = session.is_blank();
    const { sentence, steps, refused } = session.take_in(found, choices);
    const back = () => {
      notify("link", session.take_back(steps));
      followed(steps);
    };
    /** @type {Act[]} */
    const opens = refused.slice(0, 3).map((index) => [`Open “${found[index].name.trim()}”`, () => arrive((what) => session.open_file(found[index], what), "The file")]);
    if (blank && steps.length) bench.act(() => session.open_kept(steps[0].name, `“${steps[0].name}” was opened.`));
    followed(steps);
    notify("link", sentence, [...(steps.length ? [/** @type {Act} */ (["Undo", back])] : []), ...opens]);
  }

  /** What is kept changed under the open shop: shows it as it is kept now. @param {Step[]} steps */
  function followed(steps) {
    const { kind, name } = session.origin();
    if (kind === "stored" && steps.some((step) => step.name === name)) {
      session.follow();
      bench.shape();
    }
    shelf.show();
  }

  at("export").addEventListener("click", () => shelf.attempt(() => download(bench.shop.name, session.text())));
  at("export-all").addEventListener("click", exportAll);
  at("import").addEventListener("click", () => at("import-file").click());
  at("import-file").addEventListener("change", async ({ target }) => {
    const input = /** @type {HTMLInputElement} */ (target);
    const [file] = input.files;
    if (file) await open(file);
    input.value = "";
  });
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => {
    event.preventDefault();
    const [file] = event.dataTransfer?.files ?? [];
    if (file) open(file);
  });
}
