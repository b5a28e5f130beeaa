// How every line of every kit stands on this page: what the guild has, and over it the marks still on their way.
import { clock, say } from "./words.js";

const ranks = { "": 0, cut: 1, bagged: 2, checked: 1, "handed-over": 2 };
const wholeKit = "kit";

/** States in words; a line without one is to cut. */
export const states = { "": say("to cut"), cut: say("cut"), bagged: say("bagged"), checked: say("checked"), "handed-over": say("handed over") };

export const rank = state => ranks[state] ?? 0;

class Line {
  constructor(key) { Object.assign(this, { key, state: "", mark: 0, version: 0, pending: [], buttons: [] }); }

  /** The state with this device's own marks on top. */
  shown() {
    let state = this.state;
    for (const mark of this.pending) {
      if (mark.undoes || mark.undoesSequence) state = "";
      else if (rank(mark.state) > rank(state)) state = mark.state;
    }
    return state;
  }

  /** Which mark to undo: one still on its way, or the one that the guild has. */
  takeBack(state) {
    const own = this.pending.findLast(mark => mark.state === state);
    return own ? { undoes: own.id } : { undoesSequence: this.mark };
  }

  paint(gives) {
    const state = this.shown();
    for (const button of this.buttons) {
      button.className = `tick ${this.key === wholeKit ? "whole " : ""}${state}${this.pending.length > 0 ? " pending" : ""}`;
      button.setAttribute("aria-pressed", String(state === (button.dataset.gives ?? gives)));
      const small = button.querySelector("small");
      if (small) small.textContent = states[state];
    }
  }
}

export class Kits {
  constructor(form) {
    this.form = form;
    this.stages = form.dataset.stages.split("|");
    this.kits = new Map();
    this.byMark = new Map();
    for (const element of form.querySelectorAll("[data-kit]")) {
      const kit = { id: Number(element.dataset.kit), count: Number(element.dataset.lines), way: element.dataset.way ?? "", lines: new Map(), stageAt: element.querySelector("[data-stage]") ?? document.querySelector("[data-stage]") };
      for (const button of element.querySelectorAll("button[data-line]")) {
        const line = this.line(kit, button.dataset.line);
        line.buttons.push(button);
        const [what, , mark] = button.value.split(" ");
        line.state = button.classList.contains("handed-over") ? "handed-over" : ["cut", "bagged", "checked"].find(state => button.classList.contains(state)) ?? "";
        if (what === "undo") line.mark = Number(mark);
      }
      kit.stage = Number(kit.stageAt.dataset.stage);
      this.kits.set(String(kit.id), kit);
    }
    this.deals = [...form.querySelectorAll("button[data-deal]")];
  }

  all() { return [...this.kits.values()]; }

  get(id) { return this.kits.get(String(id)); }

  line(kit, key) {
    if (!kit.lines.has(key)) kit.lines.set(key, new Line(key));
    return kit.lines.get(key);
  }

  /** Lines of a kit that are not yet so far. */
  toMark(kit, gives, chosen) {
    return [...kit.lines.values()]
      .filter(line => line.key !== wholeKit && chosen(line.key) && rank(line.shown()) < rank(gives))
      .map(line => ({ kit: kit.id, line: line.key, state: gives }));
  }

  /** A mark of this device, shown before the guild has it. */
  pend(mark) {
    const kit = this.get(mark.kit);
    if (!kit) return;
    const line = this.line(kit, mark.line);
    line.pending.push(mark);
    this.byMark.set(mark.id, [kit, line]);
    this.paint(kit, line);
  }

  /** Marks that the guild has, or will not have. */
  forget(ids) {
    for (const id of ids) {
      const [kit, line] = this.byMark.get(id) ?? [];
      if (!line) continue;
      this.byMark.delete(id);
      line.pending = line.pending.filter(mark => mark.id !== id);
      this.paint(kit, line);
    }
  }

  /** What the guild says. An older word about a line than the last one heard is let go. */
  apply(table) {
    for (const change of table.lines) {
      const kit = this.get(change.kit);
      if (!kit) continue;
      const line = this.line(kit, change.line);
      if (table.sequence < line.version) continue;
      Object.assign(line, { state: change.state, mark: change.mark, version: table.sequence });
      for (const button of line.buttons) button.title = change.who ? `${change.who}, ${clock(change.at)}` : "";
      this.paint(kit, line);
    }
  }

  paint(kit, line) {
    line.paint(this.form.dataset.gives);
    const whole = kit.lines.get(wholeKit)?.shown() ?? "", lines = [...kit.lines.values()].filter(other => other.key !== wholeKit);
    const bagged = lines.filter(other => other.shown() === "bagged").length, cut = lines.filter(other => other.shown() !== "").length;
    kit.stage = whole === "handed-over" ? 4 : whole === "checked" ? 3 : bagged >= kit.count ? 2 : cut >= kit.count ? 1 : 0;
    if (kit.stageAt.textContent !== this.stages[kit.stage]) kit.stageAt.textContent = this.stages[kit.stage];
    // Counts are for the eye: once a frame is enough, however many marks come in.
    this.frame ??= requestAnimationFrame(() => { this.frame = undefined; this.paintCounts(); });
  }

  paintCounts() {
    const kits = this.all();
    for (const element of document.querySelectorAll("[data-progress]")) {
      const stage = Number(element.dataset.progress), done = kits.filter(kit => kit.stage >= stage).length;
      element.querySelector("b").textContent = done;
      const stitches = [...element.querySelectorAll("line")], filled = Math.floor(done * stitches.length / kits.length);
      stitches.forEach((stitch, at) => stitch.setAttribute("class", at < filled ? "sewn" : "open"));
      element.querySelector("svg").setAttribute("aria-label", say("{0} of {1} kits {2}", done, kits.length, this.stages[stage]));
    }
    for (const button of this.deals) {
      const pairs = new Set(button.dataset.deal.split(" "));
      let done = 0;
      for (const kit of kits) {
        for (const line of kit.lines.values()) {
          if (pairs.has(`${kit.way}:${line.key.slice(0, line.key.lastIndexOf("-"))}`) && rank(line.shown()) >= rank(this.form.dataset.gives)) done++;
        }
      }
      button.closest("li").querySelector("[data-dealt]").textContent = done;
    }
  }
}
