using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Checks one unit against its cells: turn, fabrics, shape and the sizes that its kind takes.</summary>
internal sealed partial class UnitChecks(Block block, int index, string path, HashSet<string> letters, int depth, List<Problem> problems)
{
    private readonly Unit unit = block.Units[index];

    private string Field => $"{path}units[{index}]";

    private Sentence Name => BlockChecks.NameOf(unit, index);

    public void Check()
    {
        if (unit.Turn is not (0 or 90 or 180 or 270))
        {
            problems.Add(new(Field + ".turn", $"{Name} is turned by {unit.Turn}. Use 0, 90, 180 or 270 degrees clockwise."));
        }

        if (!IsOnGrid())
        {
            return;
        }

        var width = PlacedBlock.Total(block.Columns.Skip(unit.Column).Take(unit.ColumnSpan));
        var height = PlacedBlock.Total(block.Rows.Skip(unit.Row).Take(unit.RowSpan));
        CheckForeignFields();
        switch (unit.Kind)
        {
            case UnitKind.Plain:
                CheckFabrics("one", 1);
                break;
            case UnitKind.HalfSquareTriangle:
                CheckFabrics("two", 2);
                CheckSquare(width, height);
                break;
            case UnitKind.QuarterSquareTriangle:
                CheckFabrics("four", 4);
                CheckSquare(width, height);
                break;
            case UnitKind.FlyingGeese:
                CheckFabrics("three", 3);
                CheckGeese(width, height);
                break;
            case UnitKind.FlippedCorners:
                CheckCorners(width, height);
                break;
            case UnitKind.SquareInASquare:
                CheckFabrics("two or five", 2, 5);
                CheckSquare(width, height);
                break;
            case UnitKind.Rails:
                CheckRails(unit.Turn % 180 == 0 ? height : width);
                break;
            case UnitKind.Checkerboard:
                CheckPatches();
                break;
            case UnitKind.Block:
                CheckInner(width, height);
                break;
            case UnitKind.PiecedTriangle:
                CheckFabrics("one, that of the plain half", 1);
                CheckSquare(width, height);
                CheckHalf(width, height);
                break;
            default:
                CheckTemplate();
                break;
        }
    }

    private bool IsOnGrid() => unit.Row >= 0 && unit.Column >= 0 && unit.RowSpan >= 1 && unit.ColumnSpan >= 1
        && unit.RowSpan <= block.Rows.Count - unit.Row && unit.ColumnSpan <= block.Columns.Count - unit.Column;

    /// <summary>A field that the kind does not use is a slip: better said than passed over.</summary>
    private void CheckForeignFields()
    {
        Foreign(unit.Corner is not null, UnitKind.FlippedCorners, "corner");
        Foreign(unit.Widths is not null, UnitKind.Rails, "widths");
        Foreign(unit.Patches is not null, UnitKind.Checkerboard, "patches");
        Foreign(unit.Inner is not null && unit.Kind != UnitKind.PiecedTriangle, UnitKind.Block, "inner");
        Foreign(unit.CutWidth is not null, UnitKind.Template, "cutWidth");
        Foreign(unit.CutHeight is not null, UnitKind.Template, "cutHeight");
        Foreign(unit.Count is not null, UnitKind.Template, "count");
        if (unit.Kind is UnitKind.Checkerboard or UnitKind.Block && unit.Fabrics.Count > 0)
        {
            var inner = unit.Kind == UnitKind.Block ? "\"inner\"" : "\"patches\"";
            problems.Add(new(Field + ".fabrics", $"{Name} takes no \"fabrics\". Leave it out and give {inner}."));
        }
    }

    private void Foreign(bool given, UnitKind owner, string field)
    {
        if (given && unit.Kind != owner)
        {
            problems.Add(new($"{Field}.{field}", $"{Name} has \"{field}\", which belongs to {UnitKinds.InWords(owner, 2)} only. Leave it out."));
        }
    }

    private void CheckFabrics(Sentence inWords, params ReadOnlySpan<int> counts)
    {
        if (!counts.Contains(unit.Fabrics.Count))
        {
            problems.Add(new(Field + ".fabrics", $"{Name} has {unit.Fabrics.Count} fabrics; it needs {inWords}."));
            return;
        }

        for (var place = 0; place < unit.Fabrics.Count; place++)
        {
            CheckLetter(unit.Fabrics[place], $"{Field}.fabrics[{place}]");
        }
    }

