// The shop on the bench: the page's session, and a copy of the shop to read fields from. Emits "edit" when a value changed and
// "shape" when a list or the whole shop did. Every change is kept at once.

/** @import { Session, Shop, View } from "./core.js" */

/** The value at `path`, or undefined.
 * @param {Shop} shop
 * @param {string} path
 * @returns {any} */
export function read(shop, path) {
  return path.split(".").reduce((part, key) => part?.[key], /** @type {any} */ (shop));
}

/** @param {Shop} shop
 * @param {string} path
 * @param {string} value */
function write(shop, path, value) {
  const keys = path.split(".");
  const last = keys.pop();
  const part = keys.reduce((inner, key) => inner?.[key], /** @type {any} */ (shop));
  if (part && last in part) part[last] = typeof part[last] === "boolean" ? value === "true" : value;
}

/** What a thrown value says.
 * @param {any} fault
 * @returns {string} */
export const why = (fault) => fault?.message ?? String(fault);

/** The same as a sentence.
 * @param {unknown} fault */
export const said = (fault) => why(fault).replace(/^./u, (first) => first.toUpperCase());

export class Bench extends EventTarget {
  /** Which task at which place the picture shows. @type {View} */
  view = { place: 0, task: null };
  /** The name of this window, by which its own draft is told from another's. */
  window = "";
  /** What keeps changes from being kept; blank where nothing does. */
  failing = "";

  /** @param {Session} session */
  constructor(session) {
    super();
    this.session = session;
    this.shop = session.shop();
  }

  get candidate() {
    return this.shop.candidates[this.shop.chosen];
  }

  /** Keeps what is open; a refusal is told by `failing`. */
  save() {
    const before = this.failing;
    try {
      this.session.save(this.window);
      this.failing = "";
    } catch (fault) {
      this.failing = said(fault);
    }
    if (this.failing !== before) this.dispatchEvent(new Event("kept"));
  }

  #acted() {
    try {
      this.session.save_acts();
    } catch {
      // Said by `save`: nothing is being kept.
    }
  }

  /** Puts a text into a field.
   * @param {string} path
   * @param {string} text */
  set(path, text) {
    this.session.set(path, text);
    write(this.shop, path, text);
    this.save();
    this.dispatchEvent(new Event("edit"));
  }

  /** Shows another task.
   * @param {View} view */
  look(view) {
    this.view = view;
    this.dispatchEvent(new Event("edit"));
  }

  /** Shows all anew after the session changed by itself. */
  shape() {
    this.shop = this.session.shop();
    this.view = { place: 0, task: null };
    this.dispatchEvent(new Event("shape"));
  }

  /** Runs what may change lists or open another shop, then shows all anew. A refusal is thrown.
   * @template T
   * @param {(session: Session) => T} change */
  act(change) {
    const result = change(this.session);
    this.save();
    this.#acted();
    this.shape();
    return result;
  }
}
