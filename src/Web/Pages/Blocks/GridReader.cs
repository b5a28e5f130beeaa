using System.Globalization;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Forms;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>Reads a block from the grid form; every problem is said at its field.</summary>
public sealed class GridReader(FormReader reader, GridForm form, bool metric)
{
    /// <summary>Column widths and row heights; empty with a message where they cannot be read.</summary>
    public (IReadOnlyList<Length> Columns, IReadOnlyList<Length> Rows) Sizes() =>
        (Sizes(nameof(GridForm.Columns), form.Columns, "Column widths"), Sizes(nameof(GridForm.Rows), form.Rows, "Row heights"));

    /// <summary>The block, checked; null with messages where it is not one.</summary>
    public Block? Read()
    {
        var name = reader.Needed(nameof(GridForm.Name), form.Name, "The block’s name", 80);
        var (columns, rows) = Sizes();
        var fabrics = Fabrics();
        if (columns.Count == 0 || rows.Count == 0)
        {
            return null;
        }

        form.Fit(columns.Count, rows.Count);
        var units = form.Cells.Select((cell, i) => Unit(cell, i)).OfType<Unit>().ToList();
        if (!reader.IsGood)
        {
            return null;
        }

        var block = new Block(name, columns, rows, fabrics, units);
        var result = CutLists.For(block, Web.Classes.UsualRules.For(metric));
        foreach (var problem in result.Problems)
        {
            reader.Wrong(FieldOf(problem, units), problem.Message);
        }

        return reader.IsGood ? block : null;
    }

    private List<Length> Sizes(string field, string? text, string what)
    {
        var parts = (text ?? "").Replace(", ", ";", StringComparison.Ordinal).Split([';', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (parts.Length == 0 || parts.Length > BlockLimits.Cells)
        {
            reader.Wrong(field, parts.Length == 0
                ? $"{what} are missing: type each finished size with a semicolon after it, such as 3; 3; 3."
                : $"{what}: {parts.Length} sizes; {BlockLimits.Cells} is the most.");
            return [];
        }

        var sizes = parts.Select(part => reader.Size(field, part, what)).ToList();
        return reader.IsGood ? sizes : [];
    }

    private List<BlockFabric> Fabrics()
    {
        var fabrics = new List<BlockFabric>();
        foreach (var line in (form.Fabrics ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var parts = line.Split([' ', ':', ','], 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            var letter = parts[0].ToUpperInvariant();
            if (letter.Length != 1 || letter[0] is < 'A' or > 'Z')
            {
                reader.Wrong(nameof(GridForm.Fabrics), $"“{line}” does not begin with a letter: write one fabric a line, such as A background.");
                continue;
            }

            fabrics.Add(new BlockFabric(letter, parts.Length > 1 ? parts[1] : ""));
        }

        if (fabrics.Count == 0 && reader.IsGood)
        {
            reader.Wrong(nameof(GridForm.Fabrics), "Fabrics are missing: write one a line, such as A background.");
        }

        return fabrics;
    }

    private Unit? Unit(CellForm cell, int index)
    {
        if (string.IsNullOrEmpty(cell.Kind))
        {
            return null;
        }

        var field = $"Cells[{index.ToString(CultureInfo.InvariantCulture)}]";
        if (KindWords.Read(cell.Kind) is not { } kind)
        {
            reader.Wrong($"{field}.Kind", "Choose what stands in this cell from the list.");
            return null;
        }

        var (row, column) = Math.DivRem(index, form.Across);
        var unit = new Unit
        {
            Row = row,
            Column = column,
            RowSpan = cell.RowSpan,
            ColumnSpan = cell.ColumnSpan,
            Kind = kind,
            Turn = cell.Turn,
            Corner = kind == UnitKind.FlippedCorners ? reader.Size($"{field}.Corner", cell.Corner, "The corner’s finished size") : null,
        };
        return kind == UnitKind.Checkerboard
            ? unit with { Patches = [.. (cell.Fabrics ?? "").Split('/').Select(part => Letters(part).Select(letter => letter ?? "").ToList())] }
            : unit with { Fabrics = Letters(cell.Fabrics) };
    }

    private static List<string?> Letters(string? text) =>
        [.. (text ?? "").ToUpperInvariant().Where(letter => !char.IsWhiteSpace(letter) && letter != ',').Select(letter => letter == '-' ? null : letter.ToString())];

    // units[3].turn is told at the cell where that unit stands.
    private string FieldOf(Problem problem, List<Unit> units)
    {
        if (!problem.Field.StartsWith("units[", StringComparison.Ordinal))
        {
            return "";
        }

        var digits = problem.Field.AsSpan(6, problem.Field.IndexOf(']', StringComparison.Ordinal) - 6);
        return int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var index) && index < units.Count
            ? $"Cells[{((units[index].Row * form.Across) + units[index].Column).ToString(CultureInfo.InvariantCulture)}].Fabrics"
            : "";
    }
}
