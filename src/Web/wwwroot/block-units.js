// The units of a block as data: what each kind holds and how it is said, and the changes that the editor makes. No page in here.
// A unit is as in a block's file; nothing here changes one in place.
import { say } from "./words.js";

// A patch with its letter, by where it lies, clockwise.
const around = [letter => say("upper left {0}", letter), letter => say("upper right {0}", letter), letter => say("lower right {0}", letter), letter => say("lower left {0}", letter)];
const sides = [letter => say("top {0}", letter), letter => say("right {0}", letter), letter => say("bottom {0}", letter), letter => say("left {0}", letter)];
const skies = [letter => say("top sky {0}", letter), letter => say("right sky {0}", letter), letter => say("bottom sky {0}", letter), letter => say("left sky {0}", letter)];
const halves = [letter => say("upper left half {0}", letter), letter => say("upper right half {0}", letter), letter => say("lower right half {0}", letter), letter => say("lower left half {0}", letter)];

const turned = (ways, place, unit, letter) => ways[(place + (unit.turn ?? 0) / 90) % 4](letter);

// fabrics: which of the unit's letters goes where when it is put down. patch: a patch as it lies now, with its letter.
export const kinds = {
  "plain": { key: "1", name: say("plain patch"), fabrics: [0], patch: (u, i, x) => say("patch {0}", x) },
  "half-square-triangle": { key: "2", name: say("half-square triangle"), fabrics: [0, 1], patch: (u, i, x) => turned(around, i * 2, u, x) },
  "flying-geese": { key: "3", name: say("flying geese"), fabrics: [1, 0, 0], patch: (u, i, x) => i === 0 ? say("goose {0}", x) : turned(skies, i === 1 ? 3 : 1, u, x) },
  "quarter-square-triangle": { key: "4", name: say("quarter-square triangle"), fabrics: [0, 1, 0, 1], patch: (u, i, x) => turned(sides, i, u, x) },
  "square-in-a-square": { key: "5", name: say("square in a square"), fabrics: [1, 0], patch: (u, i, x) => i === 0 ? say("centre {0}", x) : u.fabrics.length === 2 ? say("corners {0}", x) : turned(around, i - 1, u, x) },
  "flipped-corners": { key: "6", name: say("flipped corners"), fabrics: [0, 1, 1, 1, 1], patch: (u, i, x) => i === 0 ? say("base {0}", x) : turned(around, i - 1, u, x) },
  "rails": { key: "7", name: say("rails"), fabrics: [0, 1], patch: (u, i, x) => say("bar {0} {1}", i + 1, x) },
  "checkerboard": { key: "8", name: say("checkerboard"), patch: (u, i, x) => say("patch in row {0}, column {1} {2}", Math.floor(i / u.patches[0].length) + 1, i % u.patches[0].length + 1, x) },
  "block": { key: "9", name: say("nested block"), patch: () => "" },
  "template": { key: "0", name: say("template shape"), fabrics: [0], patch: (u, i, x) => say("patch {0}", x) },
  "pieced-triangle": { key: "=", name: say("pieced triangle"), fabrics: [0], patch: (u, i, x) => turned(halves, 2, u, x) },
};

/** A patch with the letter that it has, or that it has none. */
export const patchSaid = (unit, at) => kinds[unit.kind].patch(unit, at, patches(unit)[at] ?? say("left alone"));

export const holdsBlock = unit => unit?.kind === "block" || unit?.kind === "pieced-triangle";

export const kindOfKey = key => Object.keys(kinds).find(kind => kinds[kind].key === key);

export const lettersOf = fabrics => [...new Set(fabrics.split("\n").map(line => /^\s*([A-Za-z])(?![A-Za-z])/.exec(line)?.[1].toUpperCase()).filter(Boolean))];

export const nameOf = (fabrics, letter) => fabrics.split("\n").map(line => /^\s*([A-Za-z])(?![A-Za-z])[\s:.)=–-]*(.*)$/.exec(line))
  .find(found => found?.[1].toUpperCase() === letter)?.[2].trim() ?? "";

// The patches that can be coloured: their letters in order.
export const patches = unit => unit.kind === "checkerboard" ? (unit.patches ?? []).flat() : unit.kind === "block" ? [] : unit.fabrics ?? [];

export const covers = (unit, row, column) =>
  row >= unit.row && row < unit.row + (unit.rowSpan ?? 1) && column >= unit.column && column < unit.column + (unit.columnSpan ?? 1);

