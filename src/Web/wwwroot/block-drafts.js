// Keeps the draft on the server a moment after each change, and tells when somebody else kept another one.
import { say } from "./words.js";

const pause = 400;
const retry = 3000;

// A page loaded again goes on under the name of the one before it, whose last send may still be on its way. The name stands
// in the tab's storage only between the two, so that a tab that was doubled does not get it.
function takeName(id) {
  const key = `editor-${id}`;
  try {
    const left = JSON.parse(sessionStorage.getItem(key));
    sessionStorage.removeItem(key);
    if (left) return left;
  } catch { /* No storage: a new name does. */ }
  return { editor: Array.from(crypto.getRandomValues(new Uint32Array(4)), part => part.toString(36)).join("-"), sequence: 0 };
}

function leaveName(id, editor, sequence) {
  try { sessionStorage.setItem(`editor-${id}`, JSON.stringify({ editor, sequence })); } catch { /* As above. */ }
}

export class DraftKeeper {
  #timer = 0;
  #sending = null;
  #kept;
  #sent = null;
  #stopped = false;
  #editor;
  #sequence;

  // says(text, state) shows a line; conflict(answer) is called when another version is there.
  constructor({ id, version, token, current, says, conflict }) {
    Object.assign(this, { id, version, token, current, says, conflict });
    this.#kept = JSON.stringify(current());
    ({ editor: this.#editor, sequence: this.#sequence } = takeName(id));
    addEventListener("pagehide", () => { this.#leave(); leaveName(id, this.#editor, this.#sequence); });
    addEventListener("pageshow", event => { if (event.persisted) takeName(id); });
    addEventListener("focus", () => this.#look());
    document.addEventListener("visibilitychange", () => { if (document.visibilityState === "hidden") this.#leave(); });
  }

  // Back at this page after a while: somebody else may have gone on.
  async #look() {
    if (this.#stopped || this.#sending) return;
    const before = this.version;
    const answer = await fetch(`/blocks/drafts/${this.id}/version`).then(found => found.ok ? found.json() : null, () => null);
    if (!answer || this.#stopped || this.#sending || before !== this.version || answer.version === before) return;
    if (answer.editor === this.#editor) {
      this.version = answer.version;
    } else {
      this.#stopped = true;
      this.says(say("Not kept: somebody else is drawing too."));
      this.conflict(answer);
    }
  }

  changed() {
    if (this.#stopped) return;
    this.says(say("Keeping the draft…"));
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.flush(), pause);
  }

  // Sends what is not kept yet; resolves when it is, or when it cannot be.
  async flush() {
    clearTimeout(this.#timer);
    while (this.#sending) await this.#sending;
    const text = JSON.stringify(this.current());
    if (this.#stopped || text === this.#kept) return;
    this.#sent = text;
    this.#sending = this.#send(text);
    await this.#sending;
    this.#sending = this.#sent = null;
  }

  // Goes on from another version: with ours, or not at all.
  resume(version) {
    this.version = version;
    this.#stopped = false;
    this.#kept = null; // Theirs is there now, so ours has to be sent even where nothing of it is new.
    return this.flush();
  }

  // Numbered, so that the program knows of two sends which came later, in whatever order they arrive.
  // Outlives the page where it is small enough for that (64 KiB is the browsers' limit).
  #request(text) {
    const version = this.version;
    return fetch(`/blocks/drafts/${this.id}/sketch`, {
      method: "PUT", keepalive: text.length < 20000,
      headers: { "Content-Type": "application/json", "RequestVerificationToken": this.token },
      body: `{"version":${version},"editor":"${this.#editor}","sequence":${++this.#sequence},"sketch":${text}}`,
    });
  }

  async #send(text) {
    try {
      const answer = await this.#request(text);
      if (answer.status === 409) {
        this.#stopped = true;
        this.says(say("Not kept: somebody else is drawing too."));
        this.conflict(await answer.json());
      } else if (answer.ok) {
        this.version = Math.max(this.version, (await answer.json()).version);
        this.#kept = text;
        this.says(say("Draft kept."));
      } else {
        this.#stopped = true;
        this.says(answer.status === 404 ? say("Not kept: this draft was saved or thrown away elsewhere.") : say("Not kept: load the page again."));
      }
    } catch {
      this.says(say("Not kept yet: the program does not answer. Trying again…"));
      this.#timer = setTimeout(() => this.flush(), retry);
    }
  }

  // The page goes away: one last send, also beside one that is on its way.
  #leave() {
    clearTimeout(this.#timer);
    const text = JSON.stringify(this.current());
    if (this.#stopped || text === this.#kept || text === this.#sent) return;
    if (this.#sending) return void this.#request(text).catch(() => {});
    this.flush();
  }
}
