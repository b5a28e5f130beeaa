// The past and the future of a drawing, for undo and redo. They outlive a reload of the tab, in the tab's own storage.

const most = 200;

export class Past {
  #past = [];
  #future = [];
  #key;
  #pause = 0;

  // name tells this draft from every other, also from one that had its number before; current() gives the sketch that stands now.
  constructor(name, current) {
    this.#key = `draft-${name}`;
    this.current = current;
    addEventListener("pagehide", () => this.#store());
  }

  get canUndo() { return this.#past.length > 0; }
  get canRedo() { return this.#future.length > 0; }

  // What this tab knew of the draft; its steps only where they lead to the sketch that is kept now. The sketch itself is
  // given back where it is a step further than what is kept and nobody kept anything since: its last send was lost.
  restore(version) {
    const stored = this.#read();
    if (!stored) return null;
    const same = JSON.stringify(stored.sketch) === JSON.stringify(this.current());
    if (!same && stored.version !== version) return null;
    this.#past = stored.past;
    this.#future = stored.future;
    return same ? null : stored.sketch;
  }

  // Typing into one field counts as one step.
  add(sketch, field) {
    if (!field || this.#past.at(-1)?.field !== field) this.#past.push({ sketch, field });
    this.#past.splice(0, this.#past.length - most);
    this.#future = [];
  }

  undo() { return this.#go(this.#past, this.#future); }
  redo() { return this.#go(this.#future, this.#past); }

  // Called for every change; version is what the program has.
  note(version) {
    this.version = version;
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => this.#store(), 300);
  }

  #go(from, to) {
    const step = from.pop();
    if (!step) return null;
    to.push({ sketch: this.current(), field: null });
    return step.sketch;
  }

  #read() {
    try {
      const stored = JSON.parse(sessionStorage.getItem(this.#key));
      return Array.isArray(stored?.past) && Array.isArray(stored.future) && stored.sketch ? stored : null;
    } catch {
      return null;
    }
  }

  // A tab without storage, or with a full one, loses its undo at a reload and nothing else: fewer steps are tried before that.
  #store() {
    if (this.version === undefined) return;
    for (const steps of [most, 20, 0]) {
      try {
        sessionStorage.setItem(this.#key, JSON.stringify({
          version: this.version(), sketch: this.current(), past: steps ? this.#past.slice(-steps) : [], future: steps ? this.#future.slice(-steps) : [],
        }));
        return;
      } catch { /* Too much for the storage. */ }
    }
  }
}
