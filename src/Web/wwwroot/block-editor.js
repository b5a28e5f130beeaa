// The block editor: one sketch, its past and its future, and what the page shows of it.
import { colour, holdsBlock, indexAt, lettersOf, make, moved, describe, patches, patchSaid, put, replace, stretch, turn } from "./block-units.js";
import { Checker, layBoard, showFindings } from "./block-check.js";
import { DraftKeeper } from "./block-drafts.js";
import { Grid } from "./block-grid.js";
import { Panel } from "./block-panel.js";
import { Past } from "./block-past.js";
import { clock, many, say } from "./words.js";

const $ = id => document.getElementById(id);
const data = JSON.parse($("editor-data").textContent);
const form = $("editor");
const field = name => form.elements[`Form.${name}`];
const texts = ["Name", "Columns", "Rows", "Fabrics"];

let sketch = data.sketch;
let last = null;      // The unit that Enter puts down again.
let patch = 0;        // The patch that the next letter colours.
let stamping = false;
let check = data.check;

const letters = () => lettersOf(sketch.fabrics);
const size = (inches, centimetres) => data.metric ? `${centimetres} cm` : inches;
const inFile = text => data.metric && /\d\s*$|[½¼¾⅛⅜⅝⅞]\s*$/.test(text) ? `${text} cm` : text;
const unitAt = place => sketch.units[indexAt(sketch.units, place.row, place.column)];
const tell = text => { $("announce").textContent = text; };

const past = new Past(`${data.id}-${data.began}`, () => sketch);
const grid = new Grid($("cells"), act, () => { patch = 0; showPanel(); });
const checker = new Checker(() => sketch, showCheck);
const panel = new Panel($("unit-details"), $("unit-title"), act);
const drafts = new DraftKeeper({
  id: data.id, version: data.version, token: form.elements["__RequestVerificationToken"].value, current: () => sketch,
  says: text => { if ($("kept").textContent !== text) $("kept").textContent = text; },
  conflict: answer => {
    $("conflict").hidden = false;
    $("conflict").dataset.version = answer.version;
    $("conflict-says").textContent = say("Their drawing was kept at {0}.", clock(answer.updatedAt));
    $("keep-mine").focus();
  },
});

// Changes the sketch, remembering how it was. Typing into one field counts as one change.
function change(next, field = null) {
  if (JSON.stringify(next) === JSON.stringify(sketch)) return;
  past.add(sketch, field);
  sketch = next;
  changed();
}

function travel(step, back) {
  if (!step) return tell(back ? say("Nothing to undo.") : say("Nothing to redo."));
  sketch = step;
  for (const name of texts) field(name).value = sketch[name.toLowerCase()];
  changed();
  tell(back ? say("Undone. Now {0}", where()) : say("Done again. Now {0}", where()));
}

function changed() {
  drafts.changed();
  past.note(() => drafts.version);
  $("sketch-json").value = JSON.stringify(sketch);
  grid.show(sketch.units, new Set());
  showPanel();
  showButtons();
  checker.ask();
}

const where = () => { const unit = unitAt(grid.at); return say("row {0}, column {1}: {2}.", grid.at.row + 1, grid.at.column + 1, unit ? describe(unit) : say("gap")); };
const notHere = unit => unit ? say("That does not fit here.") : say("This cell is a gap: put a unit down first.");

// Applies a change of a unit to every marked cell that has one.
function eachUnit(alter) {
  let units = sketch.units, done = 0;
  const seen = new Set();
  for (const place of grid.places()) {
    const index = indexAt(sketch.units, place.row, place.column);
    if (index < 0 || seen.has(index)) continue;
    seen.add(index);
    const unit = alter(sketch.units[index]);
    if (!unit) continue;
    units = replace(units, index, unit);
    last = unit;
    done++;
  }
  if (done === 0) return tell(notHere(unitAt(grid.at)));
  change({ ...sketch, units });
  tell(grid.places().length === 1 ? where() : done === 1 ? say("1 unit changed.") : say("{0} units changed.", done));
}

function putDown(makeOne) {
  let units = sketch.units;
  const seen = new Set();
  for (const place of grid.places()) {
    const index = indexAt(sketch.units, place.row, place.column);
    if (index >= 0 && seen.has(index)) continue;
    seen.add(index);
    const unit = makeOne(place, sketch.units[index]);
    units = put(units, unit);
    last = unit;
  }
  change({ ...sketch, units });
  tell(grid.places().length > 1 ? say("{0}: {1}.", many(grid.places().length, "cell"), describe(last)) : where());
}

