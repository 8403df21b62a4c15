// How sure the answer is. A thousand draws are judged in slices once typing rests, so that no key waits for them.

import { later, say } from "./dom.js";
import { fillSection, makeSection } from "./sections.js";

const REST_MS = 400;
/** A frame lasts 16 ms: half of one is left to the page. */
const SLICE_MS = 8;

/** Puts the subject into `box` and its sentence into `line`. Returns what to call with the shop after each change, and what judges at once whatever is still to be judged. */
export function doubt(box, line, core) {
  const node = makeSection({ id: "doubt" });
  const [, title, sums] = node.firstElementChild.children;
  say(title, "How sure");
  box.append(node);
  let shop;
  let shown = "";
  let asked = "";
  let next = 0;

  /** What belongs to an older answer is not shown beside a newer one; its room is kept, so that nothing jumps. */
  const pending = (is) => {
    for (const part of [line, node]) part.classList.toggle("pending", is);
  };

  const show = () => {
    const { sentence, section } = core.doubt_told();
    fillSection(node, section, () => {});
    say(line, sentence);
    line.hidden = sentence === "";
    shown = asked;
    pending(false);
  };

  const slice = () => {
    const end = performance.now() + SLICE_MS;
    let done = false;
    while (!done && performance.now() < end) done = core.doubt_step(4);
    if (done) show();
    else next = setTimeout(slice);
  };

  const rested = later(() => {
    if (core.doubt_start(shop)) slice();
    else show();
  }, REST_MS);

  const settle = () => {
    rested.now();
    if (asked === shown) return;
    clearTimeout(next);
    while (!core.doubt_step(100));
    show();
  };

  const changed = (now) => {
    const text = JSON.stringify(now);
    if (text === asked) return;
    clearTimeout(next);
    asked = text;
    shop = now;
    pending(asked !== shown);
    rested.soon();
  };

  return { changed, settle };
}
