// Marks made on this device: kept here until the guild has them, sent in order, and counted once by their ids.
import { say } from "./words.js";

const batchSize = 200;
const pauses = [1000, 2000, 4000, 8000];

export function newId() {
  if (crypto.randomUUID) return crypto.randomUUID();
  // Over plain Wi-Fi addresses browsers keep randomUUID away, but not the random numbers.
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map(byte => byte.toString(16).padStart(2, "0")).join("");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

/** Marks waiting to be sent, oldest first; they survive a reload. */
export class Queue {
  constructor(classId) {
    this.prefix = `kitting-bee mark ${classId} `;
    this.count = 0;
    this.waiting = [];
    try {
      const keys = Object.keys(localStorage).filter(key => key.startsWith(this.prefix)).sort();
      this.waiting = keys.map(key => ({ key, mark: JSON.parse(localStorage.getItem(key)) }));
    } catch { /* No storage in this browser: marks are kept while the page is open. */ }
  }

  add(mark) {
    // A key of its own for each mark: two open pages never overwrite each other.
    const key = `${this.prefix}${String(Date.now()).padStart(15, "0")} ${String(this.count++).padStart(6, "0")} ${mark.id}`;
    try { localStorage.setItem(key, JSON.stringify(mark)); } catch { /* as above */ }
    this.waiting.push({ key, mark });
  }

  remove(ids) {
    for (const item of this.waiting.filter(item => ids.has(item.mark.id))) {
      try { localStorage.removeItem(item.key); } catch { /* as above */ }
    }
    this.waiting = this.waiting.filter(item => !ids.has(item.mark.id));
  }
}

/** Not a mark but a word about a piece that a bag lacks; it waits in the same queue, so that all arrives in the order in which it was made. */
export const isReport = mark => Boolean(mark.report || mark.withdraws);

/** Sends the queue whenever there is something to send, one call at a time. */
export class Sender {
  /** on: { answered(answer, marks), reported(answer, report), refused(why, marks), connection(isUp), reload() } */
  constructor(queue, address, token, on) {
    Object.assign(this, { queue, address, token, on, busy: false, tries: 0, most: batchSize });
  }

  async send() {
    if (this.busy || this.queue.waiting.length === 0) return;
    this.busy = true;
    clearTimeout(this.timer);
    try {
      while (this.queue.waiting.length > 0 && await this.sendSome()) this.tries = 0;
    } catch {
      this.on.connection(false);
      this.timer = setTimeout(() => this.send(), pauses[Math.min(this.tries++, pauses.length - 1)]);
    } finally {
      this.busy = false;
    }
  }

  /** The oldest that wait: a report on its own, or the marks before the next report. */
  next() {
    const waiting = this.queue.waiting.slice(0, this.most).map(item => item.mark), report = waiting.findIndex(isReport);
    return report < 0 ? waiting : waiting.slice(0, Math.max(1, report));
  }

  async sendSome() {
    const marks = this.next(), report = isReport(marks[0]) ? marks[0] : undefined;
    const response = await fetch(`${this.address}/${report ? "shortages" : "marks"}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", RequestVerificationToken: this.token },
      body: JSON.stringify(report ? callOf(report) : { marks }),
      signal: AbortSignal.timeout(20000),
    });
    if (response.ok) {
      const answer = await response.json();
      this.queue.remove(new Set(marks.map(mark => mark.id)));
      this.most = batchSize;
      this.on.connection(true);
      if (report) this.on.reported(answer, report);
      else this.on.answered(answer, marks);
      return true;
    }
    if (response.status === 400 && marks.length > 1) {
      this.most = 1; // One of them is wrong: find it without holding up the others.
      return true;
    }
    if (response.status === 400) {
      this.queue.remove(new Set(marks.map(mark => mark.id)));
      this.most = batchSize;
      this.on.refused(report ? say("A report could not be read and was left out: make it again.") : say("A mark could not be read and was left out."), marks);
      return true;
    }
    if (response.status === 403 || response.status === 401 || response.status === 404) {
      this.on.reload();
      return false;
    }
    throw new Error(String(response.status));
  }
}

function callOf({ id, kit, line, who, report, withdraws }) {
  return withdraws ? { id, withdraws } : { id, kit, line, who, ...report };
}
