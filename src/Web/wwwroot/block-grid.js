// The cells over the drawing: where the marked cell is, keys, mouse and touch. What they mean is told to the editor.
import { covers, describe, indexAt, kindOfKey } from "./block-units.js";
import { say } from "./words.js";

export class Grid {
  at = { row: 0, column: 0 };
  size = { rows: 0, columns: 0 };
  used = false; // A first tap only marks.
  chosen = []; // More cells than the marked one, after a drag.
  #cells = [];
  #drag = null;

  // act(what, ...) carries out what was asked; moved() tells that another cell is marked.
  constructor(root, act, moved) {
    Object.assign(this, { root, act, moved });
    root.addEventListener("keydown", event => this.#key(event));
    root.addEventListener("pointerdown", event => this.#down(event));
    root.addEventListener("pointermove", event => this.#over(event));
    root.addEventListener("pointerup", event => this.#up(event));
    root.addEventListener("pointercancel", () => { this.#drag = null; });
    root.addEventListener("focusin", event => this.#focused(event));
  }

  // Lays the cells over the grid lines; cells that are there keep the focus.
  lay(columnEdges, rowEdges) {
    const size = { rows: rowEdges.length - 1, columns: columnEdges.length - 1 };
    const same = size.rows === this.size.rows && size.columns === this.size.columns;
    this.edges = { columns: columnEdges, rows: rowEdges };
    if (same) return;
    const hadFocus = this.root.contains(document.activeElement);
    this.size = size;
    this.at = { row: Math.min(this.at.row, size.rows - 1), column: Math.min(this.at.column, size.columns - 1) };
    this.chosen = [];
    this.#cells = [];
    this.root.replaceChildren();
    this.root.setAttribute("aria-rowcount", size.rows);
    this.root.setAttribute("aria-colcount", size.columns);
    for (let row = 0; row < size.rows; row++) {
      const line = document.createElement("div");
      line.setAttribute("role", "row");
      this.#cells.push([]);
      for (let column = 0; column < size.columns; column++) {
        const cell = document.createElement("div");
        cell.setAttribute("role", "gridcell");
        cell.setAttribute("aria-rowindex", row + 1);
        cell.setAttribute("aria-colindex", column + 1);
        Object.assign(cell.dataset, { row, column });
        cell.tabIndex = -1;
        line.append(cell);
        this.#cells[row].push(cell);
      }
      this.root.append(line);
    }
    if (hadFocus) this.#cells[this.at.row]?.[this.at.column]?.focus();
  }

  // Shows the units: the first cell of each stands for all of it. broken: places of units with a problem.
  show(units, broken) {
    const { columns, rows } = this.edges ?? { columns: [], rows: [] };
    this.#cells.forEach((line, row) => line.forEach((cell, column) => {
      const index = indexAt(units, row, column);
      const unit = units[index];
      const first = !unit || (unit.row === row && unit.column === column);
      cell.hidden = !first;
      const bottom = Math.min(row + (unit?.rowSpan ?? 1), this.size.rows), right = Math.min(column + (unit?.columnSpan ?? 1), this.size.columns);
      Object.assign(cell.style, { left: `${columns[column] * 100}%`, top: `${rows[row] * 100}%`, width: `${(columns[right] - columns[column]) * 100}%`, height: `${(rows[bottom] - rows[row]) * 100}%` });
      cell.setAttribute("aria-rowspan", bottom - row);
      cell.setAttribute("aria-colspan", right - column);
      const here = [row + 1, column + 1, unit ? describe(unit) : say("gap")];
      cell.setAttribute("aria-label", broken.has(index) ? say("Row {0}, column {1}: {2}, something is wrong", ...here) : say("Row {0}, column {1}: {2}", ...here));
      cell.classList.toggle("gap", !unit);
      cell.classList.toggle("broken", broken.has(index));
    }));
    for (const line of this.root.children) line.hidden = [...line.children].every(cell => cell.hidden);
    this.mark(units);
  }

  mark(units = this.units) {
    this.units = units;
    const here = this.#holder(this.at);
    this.#cells.flat().forEach(cell => {
      const marked = cell === here || this.chosen.some(place => this.#holder(place) === cell);
      cell.tabIndex = cell === here ? 0 : -1;
      cell.setAttribute("aria-selected", marked);
    });
    if (this.root.contains(document.activeElement) && document.activeElement !== here) here?.focus();
  }

  focus() { this.#holder(this.at)?.focus(); }

  // All places that a change is for.
  places() { return this.chosen.length > 0 ? this.chosen : [this.at]; }

  go(row, column) {
    this.at = { row: Math.max(0, Math.min(this.size.rows - 1, row)), column: Math.max(0, Math.min(this.size.columns - 1, column)) };
    this.chosen = [];
    this.mark();
    this.moved();
  }

  #holder({ row, column }) {
    const unit = this.units?.[indexAt(this.units, row, column)];
    return this.#cells[unit?.row ?? row]?.[unit?.column ?? column];
  }

  #step(down, across) {
    const unit = this.units.find(one => covers(one, this.at.row, this.at.column));
    // Out of the unit at once, however many cells it covers.
    const row = down > 0 && unit ? unit.row + (unit.rowSpan ?? 1) : down < 0 && unit ? unit.row - 1 : this.at.row;
    const column = across > 0 && unit ? unit.column + (unit.columnSpan ?? 1) : across < 0 && unit ? unit.column - 1 : this.at.column;
    const to = { row: unit ? row : this.at.row + down, column: unit ? column : this.at.column + across };
    if (to.row < 0 || to.row >= this.size.rows || to.column < 0 || to.column >= this.size.columns) return;
    this.go(to.row, to.column);
    this.focus();
  }

  #key(event) {
    const key = event.key, command = event.ctrlKey || event.metaKey;
    const arrow = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }[key];
    const does = () => {
      if (command) {
        const low = key.toLowerCase();
        return low === "z" ? this.act(event.shiftKey ? "redo" : "undo") : low === "y" ? this.act("redo") : false;
      }
      if (event.altKey) return false;
      if (arrow) return event.shiftKey ? this.act("stretch", ...arrow) : this.#step(...arrow);
      if (key === "Home") return this.#end(0);
      if (key === "End") return this.#end(this.size.columns - 1);
      if (key === " ") return this.act("turn", event.shiftKey ? -1 : 1);
      if (key === "Enter") return this.act("again");
      if (key === "Delete" || key === "Backspace") return this.act("empty");
      if (key === ".") return this.act("patch", 1);
      if (key === ",") return this.act("patch", -1);
      if (key === "-") return this.act("colour", null);
      if (/^[0-9=]$/.test(key)) return this.act("kind", kindOfKey(key));
      if (/^[a-z]$/i.test(key)) return this.act("colour", key.toUpperCase());
      return false;
    };
    if (does() !== false) event.preventDefault();
  }

