// Links: the address holds the shop as it is; a link that arrives opens beside what was open, and a bad one changes nothing.

import { why } from "./bench.js";
import { codeFrame, fillCode } from "./code.js";
import { later, say } from "./dom.js";
import { notify, withdraw } from "./notice.js";
import { canShare, copy, share } from "./share.js";

/** @import { Begun, Source } from "./core.js" */
/** @import { Bench } from "./bench.js" */
/** @import { Shelf } from "./keeping.js" */
/** @import { Act } from "./notice.js" */

/** @param {string} id */
const at = (id) => document.getElementById(id);
/** @param {string} id */
const field = (id) => /** @type {HTMLInputElement} */ (document.getElementById(id));

/** ms without a change before the address is written. */
const PAUSE = 400;
/** Shops that began here: opening one of them again after a reload is no arrival. */
const OWN = new Set(["fresh", "example", "loose", "stored"]);

/** Links around `bench`; `shelf` is what keeps, `answered()` waits for the answer to what was typed last.
 * @param {Bench} bench
 * @param {{ shelf: Shelf, answered: () => Promise<void> }} calls */
export function links(bench, { shelf, answered }) {
  const { session } = bench;
  const camera = codeFrame();
  const writing = later(address, PAUSE);

  /** The address holds the shop; which window wrote it and where the shop came from stay with this tab's history. */
  function address() {
    const fragment = session.link();
    const { kind, sent } = session.origin();
    history.replaceState({ window: bench.window, wrote: fragment, kind, sent }, "", `#${fragment}`);
    say(at("sheet-link"), location.href);
    field("link-text").value = location.href;
    drawCode();
    shelf.stand();
  }

  function drawCode() {
    if (/** @type {HTMLDetailsElement} */ (at("code")).open) fillCode(camera, session.code(location.href));
  }

  /** Says what arrived and offers to keep it, to go back, and once it differs to go back to what was sent.
   * @param {string} [back]
   * @param {string} [how] */
  function tellArrival(back, how = shelf.from()) {
    address();
    /** @type {Act[]} */
    const acts = [["Keep this shop", shelf.keep], ["Back to what was sent", backToSent, { "data-act": "sent", hidden: !session.is_changed() }]];
    if (back) acts.push([back, shelf.undo]);
    notify("link", `“${bench.shop.name.trim() || "A shop"}” is ${how}; it is not kept in this browser.`, acts);
  }

  /** Puts back what the link or the file held, and offers the changed shop again. */
  function backToSent() {
    const { kind } = session.origin();
    bench.act(() => session.open_as_sent("What was sent is back."));
    tellArrival("Undo", kind === "file" ? "as in the file" : "as it was sent");
  }

  /** Opens a shop that came from outside by `open(what)`: beside what is kept, which it leaves alone.
   * @param {(what: string) => void} open
   * @param {string} what */
  function arrive(open, what) {
    withdraw("exported");
    const nothing = session.is_blank();
    try {
      bench.act(() => open("Another shop was opened."));
    } catch (fault) {
      notify("link", `${what} could not be opened, and nothing was changed: ${why(fault)}`);
      writing.soon();
      return;
    }
    tellArrival(nothing ? undefined : "Back to what was open");
  }

  /** Another shop came onto the bench: says again where it is from, where somebody sent it. */
  function retell() {
    if (session.origin().sent) tellArrival();
    else withdraw("link");
  }

  /** @param {string} text */
  const openLink = (text) => arrive((what) => session.open_link(text, what), "This link");

  /** What the first address of a visit holds: mostly the shop that was open here, else one that somebody sent. @param {Begun} found */
  function begin(found) {
    const fragment = location.hash.slice(1);
    const was = history.state;
    const own = Boolean(fragment) && was?.wrote === fragment;
    bench.window = was?.window ?? String(Math.random()).slice(2);
    const nothing = !fragment || fragment === session.link() || (own && was.window === found.window);
    if (!nothing && !openKept(fragment) && !(own && reopen(fragment, was))) openLink(fragment);
    else if (session.origin().sent) tellArrival();
    address();
  }

  /** @param {string} fragment */
  function openKept(fragment) {
    const name = session.kept_as(fragment);
    if (name === null) return false;
    return shelf.attempt(() => bench.act(() => session.open_kept(name, `“${name}” was opened.`)));
  }

  /** After a reload, where another window's draft is the last one: the shop of this tab is in its address.
   * @param {string} fragment
   * @param {{ kind: Source, sent?: string }} was */
  function reopen(fragment, { kind, sent }) {
    try {
      session.reopen(fragment, OWN.has(kind) ? "loose" : kind, sent ?? "");
      bench.shape();
      return true;
    } catch {
      return false;
    }
  }

  /** What the share sheet is given; an address that leads nobody anywhere goes as the text that can be pasted. */
  function shared() {
    const { text: carried } = session.code(location.href);
    const title = `Bellows: ${bench.shop.name.trim() || "a shop"}`;
    const text = [at("sentence"), at("odds"), at("next")].map((node) => node.textContent).filter(Boolean).join(" ");
    return carried === location.href ? { title, text, url: carried } : { title, text: `${text}\n${carried}` };
  }

  async function copyLink() {
    address();
    const { text: carried } = session.code(location.href);
    const done = await copy(carried);
    const here = carried !== location.href ? "Copied. It holds the shop; paste it under “Open a link” on another device" : "Link copied";
    say(at("copy-link"), done ? here : "Copy link");
    at("link-out").hidden = done;
    if (!done) field("link-text").select();
  }

  at("copy-link").addEventListener("click", copyLink);
  at("share").hidden = !canShare({ title: "Bellows", text: "Bellows" });
  at("share").addEventListener("click", async () => {
    address();
    await answered();
    if (!(await share(shared()))) copyLink();
  });
  at("link-in").addEventListener("change", () => {
    const { value } = field("link-in");
    field("link-in").value = "";
    if (!value.trim()) return;
    openLink(value);
    scrollTo(0, 0);
  });
  at("back-to-sent").addEventListener("click", backToSent);
  at("code").append(camera);
  at("code").addEventListener("toggle", address);
  addEventListener("hashchange", () => {
    const fragment = location.hash.slice(1);
    if (fragment && fragment !== session.link() && !openKept(fragment)) openLink(fragment);
  });
  addEventListener("pagehide", writing.now);
  document.addEventListener("visibilitychange", () => document.hidden && writing.now());
  return { address, arrive, begin, retell, soon: writing.soon };
}