function act(what, ...with_) {
  const [one, two] = with_;
  const unit = unitAt(grid.at);
  switch (what) {
    case "undo": return travel(past.undo(), true);
    case "redo": return travel(past.redo(), false);
    case "kind":
      patch = 0;
      return putDown((place, old) => make(one, old ? { row: old.row, column: old.column } : place, old, letters(), size));
    case "turn": return eachUnit(old => turn(old, one));
    case "stretch": return stretchHere(unit, one, two);
    case "again": return last ? putDown(place => moved(last, place.row, place.column, grid.size)) : tell(say("Nothing was put down yet: choose a kind of unit first."));
    case "tap": return stamping && last ? act("again") : one && unit ? act("turn", 1) : undefined;
    case "empty": {
      const gone = new Set(grid.places().map(place => indexAt(sketch.units, place.row, place.column)));
      change({ ...sketch, units: sketch.units.filter((_, at) => !gone.has(at)) });
      return tell(where());
    }
    case "patch": return markPatch(unit, patch + one);
    case "mark-patch": return markPatch(unit, one);
    case "colour": return colourPatch(unit, one);
    case "set": return eachUnit(old => ({ ...old, [one]: inFile(two) }));
    case "bars": return eachUnit(old => bars(old, Number(one)));
    case "widths": return eachUnit(old => { const { widths: _, ...rest } = old; const list = sizes(one); return list.length ? { ...rest, widths: list } : rest; });
    case "board": return eachUnit(old => board(old, one));
    case "count": return eachUnit(old => /^\d+$/.test(one) ? { ...old, count: Number(one) } : null);
    case "corners": return eachUnit(old => ({ ...old, fabrics: one ? [old.fabrics[0], ...Array(4).fill(old.fabrics[1])] : old.fabrics.slice(0, 2) }));
    case "inner": return putInner(one);
    case "fill": return fill();
    case "stamp":
      stamping = !stamping;
      return showButtons();
    default: return grow(what);
  }
}

function stretchHere(unit, rows, columns) {
  const wider = unit && stretch(unit, rows, columns, grid.size);
  if (!wider) return tell(unit ? say("It cannot reach further that way.") : notHere(unit));
  last = wider;
  change({ ...sketch, units: put(sketch.units.filter(other => other !== unit), wider) });
  tell(where());
}

function markPatch(unit, to) {
  const all = unit ? patches(unit) : [];
  if (all.length === 0) return tell(say("There is no patch to colour here."));
  patch = (to + all.length) % all.length;
  showPanel();
  tell(say("The next letter colours: {0}.", patchSaid(unit, patch)));
}

function colourPatch(unit, letter) {
  const all = unit ? patches(unit) : [];
  if (letter !== null && !letters().includes(letter)) return tell(say("There is no fabric {0}. Add it to the list of fabrics first.", letter));
  if (letter === null && !(unit?.kind === "flipped-corners" && patch > 0)) return tell(say("Only a flipped corner can be left alone: mark one first."));
  if (!unit && letter !== null) return putDown(place => ({ ...make("plain", place, null, [letter], size) }));
  if (all.length === 0) return tell(say("There is no patch to colour here."));
  const at = patch % all.length;
  patch = (at + 1) % all.length;
  eachUnit(old => at < patches(old).length && (letter !== null || old.kind === "flipped-corners") ? colour(old, at, letter) : null);
}

const bars = (unit, count) => count >= 2 && count <= 12
  ? (({ widths: _, ...rest }) => ({ ...rest, fabrics: Array.from({ length: count }, (_, at) => unit.fabrics[at] ?? unit.fabrics[at % 2] ?? "A") }))(unit) : null;

const sizes = text => text.split(text.includes(";") ? ";" : ",").map(part => part.trim()).filter(Boolean).map(inFile);

function board(unit, text) {
  const [rows, columns] = (text.match(/\d+/g) ?? []).map(Number);
  if (!(rows >= 1 && rows <= 12 && columns >= 1 && columns <= 12)) return null;
  return { ...unit, patches: Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (_, c) => unit.patches[r]?.[c] ?? unit.patches[(r + c) % 2 ? 0 : 0][(r + c) % 2] ?? unit.patches[0][0])) };
}

async function putInner(id) {
  const answer = await fetch(`/blocks/${id}/block.json`);
  if (!answer.ok) return tell(say("That block is not there any more."));
  const { version: _, ...inner } = await answer.json();
  const missing = inner.fabrics.filter(fabric => !letters().includes(fabric.letter));
  const fabrics = [sketch.fabrics.trimEnd(), ...missing.map(fabric => `${fabric.letter} ${fabric.name}`)].join("\n");
  field("Fabrics").value = fabrics;
  const places = grid.places().map(place => indexAt(sketch.units, place.row, place.column));
  change({ ...sketch, fabrics, units: sketch.units.map((unit, at) => places.includes(at) && holdsBlock(unit) ? { ...unit, inner } : unit) });
  tell(where());
}