    private void CheckLetter(string? letter, string field)
    {
        if (letter is null)
        {
            problems.Add(new(field, $"{Name} lacks a fabric. Only a flipped corner may be left alone with null."));
        }
        else if (!letters.Contains(letter))
        {
            problems.Add(new(field, $"{Name} uses fabric {JsonFields.Short(letter)}, which the block does not list. List it or use one of {string.Join(", ", letters)}."));
        }
    }

    private void CheckSquare(Length width, Length height)
    {
        if (width != height)
        {
            problems.Add(new(Field, unit.ColumnSpan == 1
                ? (Sentence)$"{Name} is {Sizes.Text(width)} by {Sizes.Text(height)}; it needs a square cell. Make the column {Sizes.Text(height)} wide or choose another unit."
                : $"{Name} is {Sizes.Text(width)} by {Sizes.Text(height)}; it needs a square cell. Make the columns {Sizes.Text(height)} wide or choose another unit."));
        }
    }

    private void CheckGeese(Length width, Length height)
    {
        var upright = unit.Turn % 180 == 0;
        var (along, across) = upright ? (width, height) : (height, width);
        if (along != across * 2)
        {
            problems.Add(new(Field, upright
                ? (Sentence)$"{Name} is {Sizes.Text(width)} by {Sizes.Text(height)}; turned by {unit.Turn} it needs a cell twice as wide as high. Span another cell, turn it or choose another unit."
                : $"{Name} is {Sizes.Text(width)} by {Sizes.Text(height)}; turned by {unit.Turn} it needs a cell twice as high as wide. Span another cell, turn it or choose another unit."));
        }
    }

    private void CheckInner(Length width, Length height)
    {
        if (unit.Inner is not { } inner)
        {
            problems.Add(new(Field + ".inner", $"{Name} lacks its block. Choose one (\"inner\" in a file)."));
            return;
        }

        var before = problems.Count;
        BlockChecks.Check(inner, Field + ".inner.", depth + 1, problems);
        if (problems.Count > before)
        {
            return;
        }

        foreach (var letter in inner.Fabrics.Select(fabric => fabric.Letter).Where(letter => !letters.Contains(letter)))
        {
            problems.Add(new(Field + ".inner.fabrics", $"{Name} uses fabric {JsonFields.Short(letter)}, which the block around it does not list. List it there too."));
        }

        var innerWidth = PlacedBlock.Total(inner.Columns);
        var innerHeight = PlacedBlock.Total(inner.Rows);
        var (across, down) = unit.Turn % 180 == 0 ? (width, height) : (height, width);
        if ((Int128)innerWidth.Ticks * down.Ticks != (Int128)innerHeight.Ticks * across.Ticks)
        {
            problems.Add(new(Field + ".inner", $"{Name} is {Sizes.Text(across)} by {Sizes.Text(down)}, but its own block is {Sizes.Text(innerWidth)} by {Sizes.Text(innerHeight)}. Scaled, they must agree: change the cell or the block."));
        }
        else if (innerWidth != across && HasTemplate(inner))
        {
            problems.Add(new(Field + ".inner", $"{Name} holds a template shape, whose cut size does not scale. Draw its block at {Sizes.Text(across)} by {Sizes.Text(down)}."));
        }
    }

    private static bool HasTemplate(Block block) =>
        block.Units.Any(unit => unit.Kind == UnitKind.Template || (unit.Inner is { } inner && HasTemplate(inner)));

    private void CheckTemplate()
    {
        CheckFabrics("one", 1);
        CheckCutSide(unit.CutWidth, "cutWidth");
        CheckCutSide(unit.CutHeight, "cutHeight");
        if (unit.Count is < 1 or > BlockLimits.Copies)
        {
            problems.Add(new(Field + ".count", $"{Name} has a count of {unit.Count}; it must be 1 to {BlockLimits.Copies}."));
        }
    }

    private void CheckCutSide(Length? side, string field)
    {
        if (side is not { IsPositive: true } given || given > BlockLimits.Side)
        {
            problems.Add(new($"{Field}.{field}", $"{Name} needs \"{field}\", the cut size of its rectangle with allowances, above 0 and at most {Sizes.Text(BlockLimits.Side)}."));
        }
    }
}
