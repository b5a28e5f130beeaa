// Reports of short and spoiled pieces on a bag's page: kept on this device until the guild has them, like marks.
import { newId } from "./marks.js";
import { say } from "./words.js";

export class Reports {
  /** on: { carry(report), cannot(why) }; who: the helper's name. */
  constructor(queue, who, isUp, on) {
    Object.assign(this, { queue, who, isUp, on, form: document.getElementById("short"), list: document.getElementById("reports") });
    this.form?.addEventListener("submit", event => this.submit(event));
    this.show();
  }

  submit(event) {
    const report = this.read();
    // The guild's own words about what is wrong are better; without a line to it these must do.
    if (!report && this.isUp()) return;
    event.preventDefault();
    if (!report) {
      this.on.cannot(say("Choose the piece, and type how many of it as a whole number, no more than the kit has."));
      return;
    }
    this.form.reset();
    const details = this.form.closest("details");
    details.open = false;
    details.querySelector("summary").focus();
    this.on.carry(report);
  }

  /** The report as typed, or nothing where the guild would refuse it. */
  read() {
    const field = name => this.form.elements.namedItem(`Form.${name}`), piece = field("Line").selectedOptions[0], typed = field("Count").value.trim(), count = Number(typed);
    if (!piece?.value || !/^[0-9]+$/.test(typed) || count < 1 || count > Number(piece.dataset.most)) return null;
    return {
      id: newId(), kit: Number(this.form.dataset.kit), line: piece.value, who: this.who,
      report: { count, reason: field("Reason").value, note: field("Note").value.trim() },
    };
  }

  /** In words: 2 of A 4½″ square spoiled. */
  words(mark) {
    const piece = [...(this.form?.elements.namedItem("Form.Line").options ?? [])].find(option => option.value === mark.line);
    const what = piece?.textContent.replace(/ \([^)]*\)$/, "") ?? say("a piece"), count = mark.report.count;
    return mark.report.reason === "spoiled" ? say("{0} of {1} spoiled", count, what) : say("{0} of {1} missing", count, what);
  }

  /** Lists the reports of this bag that the guild does not have yet. */
  show() {
    if (!this.form) return;
    document.getElementById("waiting-reports")?.remove();
    const waiting = this.queue.waiting.map(item => item.mark), withdrawn = new Set(waiting.map(mark => mark.withdraws).filter(Boolean));
    const own = waiting.filter(mark => mark.report && String(mark.kit) === this.form.dataset.kit && !withdrawn.has(mark.id));
    if (own.length === 0) return;
    const box = Object.assign(document.createElement("div"), { id: "waiting-reports" });
    for (const mark of own) {
      const text = document.createElement("p");
      text.append(Object.assign(document.createElement("b"), { textContent: this.words(mark) }), `${mark.report.note ? `: ${mark.report.note}` : ""}. ${say("Waits on this device.")}`);
      const card = Object.assign(document.createElement("div"), { className: "warn pending" });
      card.append(text);
      box.append(card);
    }
    this.list.after(box);
  }
}