function fill() {
  const one = last ?? { kind: "plain", fabrics: [letters()[0] ?? "A"] };
  const { rowSpan: _r, columnSpan: _c, ...single } = one;
  let units = sketch.units, filled = 0;
  for (let row = 0; row < grid.size.rows; row++) {
    for (let column = 0; column < grid.size.columns; column++) {
      if (indexAt(units, row, column) >= 0) continue;
      units = put(units, { ...structuredClone(single), row, column });
      filled++;
    }
  }
  change({ ...sketch, units });
  tell(filled === 0 ? say("There are no gaps.") : say("{0} filled with {1}.", many(filled, "gap"), describe({ ...single, row: 0, column: 0 })));
}

function grow(what) {
  const [way, side] = what.split("-");
  const name = side === "columns" ? "Columns" : "Rows", mark = field(name).value.includes(";") ? ";" : ",";
  const list = field(name).value.split(mark).map(part => part.trim()).filter(Boolean);
  if (way === "more" ? list.length >= 12 : list.length <= 1) return tell(way === "more" ? say("Twelve is the most.") : say("One has to stay."));
  const next = way === "more" ? [...list, list.at(-1) ?? size("3", "8")] : list.slice(0, -1);
  field(name).value = next.join(mark + " ");
  // Units on the line that goes lose it; those wholly on it go too.
  const across = side === "columns" ? ["column", "columnSpan"] : ["row", "rowSpan"];
  const units = way === "more" ? sketch.units : sketch.units.filter(unit => unit[across[0]] < next.length)
    .map(unit => unit[across[0]] + (unit[across[1]] ?? 1) > next.length ? { ...unit, [across[1]]: next.length - unit[across[0]] } : unit);
  change({ ...sketch, [name.toLowerCase()]: field(name).value, units });
  tell(`${side === "columns" ? many(next.length, "column") : many(next.length, "row")}.`);
}

function showPanel() {
  const unit = unitAt(grid.at);
  patch = Math.min(patch, Math.max(0, (unit ? patches(unit).length : 1) - 1));
  panel.show({
    unit, at: grid.at, chosen: grid.chosen.length, patch, fabrics: sketch.fabrics, letters: letters(),
    colours: Object.fromEntries(check.letters.map(one => [one.letter, one.colour])), blocks: data.blocks,
  });
}

function showButtons() {
  const set = (what, on) => { const one = form.querySelector(`[data-do="${what}"]`); one.setAttribute("aria-disabled", !on); };
  set("undo", past.canUndo);
  set("redo", past.canRedo);
  form.querySelector('[data-do="stamp"]').setAttribute("aria-pressed", stamping);
}

// What the check says belongs to the sketch that is here now.
function showCheck(answer) {
  check = answer;
  if (check.columnEdges.length > 1 && check.rowEdges.length > 1) {
    layBoard(check);
    grid.lay(check.columnEdges, check.rowEdges);
  }
  grid.show(sketch.units, new Set(check.problems.map(problem => problem.unit).filter(unit => unit !== null)));
  showFindings(check);
  showPanel();
}

for (const part of form.querySelectorAll("[data-script]")) part.hidden = false;
form.querySelector("[data-lines]").hidden = true;
field("Units").disabled = true;
for (const name of texts) field(name).addEventListener("input", () => change({ ...sketch, [name.toLowerCase()]: field(name).value }, name));
for (const one of form.querySelectorAll("[data-kind]")) one.addEventListener("click", () => act("kind", one.dataset.kind));
for (const one of form.querySelectorAll("[data-do]")) one.addEventListener("click", () => act(one.dataset.do));
form.addEventListener("keydown", event => {
  // Enter in a field would save the block while it is still being drawn.
  if (event.key === "Enter" && event.target.matches("input:not([type=checkbox])")) event.preventDefault();
  const undone = { z: event.shiftKey ? "redo" : "undo", y: "redo" }[event.key.toLowerCase()];
  if (undone && (event.ctrlKey || event.metaKey) && !event.defaultPrevented && !event.target.matches("input, textarea")) {
    event.preventDefault();
    act(undone);
  }
});

document.querySelector('a[href="#keys"]').addEventListener("click", () => { document.querySelector("#keys details").open = true; });

let ready = false;
form.addEventListener("submit", async event => {
  if (ready || event.submitter?.formAction.includes("Discard")) return;
  event.preventDefault();
  await drafts.flush();
  $("sketch-json").value = JSON.stringify(sketch);
  field("Version").value = drafts.version;
  ready = true;
  setTimeout(() => form.requestSubmit(event.submitter)); // A form refuses to be sent from within its own submit event.
});
addEventListener("pageshow", () => { ready = false; });

$("keep-mine").addEventListener("click", async () => {
  await drafts.resume(Number($("conflict").dataset.version));
  $("conflict").hidden = true;
  grid.focus();
  tell(say("Yours is kept now."));
});
$("take-theirs").addEventListener("click", () => location.reload());

$("sketch-json").value = JSON.stringify(sketch);
showCheck(data.check);
const further = past.restore(data.version);
if (further) {
  sketch = further;
  for (const name of texts) field(name).value = sketch[name.toLowerCase()];
  changed();
}
showButtons();
