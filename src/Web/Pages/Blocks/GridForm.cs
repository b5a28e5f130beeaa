using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>What stands in one cell of the grid, as typed.</summary>
public sealed class CellForm
{
    /// <summary>A unit kind as in JSON, or empty where a neighbour covers the cell.</summary>
    public string? Kind { get; set; }

    /// <summary>Letters in the kind's order; a hyphen where a corner is left alone; rows of a checkerboard with a slash between.</summary>
    public string? Fabrics { get; set; }

    public int Turn { get; set; }

    public int ColumnSpan { get; set; } = 1;

    public int RowSpan { get; set; } = 1;

    public string? Corner { get; set; }
}

/// <summary>A block as typed on a grid.</summary>
public sealed class GridForm
{
    public string? Name { get; set; }

    /// <summary>Finished widths with spaces or semicolons between.</summary>
    public string? Columns { get; set; }

    public string? Rows { get; set; }

    /// <summary>One a line: <c>A background</c>.</summary>
    public string? Fabrics { get; set; }

    /// <summary>Row by row, <see cref="Across"/> to a row.</summary>
    public List<CellForm> Cells { get; set; } = [];

    /// <summary>Cells to a row when the form was shown.</summary>
    public int Across { get; set; }

    public long Version { get; set; }

    /// <summary>The form a new block starts from: nine cells of the background.</summary>
    public static GridForm New(ClassHabits habits)
    {
        var size = habits.Metric ? "8 cm" : "3\"";
        return new GridForm
        {
            Columns = $"{size}; {size}; {size}",
            Rows = $"{size}; {size}; {size}",
            Fabrics = "A background\nB star",
            Across = 3,
            Cells = [.. Enumerable.Range(0, 9).Select(_ => new CellForm { Kind = "plain", Fabrics = "A" })],
        };
    }

    /// <summary>False for a block with nested blocks, templates or rails of unequal widths, which the grid has no fields for.</summary>
    public static bool CanHold(Block block) => block.Units.All(unit =>
        unit.Kind is not (UnitKind.Block or UnitKind.Template) && unit.Widths is null && block.Fabrics.All(fabric => fabric.Letter.Length == 1));

    /// <summary>A block as the form shows it.</summary>
    public static GridForm From(Block block, long version, ClassHabits habits)
    {
        var cells = Enumerable.Range(0, block.Columns.Count * block.Rows.Count).Select(_ => new CellForm { Kind = "" }).ToList();
        foreach (var unit in block.Units)
        {
            cells[(unit.Row * block.Columns.Count) + unit.Column] = new CellForm
            {
                Kind = KindWords.Write(unit.Kind),
                Fabrics = unit.Patches is { } patches
                    ? string.Join(" / ", patches.Select(row => string.Join(' ', row)))
                    : string.Join(' ', unit.Fabrics.Select(letter => letter ?? "-")),
                Turn = unit.Turn,
                ColumnSpan = unit.ColumnSpan,
                RowSpan = unit.RowSpan,
                Corner = unit.Corner is { } corner ? habits.InField(corner) : null,
            };
        }

        return new GridForm
        {
            Name = block.Name,
            Columns = string.Join("; ", block.Columns.Select(habits.InField)),
            Rows = string.Join("; ", block.Rows.Select(habits.InField)),
            Fabrics = string.Join('\n', block.Fabrics.Select(fabric => $"{fabric.Letter} {fabric.Name}".TrimEnd())),
            Across = block.Columns.Count,
            Cells = cells,
            Version = version,
        };
    }

    /// <summary>Gives the form as many cells as its sizes call for; what was typed in cells that stay is kept.</summary>
    public void Fit(int across, int down)
    {
        var old = Cells;
        var oldAcross = Math.Max(1, Across);
        Cells = [.. Enumerable.Range(0, across * down).Select(i =>
        {
            var (row, column) = Math.DivRem(i, across);
            var at = (row * oldAcross) + column;
            return column < oldAcross && at < old.Count ? old[at] : new CellForm { Kind = "plain", Fabrics = "A" };
        })];
        Across = across;
    }
}

/// <summary>Unit kinds as the form and JSON spell them.</summary>
public static class KindWords
{
    /// <summary>Kinds that the grid offers, with their names in words.</summary>
    public static IReadOnlyList<(string Word, string Name)> Offered { get; } =
    [
        ("plain", "plain"),
        ("half-square-triangle", "half-square triangle"),
        ("quarter-square-triangle", "quarter-square triangle"),
        ("flying-geese", "flying geese"),
        ("flipped-corners", "flipped corners"),
        ("square-in-a-square", "square in a square"),
        ("rails", "rails"),
        ("checkerboard", "checkerboard"),
        ("", "covered by its neighbour"),
    ];

    public static string Write(UnitKind kind) => string.Concat(kind.ToString().Select((letter, i) =>
        char.IsUpper(letter) ? (i == 0 ? "" : "-") + char.ToLowerInvariant(letter) : letter.ToString()));

    public static UnitKind? Read(string? word) => Enum.GetValues<UnitKind>().Where(kind => Write(kind) == word).Select(kind => (UnitKind?)kind).FirstOrDefault();
}
