// Asks the program to check and draw the sketch, and shows what it answers: drawing, sizes, problems and cut list.
import { say } from "./words.js";

const $ = id => document.getElementById(id);
const pause = 80;

export class Checker {
  #timer = 0;
  #asked = 0;

  // current() gives the sketch; shown(answer) is called with the newest question's answer only.
  constructor(current, shown) {
    Object.assign(this, { current, shown });
  }

  ask() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#send(), pause);
  }

  async #send() {
    const mine = ++this.#asked;
    try {
      const answer = await fetch("/blocks/check", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(this.current()) });
      const check = answer.ok ? await answer.json() : null;
      if (check && mine === this.#asked) this.shown(check);
    } catch {
      $("live-says").textContent = say("The program does not answer just now.");
    }
  }
}

// The drawing in its place, and the cells' room exactly over its grid; the drawing has one unit of its own around it.
export function layBoard(check) {
  const wide = check.drawingWidth, tall = wide * check.heightShare;
  const drawing = check.drawing ? document.importNode(new DOMParser().parseFromString(check.drawing, "image/svg+xml").documentElement, true) : "";
  $("drawn").replaceChildren(drawing);
  $("canvas").style.aspectRatio = `${wide + 2} / ${tall + 2}`;
  $("board").style.maxWidth = check.heightShare > 1 ? `${560 / check.heightShare}px` : "";
  $("cells").style.inset = `${100 / (tall + 2)}% ${100 / (wide + 2)}%`;
  showSizes("column-sizes", check.columnSizes, check.columnEdges, ["left", "width"]);
  showSizes("row-sizes", check.rowSizes, check.rowEdges, ["top", "height"]);
}

// The finished sizes along the edges of the grid.
function showSizes(id, sizes, edges, [start, reach]) {
  $(id).replaceChildren(...sizes.map((text, at) => {
    const one = Object.assign(document.createElement("span"), { textContent: text });
    Object.assign(one.style, { [start]: `${edges[at] * 100}%`, [reach]: `${(edges[at + 1] - edges[at]) * 100}%` });
    return one;
  }));
}

export function showFindings(check) {
  const says = $("live-says");
  says.className = check.problems.length === 0 ? "good" : "care";
  says.textContent = check.says;
  $("live-problems").replaceChildren(...check.problems.map(problem => Object.assign(document.createElement("li"), { textContent: problem.message })));
  $("live-list").replaceChildren(...check.cutList.flatMap(fabric => {
    const list = Object.assign(document.createElement("ul"), { className: "pieces" });
    list.append(...fabric.pieces.map(piece => {
      const line = document.createElement("li");
      line.append(Object.assign(document.createElement("b"), { textContent: `${piece.count} @ ${piece.size}` }), " ", Object.assign(document.createElement("span"), { className: "soft", textContent: piece.uses }));
      return line;
    }));
    return [Object.assign(document.createElement("h3"), { textContent: `${fabric.letter} ${fabric.name}`.trim() }), list];
  }));
  announce([check.says, ...check.problems.slice(0, 2).map(problem => problem.message)].join(" "));
}

// Said once the hands rest, and only when it is news.
let announcing = 0, announced = "";
function announce(text) {
  clearTimeout(announcing);
  announcing = setTimeout(() => { if (text !== announced) $("announce-check").textContent = announced = text; }, 900);
}
