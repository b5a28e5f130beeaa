// The packing table and a bag's page, live. Without this script the same buttons are plain forms.
import { Queue, Sender, isReport, newId } from "./marks.js";
import { Kits, rank } from "./kits.js";
import { Reports } from "./reports.js";

const form = document.getElementById("table");
if (form) start();

function start() {
  const classId = form.dataset.packing;
  const address = `/api/classes/${classId}`;
  const kits = new Kits(form);
  const queue = new Queue(classId);
  const live = document.querySelector("[data-live]");
  let over = false, up = navigator.onLine, sequence = Number(form.dataset.sequence), heard = Date.now(), source;

  const reports = new Reports(queue, form.dataset.who, () => up, {
    carry(report) {
      queue.add(report);
      reports.show();
      tell();
      sender.send();
      say(`${reports.words(report)}: noted for the re-cut ticket.`, () => {
        queue.add({ id: newId(), kit: report.kit, withdraws: report.id });
        reports.show();
        tell();
        sender.send();
        say("The report is taken back.");
      });
    },
    cannot(why) { say(why); },
  });
  const sender = new Sender(queue, address, form.elements.namedItem("__RequestVerificationToken").value, {
    answered(answer, marks) {
      kits.forget(marks.map(mark => mark.id));
      kits.apply(answer.table);
      if (answer.refused.length > 0) say(answer.refused[0].why);
      tell();
    },
    async reported(answer, report) {
      if (answer.outcome === "refused") say(`Not noted: ${reports.words(report)}. ${answer.why}`);
      tell();
      await readShortages();
      reports.show();
    },
    refused(why, marks) { kits.forget(marks.map(mark => mark.id)); reports.show(); say(why); tell(); },
    connection(isUp) { up = isUp; tell(); },
    reload() { stale(); },
  });

  // On a phone the bags come first; on a laptop there is room for both.
  const deal = form.querySelector(".deal");
  if (deal && matchMedia("(max-width: 760px)").matches) deal.open = false;
  for (const { mark } of queue.waiting) if (!isReport(mark)) kits.pend(mark);
  form.addEventListener("click", event => {
    const button = event.target.closest("button[name=mark]");
    if (!button || button.disabled) return;
    event.preventDefault();
    const made = marksOf(button);
    if (made.length === 0) say(button.dataset.line ? "That is further along already." : "All of that is marked already.");
    else carry(made, words(button, made));
  });
  const trail = document.getElementById("trail")?.closest("details");
  trail?.addEventListener("toggle", async () => { const page = trail.open ? await freshPage() : null; if (page) replace("trail", page); });
  addEventListener("online", () => { listen(); sender.send(); });
  // What the old stream still delivers was under way before, and says nothing of the line now; the machine that runs the program keeps its own.
  addEventListener("offline", () => { up = false; tell(); listen(); });
  setInterval(() => { if (!over && Date.now() - heard > 25000) { up = false; tell(); listen(); } }, 5000);
  if (form.dataset.whole) fetch(`${address}/marks?after=0`).then(answer => answer.ok ? answer.json() : null).then(table => table && kits.apply(table)).catch(() => { });
  listen();
  tell();
  sender.send();

  function marksOf(button) {
    const who = form.dataset.who, bag = button.closest(".bag");
    if (button.dataset.deal !== undefined) {
      const letters = new Map();
      for (const pair of button.dataset.deal.split(" ")) {
        const [way, letter] = [pair.slice(0, pair.indexOf(":")), pair.slice(pair.indexOf(":") + 1)];
        letters.set(way, [...(letters.get(way) ?? []), `${letter}-`]);
      }
      return kits.all().flatMap(kit => kits.toMark(kit, form.dataset.gives, line => (letters.get(kit.way) ?? []).some(letter => line.startsWith(letter)))).map(mark => ({ id: newId(), ...mark, who }));
    }
    const kit = kits.get(bag.dataset.kit);
    if (button.dataset.all !== undefined) return kits.toMark(kit, form.dataset.gives, () => true).map(mark => ({ id: newId(), ...mark, who }));
    const gives = button.dataset.gives ?? form.dataset.gives, line = kit.lines.get(button.dataset.line), shown = line.shown();
    if (shown === gives) return [{ id: newId(), kit: kit.id, line: line.key, who, ...line.takeBack(gives) }];
    return rank(shown) >= rank(gives) ? [] : [{ id: newId(), kit: kit.id, line: line.key, state: gives, who }];
  }

  function carry(made, text) {
    for (const mark of made) { queue.add(mark); kits.pend(mark); }
    tell();
    sender.send();
    say(text, () => carry(made.map(mark => ({ id: newId(), kit: mark.kit, line: mark.line, who: form.dataset.who, undoes: mark.id })), "Taken back."));
  }

  function words(button, made) {
    const state = (made[0].state ?? "").replace("-", " ");
    if (button.dataset.deal !== undefined) return `${button.closest("li").querySelector("b").textContent} ${state} for ${new Set(made.map(mark => mark.kit)).size} bags.`;
    const who = button.closest(".bag").querySelector(".who");
    const name = who ? `${who.querySelector("b").textContent}, ${who.querySelector("span").firstChild.textContent.trim()}` : "";
    const line = (button.firstChild.textContent + (button.childNodes[1]?.nodeType === 3 ? button.childNodes[1].textContent : "")).trim();
    return made[0].state ? `${name}${name ? ": " : ""}${made.length > 1 ? `${made.length} lines` : line} ${state}.` : `${name}${name ? ": " : ""}taken back.`;
  }

  function listen() {
    if (over) return;
    source?.close();
    heard = Date.now();
    source = new EventSource(`${address}/table?after=${sequence}`);
    const alive = () => { heard = Date.now(); if (!up) { up = true; tell(); sender.send(); } };
    source.addEventListener("open", () => { up = true; heard = Date.now(); tell(); sender.send(); });
    source.addEventListener("beat", alive);
    source.addEventListener("table", event => {
      alive();
      const table = JSON.parse(event.data);
      sequence = Math.max(sequence, table.sequence);
      kits.apply(table);
    });
    source.addEventListener("here", event => {
      alive();
      const names = JSON.parse(event.data), here = document.querySelector("[data-here]");
      if (here) here.textContent = names.length > 0 ? `Here now: ${names.join(", ")}` : "";
    });
    source.addEventListener("shortages", () => { alive(); clearTimeout(kits.timer); kits.timer = setTimeout(readShortages, 300); });
    source.addEventListener("restored", () => location.reload());
    source.addEventListener("error", () => {
      up = false;
      tell();
      if (source.readyState === EventSource.CLOSED) setTimeout(comeBack, 2000);
    });
  }

  // The stream only says that it broke; a call says whether this device may still come in.
  async function comeBack() {
    const answer = await fetch(`${address}/marks?after=${sequence}`).catch(() => null);
    if (answer?.status === 401 || answer?.status === 403) signedOut();
    else listen();
  }

  function signedOut() {
    over = true;
    source?.close();
    live.classList.add("off");
    live.textContent = `This device is signed out${queue.waiting.length > 0 ? `; ${waiting()} on it` : ""}. `;
    live.append(Object.assign(document.createElement("a"), { href: `/sign-in?next=${encodeURIComponent(location.pathname + location.search)}`, textContent: "Come in again." }));
  }

  async function freshPage() {
    const answer = await fetch(location.href).catch(() => null);
    return answer?.ok ? new DOMParser().parseFromString(await answer.text(), "text/html") : null;
  }

  function replace(id, page) {
    const old = document.getElementById(id), fresh = page.getElementById(id);
    if (old && fresh && !old.contains(document.activeElement)) old.replaceChildren(...[...fresh.childNodes].map(node => document.adoptNode(node)));
  }

  async function readShortages() {
    const page = await freshPage();
    if (!page) return;
    for (const bag of form.querySelectorAll(".bags .bag")) {
      const now = page.getElementById(bag.id)?.querySelector(".short"), old = bag.querySelector(".short");
      if (old && !now) old.remove();
      if (now && !old) bag.querySelector(".stage").append(document.adoptNode(now));
    }
    replace("reports", page);
  }

  /** In words: 2 marks and 1 report wait. */
  function waiting() {
    const count = queue.waiting.length, short = queue.waiting.filter(item => isReport(item.mark)).length, some = (number, word) => number === 0 ? [] : [`${number} ${word}${number === 1 ? "" : "s"}`];
    return `${[...some(count - short, "mark"), ...some(short, "report")].join(" and ")} ${count === 1 ? "waits" : "wait"}`;
  }

  function tell() {
    if (over) return;
    const count = queue.waiting.length;
    live.classList.toggle("off", !up);
    live.textContent = !up
      ? count > 0 ? `Not connected. ${waiting()} on this device and will be sent when the connection is back.` : "Not connected. Go on ticking: marks are kept on this device until the connection is back."
      : count > 0 ? `Sending: ${waiting()}.` : "Everyone’s ticks show here as they are made.";
  }

  function stale() {
    live.classList.add("off");
    live.textContent = "This page has grown too old to send marks; what waits is kept on this device. ";
    const link = Object.assign(document.createElement("a"), { href: location.href, textContent: "Load it again to send them." });
    live.append(link);
  }

  function say(text, undo) {
    document.querySelector(".saying")?.remove();
    const box = Object.assign(document.createElement("div"), { className: "notice saying" });
    box.setAttribute("role", "status");
    box.append(Object.assign(document.createElement("p"), { textContent: text }));
    if (undo) {
      const button = Object.assign(document.createElement("button"), { type: "button", className: "quiet small", textContent: "Undo" });
      button.addEventListener("click", undo);
      box.append(button);
    }
    form.append(box);
  }
}
