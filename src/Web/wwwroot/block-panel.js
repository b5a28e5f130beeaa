// The panel that says what the marked unit is and changes it: patches, turn, reach, and the sizes of its kind.
import { describe, holdsBlock, nameOf, patches, patchSaid } from "./block-units.js";
import { many, say } from "./words.js";

const make = (name, attributes = {}, ...children) => {
  const element = Object.assign(document.createElement(name), attributes);
  element.append(...children);
  return element;
};

const button = (text, act, attributes = {}) => {
  const one = make("button", { type: "button", className: "quiet small", ...attributes }, text);
  one.addEventListener("click", act);
  return one;
};

export class Panel {
  // act(what, ...) carries out what was asked; sizes(unit) gives the fields that a kind has.
  constructor(root, title, act) {
    Object.assign(this, { root, title, act });
  }

  // Writes the panel anew and puts the focus back on the control of the same name.
  show({ unit, at, chosen, patch, fabrics, letters, colours, blocks }) {
    const focused = this.root.contains(document.activeElement) ? document.activeElement.dataset.name : null;
    const caret = focused ? document.activeElement.selectionStart : null;
    this.title.textContent = chosen > 1 ? many(chosen, "cell") : say("Row {0}, column {1}", at.row + 1, at.column + 1);
    for (const kind of document.querySelectorAll("[data-kind]")) kind.setAttribute("aria-pressed", kind.dataset.kind === unit?.kind);
    const parts = [make("p", { className: "unitsays" }, unit ? describe(unit) : say("A gap. Choose a kind of unit above."))];
    if (unit) {
      parts.push(...this.#patches(unit, patch, fabrics, letters, colours), this.#moves(), ...this.#sizes(unit), ...this.#inner(unit, blocks));
    }
    this.root.replaceChildren(...parts);
    if (focused) {
      const again = this.root.querySelector(`[data-name="${focused}"]`);
      (again ?? document.querySelector("[data-kind]")).focus();
      if (again && caret !== null && again.setSelectionRange) again.setSelectionRange(caret, caret);
    }
  }

  #patches(unit, marked, fabrics, letters, colours) {
    const all = patches(unit);
    if (all.length === 0) return [];
    const which = make("div", { className: "patches" });
    which.setAttribute("role", "group");
    which.setAttribute("aria-label", say("Which patch"));
    all.forEach((_, at) => {
      const one = button(patchSaid(unit, at), () => this.act("mark-patch", at));
      one.dataset.name = `patch-${at}`;
      one.setAttribute("aria-pressed", at === marked);
      which.append(one);
    });
    const dyes = make("div", { className: "dyes" });
    dyes.setAttribute("role", "group");
    dyes.setAttribute("aria-label", say("Fabric of the patch"));
    for (const letter of letters) {
      const one = button(letter, () => this.act("colour", letter), { className: "dye quiet" });
      one.dataset.name = `dye-${letter}`;
      one.setAttribute("aria-label", `${letter} ${nameOf(fabrics, letter)}`.trim());
      one.setAttribute("aria-pressed", all[marked] === letter);
      one.style.borderBottomColor = colours[letter] ?? "";
      dyes.append(one);
    }
    if (unit.kind === "flipped-corners" && marked > 0) dyes.append(button(say("leave alone"), () => this.act("colour", null)));
    return all.length === 1 ? [make("h3", {}, say("Fabric")), dyes] : [make("h3", {}, say("Patch, then fabric")), which, dyes];
  }

  #moves() {
    const group = make("div", { className: "buttons moves" });
    const add = (name, text, ...what) => {
      const one = button(text, () => this.act(...what));
      one.dataset.name = name;
      group.append(one);
    };
    add("turn", say("Turn"), "turn", 1);
    add("wider", say("Wider"), "stretch", 0, 1);
    add("narrower", say("Narrower"), "stretch", 0, -1);
    add("taller", say("Taller"), "stretch", 1, 0);
    add("shorter", say("Shorter"), "stretch", -1, 0);
    add("empty", say("Empty the cell"), "empty");
    return group;
  }

  #field(label, name, value, hint, change) {
    const input = make("input", { value: value ?? "", autocomplete: "off", id: `unit-${name}` });
    input.dataset.name = name;
    input.addEventListener("change", () => change(input.value.trim()));
    return make("div", { className: "field" }, make("label", { htmlFor: input.id }, label), input, ...(hint ? [make("span", { className: "hint" }, hint)] : []));
  }

  #sizes(unit) {
    const set = name => value => this.act("set", name, value);
    const fields = {
      "flipped-corners": () => [this.#field(say("Finished corner"), "corner", unit.corner, null, set("corner"))],
      "rails": () => [this.#field(say("Number of bars"), "bars", unit.fabrics.length, null, value => this.act("bars", value)), this.#field(say("Finished widths of the bars"), "widths", (unit.widths ?? []).join(", "), say("Leave empty for equal bars"), value => this.act("widths", value))],
      "checkerboard": () => [this.#field(say("Rows × columns of patches"), "board", `${unit.patches.length} × ${unit.patches[0].length}`, null, value => this.act("board", value))],
      "square-in-a-square": () => [this.#corners(unit)],
      "template": () => [this.#field(say("Cut width"), "cutWidth", unit.cutWidth, say("With seam allowances"), set("cutWidth")), this.#field(say("Cut height"), "cutHeight", unit.cutHeight, null, set("cutHeight")), this.#field(say("How many"), "count", unit.count ?? 1, null, value => this.act("count", value))],
    }[unit.kind];
    return fields ? [make("div", { className: "fields" }, ...fields())] : [];
  }

  #corners(unit) {
    const same = unit.fabrics.length === 2;
    const one = button(same ? say("Colour each corner by itself") : say("All corners alike"), () => this.act("corners", same));
    one.dataset.name = "corners";
    return one;
  }

  #inner(unit, blocks) {
    if (!holdsBlock(unit)) return [];
    const select = make("select", { id: "unit-inner" }, make("option", { value: "" }, unit.inner?.name ? say("{0} (as it is)", unit.inner.name) : say("choose…")));
    for (const block of blocks) select.append(make("option", { value: block.id }, block.name));
    select.dataset.name = "inner";
    select.addEventListener("change", () => { if (select.value) this.act("inner", select.value); });
    return [make("div", { className: "field" }, make("label", { htmlFor: select.id }, unit.kind === "block" ? say("Block to put in") : say("Block whose half it takes")), select, make("span", { className: "hint" },
      unit.kind === "block" ? say("It is made to fit: its shape must be that of the cell.") : say("Its upper left half; on the diagonal from lower left to upper right it must have plain squares.")))];
  }
}
