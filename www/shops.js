// Shop profiles: what is kept, what is only open, files and links. Storage may refuse; the page goes on and says so.

import * as core from "./core.js";
import { later, say } from "./dom.js";
import { showKept } from "./kept.js";
import { notify, withdraw } from "./notice.js";
import { copy, download } from "./share.js";

const at = (id) => document.getElementById(id);
const FROM = { fresh: "new", link: "from a link", file: "from a file", example: "the example", loose: "open here only" };
const PAUSE = 400; // ms without a keystroke before the profile and the address are written

/** What a thrown value says. */
export const said = (fault) => fault?.message ?? String(fault);
const sentence = (fault) => said(fault).replace(/^./u, (first) => first.toUpperCase());

/** Profiles around `bench`. */
export function shops(bench) {
  const kept = () => bench.origin.kind === "stored";
  const writing = later(writeNow, PAUSE);
  let failing = false;

  /** Runs what may be refused; a refusal becomes a notice. Returns whether it went well. */
  function attempt(act) {
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

  function address(shop) {
    const fragment = core.link_of(shop);
    history.replaceState(null, "", `#${fragment}`);
    say(at("sheet-link"), location.href);
    at("link-text").value = location.href;
  }

  function open(name) {
    writing.now();
    attempt(() => {
      bench.open(core.kept(name), { kind: "stored", name });
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

  async function importFile(event) {
    const [file] = event.target.files;
    if (!file) return;
    const text = await file.text();
    event.target.value = "";
    arrive(() => core.import_text(text), "file", file.name);
  }

  /** Opens a shop that came from outside: beside what is kept, which it leaves alone. */
  function arrive(readShop, kind, what) {
    writing.now();
    let shop;
    try {
      shop = readShop();
    } catch (fault) {
      notify("link", `${what} could not be opened, and nothing was changed: ${said(fault)}`);
      writing.soon();
      return;
    }
    const before = bench.shop && { shop: bench.settled(), origin: bench.origin };
    bench.open(shop, { kind, name: "" });
    const back = before ? [["Back to what was open", () => bench.open(before.shop, before.origin)]] : [];
    notify("link", `“${shop.name.trim() || "A shop"}” is ${FROM[kind]}; it is not kept in this browser.`, [["Keep this shop", keep], ...back]);
  }

  function openAtFirst() {
    const { current } = core.stored();
    if (current) {
      try {
        bench.open(core.kept(current), { kind: "stored", name: current });
        return;
      } catch (fault) {
        notify("store", sentence(fault));
      }
    }
    bench.open(core.fresh(), { kind: "fresh", name: "" });
  }

  /** The address holds the whole shop, so after a reload it is mostly the one that is kept, a fresh one or the example. */
  function arriveByAddress() {
    const fragment = location.hash.slice(1);
    if (!bench.shop) openAtFirst();
    if (!fragment || fragment === core.link_of(bench.settled())) return;
    const same = core.stored().shops.find(({ name, damaged }) => !damaged && core.link_of(core.kept(name)) === fragment);
    if (same) open(same.name);
    else if (fragment === core.link_of(core.fresh())) bench.open(core.fresh(), { kind: "fresh", name: "" });
    else if (fragment === core.link_of(core.demo())) bench.open(core.demo(), { kind: "example", name: "" });
    else arrive(() => core.read_link(fragment), "link", "This link");
  }

  /** Another tab may have changed what is kept. */
  function follow() {
    if (kept() && !bench.trial) {
      try {
        const shop = core.kept(bench.origin.name);
        if (core.link_of(shop) !== core.link_of(bench.shop)) bench.open(shop, bench.origin);
      } catch {
        bench.origin = { kind: "loose", name: "" };
        notify("store", "This shop was deleted or renamed in another tab; it is still open here.", [["Keep this shop", keep]]);
      }
    }
    show();
  }

  async function copyLink(event) {
    const press = event.currentTarget;
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
    const state = !kept() ? `${FROM[bench.origin.kind]}, not kept` : failing ? "kept as it was before; changes are not being saved" : "kept in this browser";
    const short = !kept() ? "not kept" : failing ? "changes not saved" : "kept";
    say(at("whose"), working ? `${name}, ${short}` : "Nothing is being saved");
    say(at("store-state"), working ? `${name} is ${state}.` : `Nothing is being saved: ${message}`);
    if (document.activeElement !== at("shop-name")) at("shop-name").value = bench.shop.name;
    at("keep").hidden = kept() || !working;
    showKept(list, kept() ? bench.origin.name : undefined, acts);
  }

  const acts = {
    open,
    remove,
    duplicate: (name) => attempt(() => core.duplicate(name)),
    save: (name, key) => attempt(() => download(name, core.raw(key))),
  };
  at("keep").addEventListener("click", keep);
  at("shop-name").addEventListener("change", rename);
  at("copy-link").addEventListener("click", copyLink);
  at("export").addEventListener("click", exportShop);
  at("import").addEventListener("click", () => at("import-file").click());
  at("import-file").addEventListener("change", importFile);
  at("new-shop").addEventListener("click", () => {
    writing.now();
    bench.open(core.demo(), { kind: "example", name: "" });
  });
  at("print").addEventListener("click", () => print());
  addEventListener("storage", follow);
  addEventListener("hashchange", arriveByAddress);
  addEventListener("pagehide", writing.now);
  document.addEventListener("visibilitychange", () => document.hidden && writing.now());

  return { arriveByAddress, show, saveSoon: writing.soon };
}
