// What is kept: the draft keeps itself; a shop that is given a name is kept under that, too.

import { said } from "./bench.js";
import { say } from "./dom.js";
import { showKept } from "./kept.js";
import { notify, withdraw } from "./notice.js";
import { download } from "./share.js";

/** @import { Source } from "./core.js" */
/** @import { Bench } from "./bench.js" */
/** What keeps. @typedef {ReturnType<typeof keeping>} Shelf */

/** @param {string} id */
const at = (id) => document.getElementById(id);
/** @type {Partial<Record<Source, string>>} */
const FROM = { fresh: "new", link: "from a link", file: "from a file", example: "the example", loose: "open here only" };

/** Keeping around `bench`; `opened()` is called when another shop came onto the bench.
 * @param {Bench} bench
 * @param {{ opened: () => void }} calls */
export function keeping(bench, { opened }) {
  const { session } = bench;
  const isKept = () => session.origin().kind === "stored";
  const from = () => `${FROM[session.origin().kind]}${session.is_changed() ? ", with changes made here" : ""}`;

  /** Runs what may be refused; a refusal becomes a notice. Returns whether it went well. @param {() => unknown} act */
  function attempt(act) {
    withdraw("exported");
    try {
      act();
      withdraw("store");
      return true;
    } catch (fault) {
      notify("store", said(fault));
      return false;
    } finally {
      show();
    }
  }

  /** Undoes the last act, and says so. */
  function undo() {
    attempt(() => {
      if (bench.act(() => session.undo())) opened();
    });
  }

  /** Offers to undo what was just done. @param {string} text */
  const offerUndo = (text) => notify("undo", text, [["Undo", undo]]);

  function keep() {
    attempt(() => {
      bench.act(() => session.keep());
      withdraw("link");
      opened();
      navigator.storage?.persist?.();
    });
  }

  function rename() {
    const field = /** @type {HTMLInputElement} */ (at("shop-name"));
    const name = field.value.trim();
    say(at("shop-name-fault"), "");
    if (name === bench.shop.name) return;
    try {
      bench.act(() => session.rename(name));
    } catch (fault) {
      say(at("shop-name-fault"), said(fault));
    }
    show();
  }

  /** @type {import("./kept.js").Acts} */
  const acts = {
    open: (name) =>
      attempt(() => {
        const before = bench.shop.name.trim() || "the shop before";
        bench.act(() => session.open_kept(name, `“${name}” was opened.`));
        opened();
        offerUndo(`“${name}” is open. Undo brings back “${before}”.`);
      }),
    remove: (name) =>
      attempt(() => {
        const { kind, name: current } = session.origin();
        const text = session.delete(name);
        const wasOpen = kind === "stored" && current === name;
        notify(`removed ${name}`, `${name} was deleted.`, [["Undo", () => attempt(() => session.put_back(name, text, wasOpen))]]);
      }),
    duplicate: (name) => attempt(() => session.duplicate(name)),
    save: (name, key) => attempt(() => download(name, session.raw(key))),
  };

  /** Whether anything can be kept, as it was when that was looked at last. */
  let kept = session.stored();

  /** Shows where the open shop stands: after each change, so that what is kept is not read for it. */
  function stand() {
    const { working, message } = kept;
    const name = bench.shop.name.trim() || "Unnamed shop";
    const state = bench.failing ? "changes are not being saved" : isKept() ? "saved on this device" : `${from()}; the draft is kept on this device`;
    say(at("whose"), !working || bench.failing ? "Nothing is being saved" : isKept() ? `${name}, saved` : "Draft kept");
    say(at("store-state"), working ? `${name}: ${state}.` : `Nothing is being saved: ${message}`);
    const field = /** @type {HTMLInputElement} */ (at("shop-name"));
    if (document.activeElement !== field) field.value = bench.shop.name;
    at("keep").hidden = isKept() || !working;
    for (const press of document.querySelectorAll("[data-act=sent]")) /** @type {HTMLElement} */ (press).hidden = !session.is_changed();
  }

  /** Looks at what is kept, and shows it. */
  function show() {
    kept = session.stored();
    stand();
    showKept(kept.shops, isKept() ? session.origin().name : undefined, acts);
  }

  function failed() {
    if (bench.failing) notify("saving", `Changes are not being saved: ${bench.failing}`, [["Save to a file", () => download(bench.shop.name, session.text())]]);
    else withdraw("saving");
    show();
  }

  /** Another window may have changed what is kept. */
  function follow() {
    const became = session.follow();
    if (became === "changed") {
      bench.act(() => {});
      opened();
    } else if (became === "gone") {
      notify("store", "This shop is no longer kept under its name; it is still open here.", [["Keep this shop", keep]]);
    }
    show();
  }

  at("keep").addEventListener("click", keep);
  at("shop-name").addEventListener("change", rename);
  at("erase").addEventListener("click", () => /** @type {HTMLDialogElement} */ (at("erase-ask")).showModal());
  at("erase-no").addEventListener("click", () => /** @type {HTMLDialogElement} */ (at("erase-ask")).close());
  at("erase-yes").addEventListener("click", () => {
    /** @type {HTMLDialogElement} */ (at("erase-ask")).close();
    attempt(() => {
      session.erase_all(navigator.language);
      bench.shape();
      opened();
      notify("store", "Everything that Bellows kept on this device is erased.");
    });
  });
  bench.addEventListener("kept", failed);
  addEventListener("storage", ({ key }) => (key === null || key.startsWith("bellows.shop.")) && follow());
  return { attempt, keep, offerUndo, show, stand, undo, from };
}
