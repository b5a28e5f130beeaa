using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>The checks of units that have parts of their own: corners, bars, patches.</summary>
internal sealed partial class UnitChecks
{
    private void CheckCorners(Length width, Length height)
    {
        if (unit.Fabrics.Count != 5)
        {
            problems.Add(new(Field + ".fabrics", $"{Name} has {unit.Fabrics.Count} fabrics; it needs five: the base and four corners from upper left clockwise, with null where a corner is left alone."));
            return;
        }

        CheckLetter(unit.Fabrics[0], Field + ".fabrics[0]");
        for (var place = 1; place < 5; place++)
        {
            if (unit.Fabrics[place] is { } letter)
            {
                CheckLetter(letter, $"{Field}.fabrics[{place}]");
            }
        }

        if (unit.Fabrics.Skip(1).All(letter => letter is null))
        {
            problems.Add(new(Field + ".fabrics", $"{Name} has no corner to flip. Give at least one corner a fabric or make it a plain patch."));
        }

        if (unit.Corner is not { IsPositive: true } corner)
        {
            problems.Add(new(Field + ".corner", $"{Name} lacks the finished size of its corners. Give \"corner\" above 0."));
            return;
        }

        var most = LargestCorner(width, height);
        if (corner > most)
        {
            problems.Add(new(Field + ".corner", $"{Name} has corners of {Sizes.Text(corner)}; on {Sizes.Text(width)} by {Sizes.Text(height)} they may be at most {Sizes.Text(most)}. Make them smaller."));
        }
    }

    private Length LargestCorner(Length width, Length height)
    {
        var (across, down) = unit.Turn % 180 == 0 ? (width, height) : (height, width);
        bool Flipped(int place) => unit.Fabrics[place] is not null;
        var most = Length.Min(across, down);
        if ((Flipped(1) && Flipped(2)) || (Flipped(3) && Flipped(4)))
        {
            most = Length.Min(most, across.DivideRoundingDown(2));
        }

        if ((Flipped(2) && Flipped(3)) || (Flipped(4) && Flipped(1)))
        {
            most = Length.Min(most, down.DivideRoundingDown(2));
        }

        return most;
    }

    /// <summary>The block whose upper left half is pieced: good in itself, and cut by its diagonal only through plain squares.</summary>
    private void CheckHalf(Length width, Length height)
    {
        var before = problems.Count;
        CheckInner(width, height);
        if (problems.Count > before || unit.Inner is not { } inner || width != height)
        {
            return;
        }

        foreach (var (index, part) in inner.Units.Index())
        {
            var place = PiecedHalf.Place(inner, part);
            var field = $"{Field}.inner.units[{index}]";
            if (place == PlaceInHalf.Across || (place == PlaceInHalf.OnDiagonal && part.Kind != UnitKind.Plain))
            {
                problems.Add(new(field, $"{Name}: in its block, {BlockChecks.InSentence(part, index)} lies across the diagonal from lower left to upper right. Only plain squares with their own corners on it may; put such squares there."));
            }
            else if (place == PlaceInHalf.Above && part.Kind is UnitKind.Block or UnitKind.PiecedTriangle or UnitKind.Template)
            {
                problems.Add(new(field, $"{Name}: a pieced half holds no {UnitKinds.InWords(part.Kind, 2)}. Draw its block with simpler units."));
            }
        }
    }

    private void CheckRails(Length across)
    {
        if (unit.Fabrics.Count is < 2 or > BlockLimits.Cells)
        {
            problems.Add(new(Field + ".fabrics", $"{Name} has {unit.Fabrics.Count} fabrics; it needs 2 to {BlockLimits.Cells}, one for each bar."));
            return;
        }

        for (var place = 0; place < unit.Fabrics.Count; place++)
        {
            CheckLetter(unit.Fabrics[place], $"{Field}.fabrics[{place}]");
        }

        if (unit.Widths is not { } widths)
        {
            return;
        }

        if (widths.Count != unit.Fabrics.Count)
        {
            problems.Add(new(Field + ".widths", $"{Name} has {widths.Count} widths for {unit.Fabrics.Count} fabrics. Give one width for each bar."));
        }
        else if (widths.Any(width => !width.IsPositive || width > BlockLimits.Side))
        {
            problems.Add(new(Field + ".widths", $"{Name} has a bar without width. Every finished width must be above 0."));
        }
        else if (PlacedBlock.Total(widths) is var total && total != across)
        {
            problems.Add(new(Field + ".widths", $"{Name} has bars that come to {Sizes.Text(total)}; the cell takes {Sizes.Text(across)}. Change the widths or the cell so that they agree."));
        }
    }

    private void CheckPatches()
    {
        if (unit.Patches is not { Count: > 0 } patches || patches.Any(row => row.Count == 0))
        {
            problems.Add(new(Field + ".patches", $"{Name} has no patches. Give rows of letters, such as [[\"A\",\"B\"],[\"B\",\"A\"]]."));
            return;
        }

        if (patches.Count > BlockLimits.Cells || patches[0].Count > BlockLimits.Cells)
        {
            problems.Add(new(Field + ".patches", $"{Name} has {patches.Count} rows of {patches[0].Count} patches; the most is {BlockLimits.Cells} each way."));
            return;
        }

        for (var row = 0; row < patches.Count; row++)
        {
            if (patches[row].Count != patches[0].Count)
            {
                problems.Add(new($"{Field}.patches[{row}]", $"{Name} has {patches[0].Count} patches in its first row and {patches[row].Count} in row {row + 1} of it. Make the rows equal."));
                return;
            }

            for (var column = 0; column < patches[row].Count; column++)
            {
                CheckLetter(patches[row][column], $"{Field}.patches[{row}][{column}]");
            }
        }
    }
}