  #end(column) {
    this.go(this.at.row, column);
    this.focus();
  }

  #focused(event) {
    const cell = event.target.closest("[role=gridcell]");
    if (cell && cell !== this.#holder(this.at)) this.go(Number(cell.dataset.row), Number(cell.dataset.column));
  }

  // From the pointer's place, not from the element below it: a unit's one element covers several cells.
  #placeOf(event) {
    const box = this.root.getBoundingClientRect();
    const find = (edges, share) => Math.max(0, Math.min(edges.length - 2, edges.findLastIndex(edge => edge <= share)));
    return { row: find(this.edges.rows, (event.clientY - box.top) / box.height), column: find(this.edges.columns, (event.clientX - box.left) / box.width) };
  }

  #down(event) {
    if (event.button !== 0 || !this.edges) return;
    const place = this.#placeOf(event);
    const again = this.chosen.length === 0 && this.used && this.#holder(place) === this.#holder(this.at);
    this.used = true;
    this.#drag = { from: place, again, moved: false };
    event.preventDefault(); // The focus is set below, where the unit is.
    this.root.setPointerCapture?.(event.pointerId);
    this.go(place.row, place.column);
    this.focus();
  }

  #over(event) {
    if (!this.#drag) return;
    const to = this.#placeOf(event), from = this.#drag.from;
    if (!this.#drag.moved && to.row === from.row && to.column === from.column) return;
    this.#drag.moved = true;
    this.chosen = [];
    for (let row = Math.min(from.row, to.row); row <= Math.max(from.row, to.row); row++) {
      for (let column = Math.min(from.column, to.column); column <= Math.max(from.column, to.column); column++) this.chosen.push({ row, column });
    }
    this.mark();
  }

  #up() {
    const drag = this.#drag;
    this.#drag = null;
    if (!drag) return;
    if (drag.moved) this.moved();
    else this.act("tap", drag.again);
  }
}
