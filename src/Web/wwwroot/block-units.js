// The units of a block as data: what each kind holds, and the changes that the editor makes. No page in here.
// A unit is as in a block's file; nothing here changes one in place.

const around = ["upper left", "upper right", "lower right", "lower left"];
const sides = ["top", "right", "bottom", "left"];

const turned = (names, place, unit) => names[(place + (unit.turn ?? 0) / 90) % 4];

// fabrics: which of the unit's letters goes where when it is put down. patch: the name of a patch as it lies now.
export const kinds = {
  "plain": { key: "1", name: "plain patch", fabrics: [0], patch: () => "patch" },
  "half-square-triangle": { key: "2", name: "half-square triangle", fabrics: [0, 1], patch: (u, i) => turned(around, i * 2, u) },
  "flying-geese": { key: "3", name: "flying geese", fabrics: [1, 0, 0], patch: (u, i) => i === 0 ? "goose" : turned(sides, i === 1 ? 3 : 1, u) + " sky" },
  "quarter-square-triangle": { key: "4", name: "quarter-square triangle", fabrics: [0, 1, 0, 1], patch: (u, i) => turned(sides, i, u) },
  "square-in-a-square": { key: "5", name: "square in a square", fabrics: [1, 0], patch: (u, i) => i === 0 ? "centre" : u.fabrics.length === 2 ? "corners" : turned(around, i - 1, u) },
  "flipped-corners": { key: "6", name: "flipped corners", fabrics: [0, 1, 1, 1, 1], patch: (u, i) => i === 0 ? "base" : turned(around, i - 1, u) },
  "rails": { key: "7", name: "rails", fabrics: [0, 1], patch: (u, i) => `bar ${i + 1}` },
  "checkerboard": { key: "8", name: "checkerboard", patch: (u, i) => `patch in row ${Math.floor(i / u.patches[0].length) + 1}, column ${i % u.patches[0].length + 1}` },
  "block": { key: "9", name: "nested block", patch: () => "" },
  "template": { key: "0", name: "template shape", fabrics: [0], patch: () => "patch" },
  "pieced-triangle": { key: "=", name: "pieced triangle", fabrics: [0], patch: (u, i) => turned(around, 2, u) + " half" },
};

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
  const said = patches(unit).map((letter, at) => `${kinds[unit.kind].patch(unit, at)} ${letter ?? "left alone"}`);
  const coloured = unit.kind === "plain" || unit.kind === "template" ? [unit.fabrics?.[0] ?? ""] : said.length > 5 ? [...new Set(patches(unit))] : said;
  const inside = unit.inner?.name ?? "none chosen";
  const named = unit.kind === "block" ? [inside] : unit.kind === "pieced-triangle" ? [...coloured, "pieced half of " + inside] : coloured;
  const reach = (unit.rowSpan ?? 1) > 1 || (unit.columnSpan ?? 1) > 1 ? `, ${unit.columnSpan ?? 1} wide and ${unit.rowSpan ?? 1} high` : "";
  return `${kinds[unit.kind]?.name ?? unit.kind} ${named.join(", ")}${reach}`;
}
