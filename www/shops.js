// Shop profiles: what is kept, what is only open, files and links. Storage may refuse; the page goes on and says so.

import { codeFrame, fillCode } from "./code.js";
import * as core from "./core.js";
import { later, say } from "./dom.js";
import { askClashes } from "./incoming.js";
import { showKept } from "./kept.js";
import { notify, withdraw } from "./notice.js";
import { canShare, copy, download, share } from "./share.js";
import { changeUnits } from "./units.js";

const at = (id) => document.getElementById(id);
const FROM = { fresh: "new", link: "from a link", file: "from a file", example: "the example", loose: "open here only" };
const BACK = "Back to what was sent";
const OWN = new Set(["fresh", "example", "loose"]); // began here
const PAUSE = 400; // ms without a keystroke before the profile and the address are written

/** What a thrown value says. */
export const said = (fault) => fault?.message ?? String(fault);
const sentence = (fault) => said(fault).replace(/^./u, (first) => first.toUpperCase());

/** Profiles around `bench`. */
export function shops(bench) {
  const kept = () => bench.origin.kind === "stored";
  const writing = later(writeNow, PAUSE);
  const camera = codeFrame();
  let failing = false;

  /** What the reader chose goes for every shop; before he chose, a shop keeps the units that it came with. */
  function open(shop, origin) {
    const chosen = core.chosen_units();
    if (chosen) changeUnits(shop, chosen);
    bench.open(shop, origin);
  }

  /** The units that this reader has or most likely wants. */
  const units = () => core.chosen_units() ?? core.usual_units(navigator.language);
  const firstShop = () => core.fresh(units());

  /** A shop that starts here, in those units. */
  function started(shop) {
    changeUnits(shop, units());
    return shop;
  }

  function chooseUnits(system) {
    try {
      core.choose_units(system);
    } catch {
      // Said already: nothing is being saved.
    }
    bench.reshape((shop) => changeUnits(shop, system));
  }

  /** Runs what may be refused; a refusal becomes a notice. Returns whether it went well. */
  function attempt(act) {
    withdraw("exported");
    try {
      act();
      withdraw("store");
      return true;
    } catch (fault) {
      notify("store", sentence(fault));
      return false;
    } finally {
      show();
    }
  }

  function writeNow() {
    const shop = bench.settled();
    address(shop);
    if (!kept()) return;
    const before = failing;
    try {
      core.keep(shop);
      failing = false;
      withdraw("saving");
    } catch (fault) {
      failing = true;
      notify("saving", `Changes are not being saved: ${said(fault)}`, [["Save to a file", exportShop]]);
    }
    if (failing !== before) show();
  }

  /** The address holds the shop as it is; where it came from and what was sent stay with this tab's history, over a reload too. */
  function address(shop) {
    const fragment = core.link_of(shop);
    const { kind, sent } = bench.origin;
    history.replaceState({ kind, sent }, "", `#${fragment}`);
    markChanged(differs(fragment));
    say(at("sheet-link"), location.href);
    at("link-text").value = location.href;
    drawCode();
  }

  /** Whether the shop of `fragment` is another than the one that was sent, told in the same units. */
  function differs(fragment) {
    const { sent } = bench.origin;
    if (!sent || sent === fragment) return false;
    return fragment !== core.link_of(asSent());
  }

  function asSent() {
    const shop = core.read_link(bench.origin.sent);
    changeUnits(shop, bench.shop.units);
    return shop;
  }

  function markChanged(is) {
    if (is === Boolean(bench.origin.changed)) return;
    bench.origin.changed = is;
    show();
  }

  /** Puts back what the link or the file held, and offers the changed shop again. */
  function backToSent() {
    const { origin } = bench;
    const shop = bench.settled();
    open(asSent(), origin);
    const undo = () => {
      open(shop, origin);
      tellArrival();
    };
    tellArrival([["Undo", undo]], origin.kind === "file" ? "as in the file" : "as it was sent");
  }

  /** Says what arrived and offers to keep it and, once it differs, to go back to what was sent. */
  function tellArrival(more = [], how = undefined) {
    address(bench.settled());
    const { changed, back } = bench.origin;
    const toSent = [BACK, backToSent, { "data-act": "sent", hidden: !changed }];
    notify("link", `“${bench.shop.name.trim() || "A shop"}” is ${how ?? from()}; it is not kept in this browser.`, [["Keep this shop", keep], toSent, ...more, ...back]);
  }

  const from = () => `${FROM[bench.origin.kind]}${bench.origin.changed ? ", with changes made here" : ""}`;

  function drawCode() {
    if (at("code").open) fillCode(camera, core.code(location.href));
  }

  /** What the share sheet is given; an address that leads nobody anywhere goes as the text that can be pasted. */
  function shared() {
    const { text: carried } = core.code(location.href);
    const title = `Bellows: ${bench.shop.name.trim() || "a shop"}`;
    const text = `${at("verdict").textContent}. ${at("sentence").textContent}`;
    return carried === location.href ? { title, text, url: carried } : { title, text: `${text}\n${carried}` };
  }

  async function shareShop() {
    address(bench.settled());
    if (!(await share(shared()))) copyLink();
  }

  function openKept(name) {
    writing.now();
    attempt(() => {
      open(core.kept(name), { kind: "stored", name });
      core.make_current(name);
    });
  }

  /** Keeps what is open under its name, or a free one like it. */
  function keep() {
    attempt(() => {
      const shop = bench.settled();
      shop.name = core.free_name(shop.name);
      core.keep(shop);
      core.make_current(shop.name);
      bench.shop.name = shop.name;
      bench.origin = { kind: "stored", name: shop.name };
      withdraw("link");
      writing.soon();
    });
  }

  function rename() {
    const field = at("shop-name");
    const name = field.value.trim();
    say(at("shop-name-fault"), "");
    if (name === bench.shop.name) return;
    try {
      if (kept()) {
        writing.now();
        core.rename(bench.origin.name, name);
        bench.origin.name = name;
      }
      bench.set("name", name);
    } catch (fault) {
      say(at("shop-name-fault"), said(fault));
    }
    show();
  }

  function remove(name) {
    attempt(() => {
      const text = core.remove(name);
      const here = kept() && bench.origin.name === name;
      if (here) bench.origin = { kind: "loose", name: "" };
      notify(`removed ${name}`, `${name} was deleted.`, [["Undo", () => attempt(() => {
        core.put_back(name, text);
        if (here && bench.origin.kind === "loose") bench.origin = { kind: "stored", name };
      })]]);
    });
  }

  function exportShop() {
    attempt(() => download(bench.shop.name, core.export_text(bench.settled())));
  }

  function exportAll() {
    attempt(() => {
      writing.now();
      const [text, count, unread] = core.export_all(kept() || (untouched() && core.stored().shops.some(({ damaged }) => !damaged)) ? null : bench.settled());
      download("Bellows shops", text);
      const rest = unread ? ` ${unread} that cannot be read ${unread === 1 ? "is" : "are"} not in it: save ${unread === 1 ? "its" : "their"} data from the list below.` : "";
      notify("exported", `${count === 1 ? "One shop is" : `${count} shops are`} in the file.${rest}`);
    });
  }

  async function importFile(event) {
    const [file] = event.target.files;
    if (!file) return;
    withdraw("exported");
    let found;
    try {
      core.check_size(file.size);
      const text = await file.text();
      found = core.import_text(text);
    } catch (fault) {
      notify("link", `${file.name} could not be opened, and nothing was changed: ${said(fault)}`);
      return;
    } finally {
      event.target.value = "";
    }
    if (found.length === 1) arrive(() => found[0], "file", file.name);
    else takeIn(found);
  }

  /** Several shops go to what is kept; where names clash the reader is asked first. */
  function takeIn(found) {
    writing.now();
    const clashing = core.clashes(found);
    if (clashing.length) askClashes(at("incoming"), found, clashing, (choices) => takeSo(found, choices));
    else takeSo(found, []);
  }

  function takeSo(found, choices) {
    writing.now();
    const fresh = untouched();
    const { sentence: happened, steps, refused } = core.take_in(found, choices);
    const undo = () => {
      notify("link", core.take_back(steps));
      reopen(steps);
    };
    const back = steps.length ? [["Undo", undo]] : [];
    const opens = refused.slice(0, 3).map((index) => [`Open “${found[index].name.trim()}”`, () => arrive(() => found[index], "file", "The file")]);
    notify("link", happened, [...back, ...opens]);
    if (fresh && steps.length) openKept(steps[0].name);
    else reopen(steps);
  }

  /** What is kept changed under the open shop: shows it as it is kept now. */
  function reopen(steps) {
    if (bench.trial) bench.undoTrial();
    if (kept() && steps.some(({ name }) => name === bench.origin.name)) follow();
    else show();
  }

  /** Opens a shop that came from outside: beside what is kept, which it leaves alone. `sent` is what it was before changes. */
  function arrive(readShop, kind, what, sent) {
    withdraw("exported");
    writing.now();
    let shop;
    try {
      shop = readShop();
    } catch (fault) {
      notify("link", `${what} could not be opened, and nothing was changed: ${said(fault)}`);
      writing.soon();
      return;
    }
    const before = { shop: bench.settled(), origin: bench.origin };
    const back = untouched() ? [] : [["Back to what was open", () => open(before.shop, before.origin)]];
    open(shop, { kind, name: "", back, sent: OWN.has(kind) ? undefined : (sent ?? core.link_of(shop)) });
    tellArrival();
  }

  /** Whether there is nothing to go back to: a first visit's shop, nothing typed yet. */
  function untouched() {
    return bench.origin.kind === "fresh" && core.link_of(bench.settled()) === core.link_of(firstShop());
  }

  function openAtFirst() {
    const { current } = core.stored();
    if (current) {
      try {
        open(core.kept(current), { kind: "stored", name: current });
        return;
      } catch (fault) {
        notify("store", sentence(fault));
      }
    }
    open(firstShop(), { kind: "fresh", name: "" });
  }

  /** The address holds the whole shop, so after a reload it is mostly the one that is kept, a fresh one or the example. */
  function arriveByAddress() {
    const fragment = location.hash.slice(1);
    const was = history.state;
    const reloaded = !bench.shop;
    if (reloaded) openAtFirst();
    if (!fragment || fragment === core.link_of(bench.settled())) return;
    const same = core.stored().shops.find(({ name, damaged }) => !damaged && core.link_of(core.kept(name)) === fragment);
    if (same) openKept(same.name);
    else if (fragment === core.link_of(firstShop())) open(firstShop(), { kind: "fresh", name: "" });
    else if (fragment === core.link_of(started(core.demo()))) open(started(core.demo()), { kind: "example", name: "" });
    else if (reloaded && OWN.has(was?.kind)) reopenOwn(fragment, was.kind);
    else arrive(() => core.read_link(fragment), !was ? "link" : was.sent ? was.kind : "loose", "This link", readable(was?.sent));
  }

  /** After a reload: a shop that began here and was not kept is just open again. */
  function reopenOwn(fragment, kind) {
    try {
      open(core.read_link(fragment), { kind, name: "" });
    } catch {
      arrive(() => core.read_link(fragment), "link", "This link");
    }
  }

  /** `link` if it can be read: another build may have written it. */
  function readable(link) {
    try {
      if (link) core.read_link(link);
      return link;
    } catch {
      return undefined;
    }
  }

  /** Another tab may have changed what is kept. */
  function follow() {
    if (kept() && !bench.trial) {
      try {
        const shop = core.kept(bench.origin.name);
        if (core.link_of(shop) !== core.link_of(bench.shop)) open(shop, bench.origin);
      } catch {
        bench.origin = { kind: "loose", name: "" };
        notify("store", "This shop is no longer kept under its name; it is still open here.", [["Keep this shop", keep]]);
      }
    }
    show();
  }

  async function copyLink() {
    const press = at("copy-link");
    address(bench.settled());
    const done = await copy(location.href);
    say(press, done ? "Link copied" : "Copy link");
    at("link-out").hidden = done;
    if (!done) at("link-text").select();
  }

  /** Shows what is kept and where the open shop stands. */
  function show() {
    const { working, message, shops: list } = core.stored();
    const name = bench.shop.name.trim() || "Unnamed shop";
    const state = !kept() ? `${from()}, not kept` : failing ? "kept as it was before; changes are not being saved" : "kept in this browser";
    const short = !kept() ? "not kept" : failing ? "changes not saved" : "kept";
    say(at("whose"), working ? `${name}, ${short}` : "Nothing is being saved");
    say(at("store-state"), working ? `${name} is ${state}.` : `Nothing is being saved: ${message}`);
    if (document.activeElement !== at("shop-name")) at("shop-name").value = bench.shop.name;
    at("keep").hidden = kept() || !working;
    for (const press of document.querySelectorAll("[data-act=sent]")) press.hidden = !bench.origin.changed;
    showKept(list, kept() ? bench.origin.name : undefined, acts);
  }

  const acts = {
    open: openKept,
    remove,
    duplicate: (name) => attempt(() => core.duplicate(name)),
    save: (name, key) => attempt(() => download(name, core.raw(key))),
  };
  at("keep").addEventListener("click", keep);
  at("back-to-sent").addEventListener("click", backToSent);
  at("shop-name").addEventListener("change", rename);
  at("copy-link").addEventListener("click", copyLink);
  at("share").hidden = !canShare({ title: "Bellows", text: "Bellows" });
  at("share").addEventListener("click", shareShop);
  at("link-in").addEventListener("change", ({ target }) => {
    const { value } = target;
    target.value = "";
    if (!value.trim()) return;
    arrive(() => core.read_link(value), "link", "This link");
    scrollTo(0, 0);
  });
  at("code").append(camera);
  at("code").addEventListener("toggle", () => address(bench.settled()));
  at("export").addEventListener("click", exportShop);
  at("export-all").addEventListener("click", exportAll);
  at("import").addEventListener("click", () => at("import-file").click());
  at("import-file").addEventListener("change", importFile);
  at("new-shop").addEventListener("click", () => {
    writing.now();
    open(started(core.demo()), { kind: "example", name: "" });
    scrollTo(0, 0);
  });
  at("print").addEventListener("click", () => print());
  addEventListener("storage", follow);
  addEventListener("hashchange", arriveByAddress);
  addEventListener("pagehide", writing.now);
  document.addEventListener("visibilitychange", () => document.hidden && writing.now());

  return { address: () => address(bench.settled()), arriveByAddress, chooseUnits, show, saveSoon: writing.soon };
}
