// The worker: judges the newest question, a part at a time, and drops an older one as soon as a newer comes.

import { initSync, Session } from "./core.js";

/** @type {Session} */
let session;
/** @type {(import("./judge.js").Question & { id: number }) | undefined} */
let wanted;
let working = false;

const turn = () => new Promise((resolve) => setTimeout(resolve));
/** @param {any} fault
 * @returns {string} */
const said = (fault) => fault?.message ?? String(fault);

async function judge() {
  working = true;
  while (wanted) {
    const { id, text, view, sort } = wanted;
    wanted = undefined;
    try {
      session.tell(text, sort);
      postMessage({ id, part: "answer", value: session.answer(view.place, view.task ?? -1) });
      for (;;) {
        await turn();
        if (wanted) break;
        const part = session.more();
        if (!part) {
          postMessage({ id, part: "done" });
          break;
        }
        postMessage({ id, part: part[0], value: part[1] });
      }
    } catch (fault) {
      postMessage({ id, part: "fault", value: said(fault), dead: fault instanceof WebAssembly.RuntimeError });
    }
  }
  working = false;
}

self.addEventListener("message", ({ data }) => {
  if (data.module) {
    initSync({ module: data.module });
    session = new Session();
  } else if (data.call) {
    let value = null;
    try {
      value = /** @type {any} */ (session)[data.call](...data.with);
    } catch (fault) {
      console.error(said(fault));
    }
    postMessage({ reply: data.reply, value });
  } else {
    wanted = data;
    if (!working) judge();
  }
});
