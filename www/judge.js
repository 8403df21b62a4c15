// The judge: asks the worker, and starts a new one where the old is lost in a question that nobody waits for any more.

import { workerAddress } from "./wasm.js";

/** A worker that has said nothing for so long, ms, while a newer question waits, is given up. */
const PATIENCE_MS = 500;
/** So many workers may die one after the other before that is said to be a defect. */
const DEATHS_MOST = 3;

/** @import { Session, View } from "./core.js" */
/** What is asked of the answer that was told last. @typedef {"sum" | "pick_on_map" | "step_on_map"} Call */
/** @typedef {{ text: string, view: View, sort: string }} Question */

/** Emits "part" with `{ part, value }` for each part of the newest answer: answer, choice, subjects, doubt, map, done, fault. */
export class Judge extends EventTarget {
  #module;
  /** @type {Worker} */
  #worker;
  #id = 0;
  /** @type {Map<number, (value: any) => void>} */
  #replies = new Map();
  #reply = 0;
  #deaths = 0;
  /** @type {(Question & { id: number }) | undefined} */
  #open;
  #heard = 0;
  #timer = 0;

  /** @param {WebAssembly.Module} module */
  constructor(module) {
    super();
    this.#module = module;
    this.#start();
  }

  #start() {
    this.#worker?.terminate();
    for (const resolve of this.#replies.values()) resolve(null);
    this.#replies.clear();
    this.#worker = new Worker(workerAddress());
    this.#worker.postMessage({ module: this.#module });
    this.#worker.addEventListener("message", ({ data }) => this.#hear(data));
    this.#worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.#die(event.message ?? "the worker does not start");
    });
    this.#heard = performance.now();
  }

  /** @param {string} why */
  #die(why) {
    this.#deaths += 1;
    if (this.#deaths > DEATHS_MOST) return this.#tell("fault", why);
    this.#start();
    if (this.#open) this.#worker.postMessage(this.#open);
  }

  #count() {
    document.documentElement.dataset.calls = String(this.#replies.size);
  }

  /** @param {string} part
   * @param {unknown} value */
  #tell(part, value) {
    this.dispatchEvent(new CustomEvent("part", { detail: { part, value } }));
  }

  /** @param {any} data */
  #hear(data) {
    this.#heard = performance.now();
    if (data.reply !== undefined) {
      this.#replies.get(data.reply)?.(data.value);
      this.#replies.delete(data.reply);
      // What waited for it has run by then: the tests wait for this.
      setTimeout(() => this.#count());
      return;
    }
    if (data.id !== this.#id) return;
    if (data.dead) return this.#die(data.value);
    if (data.part === "done" || data.part === "fault") this.#open = undefined;
    if (data.part === "answer") this.#deaths = 0;
    this.#tell(data.part, data.value);
  }

  /** Asks the newest question; what belongs to an older one is no longer told.
   * @param {Question} question */
  ask(question) {
    const lost = this.#open !== undefined;
    this.#id += 1;
    this.#open = { ...question, id: this.#id };
    this.#worker.postMessage(this.#open);
    clearTimeout(this.#timer);
    if (lost) this.#timer = setTimeout(() => this.#giveUp(this.#id), PATIENCE_MS);
  }

  /** The worker is still in an older question: it is ended, and the newest is asked of another. @param {number} id */
  #giveUp(id) {
    if (id !== this.#id || !this.#open || performance.now() - this.#heard < PATIENCE_MS) return;
    this.#start();
    this.#worker.postMessage(this.#open);
  }

  /** Calls a function of the worker's session: what is asked of the answer that it gave last.
   * @template {Call} K
   * @param {K} call
   * @param {Parameters<Session[K]>} args
   * @returns {Promise<ReturnType<Session[K]> | null>} */
  call(call, ...args) {
    this.#reply += 1;
    const reply = this.#reply;
    const replied = new Promise((resolve) => this.#replies.set(reply, resolve));
    this.#worker.postMessage({ call, with: args, reply });
    this.#count();
    return replied;
  }
}
