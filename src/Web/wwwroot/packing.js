// The packing table and a bag's page, live. Without this script the same buttons are plain forms.
import { Queue, Sender, isReport, newId } from "./marks.js";
import { Kits, rank, states } from "./kits.js";
import { Reports } from "./reports.js";
import { many, say } from "./words.js";

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
      notice(say("{0}: noted for the re-cut ticket.", reports.words(report)), () => {
        queue.add({ id: newId(), kit: report.kit, withdraws: report.id });
        reports.show();
        tell();
        sender.send();
        notice(say("The report is taken back."));
      });
    },
    cannot: notice,
  });
  const sender = new Sender(queue, address, form.elements.namedItem("__RequestVerificationToken").value, {
    answered(answer, marks) {
      kits.forget(marks.map(mark => mark.id));
      kits.apply(answer.table);
      if (answer.refused.length > 0) notice(answer.refused[0].why);
      tell();
    },
    async reported(answer, report) {
      if (answer.outcome === "refused") notice(say("Not noted: {0}. {1}", reports.words(report), answer.why));
      tell();
      await readShortages();
      reports.show();
    },
    refused(why, marks) { kits.forget(marks.map(mark => mark.id)); reports.show(); notice(why); tell(); },
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
    if (made.length === 0) notice(button.dataset.line ? say("That is further along already.") : say("All of that is marked already."));
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
    notice(text, () => carry(made.map(mark => ({ id: newId(), kit: mark.kit, line: mark.line, who: form.dataset.who, undoes: mark.id })), say("Taken back.")));
  }

  function words(button, made) {
    const state = made[0].state && states[made[0].state];
    if (button.dataset.deal !== undefined) return say("{0} {1} for {2}.", button.closest("li").querySelector("b").textContent, state, many(new Set(made.map(mark => mark.kit)).size, "bag"));
    const who = button.closest(".bag").querySelector(".who");
    const name = who && `${who.querySelector("b").textContent}, ${who.querySelector("span").firstChild.textContent.trim()}`;
    if (!state) return name ? say("{0}: taken back.", name) : say("Taken back.");
    const line = (button.firstChild.textContent + (button.childNodes[1]?.nodeType === 3 ? button.childNodes[1].textContent : "")).trim();
    const what = made.length > 1 ? many(made.length, "line") : button.dataset.gives ? say("whole kit") : line;
    return name ? say("{0}: {1} {2}.", name, what, state) : say("{0} {1}.", what, state);
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
      if (here) here.textContent = names.length > 0 ? say("Here now: {0}", names.join(", ")) : "";
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
    live.textContent = `${says(say("This device is signed out."), one => say("This device is signed out; {0} waits on it.", one), some => say("This device is signed out; {0} wait on it.", some))} `;
    live.append(Object.assign(document.createElement("a"), { href: `/sign-in?next=${encodeURIComponent(location.pathname + location.search)}`, textContent: say("Come in again.") }));
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

  /** What is said where nothing waits, where one thing does, and where several do, such as 2 marks and 1 report. */
  function says(nothing, one, some) {
    const count = queue.waiting.length, short = queue.waiting.filter(item => isReport(item.mark)).length;
    if (count === 0) return nothing;
    const marks = many(count - short, "mark"), notes = many(short, "report");
    return (count === 1 ? one : some)(short === 0 ? marks : short === count ? notes : say("{0} and {1}", marks, notes));
  }

  function tell() {
    if (over) return;
    live.classList.toggle("off", !up);
    live.textContent = up
      ? says(say("Everyone’s ticks show here as they are made."), one => say("Sending: {0} waits.", one), some => say("Sending: {0} wait.", some))
      : says(say("Not connected. Go on ticking: marks are kept on this device until the connection is back."),
        one => say("Not connected. {0} waits on this device and will be sent when the connection is back.", one),
        some => say("Not connected. {0} wait on this device and will be sent when the connection is back.", some));
  }

  function stale() {
    live.classList.add("off");
    live.textContent = `${say("This page has grown too old to send marks; what waits is kept on this device.")} `;
    const link = Object.assign(document.createElement("a"), { href: location.href, textContent: say("Load it again to send them.") });
    live.append(link);
  }

  function notice(text, undo) {
    document.querySelector(".saying")?.remove();
    const box = Object.assign(document.createElement("div"), { className: "notice saying" });
    box.setAttribute("role", "status");
    box.append(Object.assign(document.createElement("p"), { textContent: text }));
    if (undo) {
      const button = Object.assign(document.createElement("button"), { type: "button", className: "quiet small", textContent: say("Undo") });
      button.addEventListener("click", undo);
      box.append(button);
    }
    form.append(box);
  }
}
