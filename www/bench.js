// The shop on the bench: the one that is being edited. Fields are text as typed, reached by paths such as
// `candidates.0.flow`. Emits "edit" when a value changed, "shape" when a list did, "open" when the whole shop did.

/** The value at `path`, or undefined. */
export function read(shop, path) {
  return path.split(".").reduce((part, key) => part?.[key], shop);
}

/** Sets the value at `path` and returns what stood there; a path that leads nowhere changes nothing. */
export function write(shop, path, value) {
  const keys = path.split(".");
  const last = keys.pop();
  const part = keys.reduce((inner, key) => inner?.[key], shop);
  if (part === undefined || !(last in part)) return undefined;
  const before = part[last];
  part[last] = typeof before === "boolean" ? value === true || value === "true" : typeof before === "number" ? Number(value) : value;
  return before;
}

export class Bench extends EventTarget {
  shop = null;
  view = { place: 0, task: null };
  /** Where the shop came from: "stored", "link", "file", "example", "fresh" or "loose"; `name` is the key of a stored one, `sent` the link that holds one as it arrived. */
  origin = { kind: "fresh", name: "" };
  /** What is being tried on: what it is, and what stood in each field before. */
  trial = null;

  open(shop, origin) {
    Object.assign(this, { shop, origin, trial: null, view: { place: 0, task: null } });
    this.#tell("open");
  }

  get candidate() {
    return this.shop.candidates[this.shop.chosen];
  }

  set(path, value) {
    write(this.shop, path, value);
    this.#tell("edit");
  }

  /** Changes lists by `change(shop)`. Indices move, so what is being tried on is put back first. */
  reshape(change) {
    this.#putBack();
    change(this.shop);
    this.view = { place: 0, task: null };
    this.#tell("shape");
  }

  look(view) {
    this.view = view;
    this.#tell("edit");
  }

  tryOn({ label, changes }, verdict) {
    this.trial ??= { labels: [], before: new Map(), verdict };
    this.trial.labels.push(label);
    for (const { field, text } of changes) {
      const before = write(this.shop, field, text);
      if (before !== undefined && !this.trial.before.has(field)) this.trial.before.set(field, before);
    }
    this.#tell("open");
  }

  keepTrial() {
    this.trial = null;
    this.#tell("open");
  }

  undoTrial() {
    this.#putBack();
    this.#tell("open");
  }

  /** The shop without what is only being tried on: this is what is kept and linked. */
  settled() {
    const shop = structuredClone(this.shop);
    this.trial?.before.forEach((value, path) => write(shop, path, value));
    return shop;
  }

  #putBack() {
    this.trial?.before.forEach((value, path) => write(this.shop, path, value));
    this.trial = null;
  }

  #tell(what) {
    this.dispatchEvent(new Event(what));
  }
}