export const indexAt = (units, row, column) => units.findIndex(unit => covers(unit, row, column));

const meets = (one, other) =>
  one.row < other.row + (other.rowSpan ?? 1) && other.row < one.row + (one.rowSpan ?? 1)
  && one.column < other.column + (other.columnSpan ?? 1) && other.column < one.column + (one.columnSpan ?? 1);

// Puts a unit down; those it would cover make room.
export const put = (units, unit) => [...units.filter(other => !meets(other, unit)), unit];

export const replace = (units, index, unit) => units.map((other, at) => at === index ? unit : other);

// A unit of a kind on the cells of the old one, or on one cell, keeping its colours as far as they go.
export function make(kind, place, old, letters, size) {
  const used = old ? [...new Set(patches(old).filter(Boolean))] : [];
  const order = [...used, ...letters.filter(letter => !used.includes(letter))];
  const letter = at => order[at] ?? order[0] ?? "A";
  const unit = { row: place.row, column: place.column };
  if ((old?.rowSpan ?? 1) > 1) unit.rowSpan = old.rowSpan;
  if ((old?.columnSpan ?? 1) > 1) unit.columnSpan = old.columnSpan;
  unit.kind = kind;
  if (kind === "checkerboard") unit.patches = [[letter(0), letter(1)], [letter(1), letter(0)]];
  else if (kinds[kind].fabrics) unit.fabrics = kinds[kind].fabrics.map(letter);
  if (kind === "flipped-corners") unit.corner = size("1", "2.5");
  if (kind === "template") Object.assign(unit, { cutWidth: size("4", "10"), cutHeight: size("4", "10") });
  return unit;
}

export function turn(unit, quarters) {
  if (unit.kind === "checkerboard") {
    let rows = unit.patches;
    for (let i = 0; i < (quarters + 4) % 4; i++) rows = rows[0].map((_, column) => rows.map(row => row[column]).reverse());
    return { ...unit, patches: rows };
  }
  const { turn: _, ...rest } = unit;
  const to = ((unit.turn ?? 0) + quarters * 90 + 360) % 360;
  return to === 0 ? rest : { ...rest, turn: to };
}

export function colour(unit, place, letter) {
  if (unit.kind === "checkerboard") {
    const wide = unit.patches[0].length;
    return { ...unit, patches: unit.patches.map((row, r) => row.map((old, c) => r * wide + c === place ? letter : old)) };
  }
  return { ...unit, fabrics: unit.fabrics.map((old, at) => at === place ? letter : old) };
}

// The unit reaching so many cells further; null where it would leave the grid or lose its last cell.
export function stretch(unit, rows, columns, size) {
  const rowSpan = (unit.rowSpan ?? 1) + rows, columnSpan = (unit.columnSpan ?? 1) + columns;
  if (rowSpan < 1 || columnSpan < 1 || unit.row + rowSpan > size.rows || unit.column + columnSpan > size.columns) return null;
  const { rowSpan: _r, columnSpan: _c, ...rest } = unit;
  return { ...rest, ...(rowSpan > 1 ? { rowSpan } : {}), ...(columnSpan > 1 ? { columnSpan } : {}) };
}

// The same unit on another cell; smaller where the grid ends.
export function moved(unit, row, column, size) {
  const rowSpan = Math.min(unit.rowSpan ?? 1, size.rows - row), columnSpan = Math.min(unit.columnSpan ?? 1, size.columns - column);
  const { rowSpan: _r, columnSpan: _c, ...rest } = structuredClone(unit);
  return { ...rest, row, column, ...(rowSpan > 1 ? { rowSpan } : {}), ...(columnSpan > 1 ? { columnSpan } : {}) };
}

export function describe(unit) {
  const said = patches(unit).map((_, at) => patchSaid(unit, at));
  const coloured = unit.kind === "plain" || unit.kind === "template" ? [unit.fabrics?.[0] ?? ""] : said.length > 5 ? [...new Set(patches(unit))] : said;
  const inside = unit.inner?.name ?? say("none chosen");
  const named = unit.kind === "block" ? [inside] : unit.kind === "pieced-triangle" ? [...coloured, say("pieced half of {0}", inside)] : coloured;
  const whole = `${kinds[unit.kind]?.name ?? unit.kind} ${named.join(", ")}`, wide = unit.columnSpan ?? 1, high = unit.rowSpan ?? 1;
  return wide > 1 || high > 1 ? say("{0}, {1} wide and {2} high", whole, wide, high) : whole;
}
