// How sure the answer is: told once typing rests, so that no key waits for it.

import { later, say } from "./dom.js";
import { fillSection, makeSection } from "./sections.js";

const REST_MS = 400;

/** Puts the subject into `box` and its sentence into `line`. Returns what to call with the shop after each change, and what tells at once whatever is still to be told. */
export function doubt(box, line, core) {
  const node = makeSection({ id: "doubt" });
  const [, title, sums] = node.firstElementChild.children;
  say(title, "How sure");
  box.append(node);
  let shop;
  let shown = "";
  let asked = "";

  /** What belongs to an older answer is not shown beside a newer one; its room is kept, so that nothing jumps. */
  const pending = (is) => {
    for (const part of [line, node]) part.classList.toggle("pending", is);
  };

  const show = () => {
    const { sentence, section } = core.doubt_told(shop);
    fillSection(node, section, () => {});
    say(line, sentence);
    line.hidden = sentence === "";
    shown = asked;
    pending(false);
  };

  const rested = later(show, REST_MS);

  const settle = () => {
    rested.now();
    if (asked !== shown) show();
  };

  const changed = (now) => {
    const text = JSON.stringify(now);
    if (text === asked) return;
    asked = text;
    shop = now;
    pending(asked !== shown);
    rested.soon();
  };

  return { changed, settle };
}
