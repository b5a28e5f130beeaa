using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Checks that a block can be drawn and cut: its fabrics, its grid, that its units cover the grid without gap or overlap,
/// and that each unit fits its cells. Never throws; each problem names the unit and the cell, counted from 1 as people do,
/// and its field counted from 0 as in the file.
/// </summary>
public static class BlockChecks
{
    private const int GapsNamed = 4;

    /// <summary>Everything wrong with the block; empty when it is good.</summary>
    public static IReadOnlyList<Problem> Check(Block block)
    {
        var problems = new List<Problem>();
        Check(block, "", 1, problems);
        if (problems.Count == 0 && PlacedBlock.Of(block).Leaves().Skip(BlockLimits.UnitsInAll).Any())
        {
            problems.Add(new("units", $"The block has more than {BlockLimits.UnitsInAll} units when its nested blocks are opened up. Use simpler nested blocks."));
        }

        return problems;
    }

    /// <summary>"Unit 3 (half-square triangle at row 1, column 2)".</summary>
    internal static Sentence NameOf(Unit unit, int index) => InSentence(unit, index).AtStart();

    /// <summary>"unit 3 (half-square triangle at row 1, column 2)".</summary>
    internal static Sentence InSentence(Unit unit, int index) => $"unit {index + 1} ({UnitKinds.InWords(unit.Kind)} at row {unit.Row + 1L}, column {unit.Column + 1L})";

    internal static void Check(Block block, string path, int depth, List<Problem> problems)
    {
        if (depth > BlockLimits.Depth)
        {
            problems.Add(new(path.TrimEnd('.'), $"Blocks are nested more than {BlockLimits.Depth} deep. Draw the innermost one with units of its own."));
            return;
        }

        CheckName(block, path, problems);

        // Units are checked against a good grid only; a missing name is no reason to wait.
        var before = problems.Count;
        CheckSides(block.Columns, path + "columns", areColumns: true, problems);
        CheckSides(block.Rows, path + "rows", areColumns: false, problems);
        var letters = CheckFabrics(block, path, problems);
        if (block.Units.Count is 0 or > BlockLimits.Units)
        {
            problems.Add(new(path + "units", block.Units.Count == 0
                ? (Sentence)"The block has no units. Put at least one unit on the grid."
                : $"The block has {block.Units.Count} units; the most is {BlockLimits.Units}."));
        }

        if (problems.Count > before)
        {
            return;
        }

        // A unit's own fault comes first: it is often why its neighbours do not fit.
        for (var index = 0; index < block.Units.Count; index++)
        {
            new UnitChecks(block, index, path, letters, depth, problems).Check();
        }

        CheckCoverage(block, path, problems);
    }

    private static void CheckName(Block block, string path, List<Problem> problems)
    {
        if (string.IsNullOrWhiteSpace(block.Name))
        {
            problems.Add(new(path + "name", "The block has no name. Give it one."));
        }
        else if (block.Name.Length > BlockLimits.NameLength)
        {
            problems.Add(new(path + "name", $"The block's name has {block.Name.Length} letters; the most is {BlockLimits.NameLength}."));
        }
    }

    private static void CheckSides(IReadOnlyList<Length> sides, string path, bool areColumns, List<Problem> problems)
    {
        if (sides.Count is 0 or > BlockLimits.Cells)
        {
            problems.Add(new(path, sides.Count == 0
                ? areColumns ? (Sentence)"The grid has no columns. Give each column's finished width." : "The grid has no rows. Give each row's finished height."
                : areColumns ? (Sentence)$"The grid has {sides.Count} columns; the most is {BlockLimits.Cells}." : $"The grid has {sides.Count} rows; the most is {BlockLimits.Cells}."));
            return;
        }

        for (var index = 0; index < sides.Count; index++)
        {
            if (!sides[index].IsPositive || sides[index] > BlockLimits.Side)
            {
                Sentence what = areColumns ? (Sentence)$"The width of column {index + 1}" : $"The height of row {index + 1}";
                problems.Add(new(
                    $"{path}[{index}]",
                    $"{what} is {Sizes.Text(sides[index])}; it must be more than 0 and at most {Sizes.Text(BlockLimits.Side)}."));
                return;
            }
        }

        var total = PlacedBlock.Total(sides);
        if (total > BlockLimits.Side)
        {
            problems.Add(new(path, areColumns
                ? (Sentence)$"The columns come to {Sizes.Text(total)} together; a block may be at most {Sizes.Text(BlockLimits.Side)}."
                : $"The rows come to {Sizes.Text(total)} together; a block may be at most {Sizes.Text(BlockLimits.Side)}."));
        }
    }

    private static HashSet<string> CheckFabrics(Block block, string path, List<Problem> problems)
    {
        var letters = new HashSet<string>(StringComparer.Ordinal);
        for (var index = 0; index < block.Fabrics.Count; index++)
        {
            var fabric = block.Fabrics[index];
            var field = $"{path}fabrics[{index}]";
            if (fabric.Letter is not [>= 'A' and <= 'Z'])
            {
                problems.Add(new(field + ".letter", $"The letter of fabric {index + 1} is \"{JsonFields.Short(fabric.Letter)}\". Use one capital letter, A to Z."));
            }
            else if (!letters.Add(fabric.Letter))
            {
                problems.Add(new(field + ".letter", $"Two fabrics have the letter {fabric.Letter}. Give each its own."));
            }

            if (fabric.Name.Length > BlockLimits.NameLength)
            {
                problems.Add(new(field + ".name", $"The name of fabric {JsonFields.Short(fabric.Letter)} has {fabric.Name.Length} letters; the most is {BlockLimits.NameLength}."));
            }
        }

        if (block.Fabrics.Count == 0)
        {
            problems.Add(new(path + "fabrics", "The block has no fabrics. List each with its letter."));
        }

        return letters;
    }

    private static void CheckCoverage(Block block, string path, List<Problem> problems)
    {
        var owner = new int?[block.Rows.Count, block.Columns.Count];
        for (var index = 0; index < block.Units.Count; index++)
        {
            var unit = block.Units[index];
            if (Outside(block, unit, NameOf(unit, index)) is { } outside)
            {
                problems.Add(new($"{path}units[{index}]", outside));
                continue;
            }

            int? overlapped = null;
            var place = (Row: 0, Column: 0);
            for (var row = unit.Row; row < unit.Row + unit.RowSpan; row++)
            {
                for (var column = unit.Column; column < unit.Column + unit.ColumnSpan; column++)
                {
                    if (owner[row, column] is { } other && overlapped is null)
                    {
                        overlapped = other;
                        place = (row, column);
                    }

                    owner[row, column] ??= index;
                }
            }

            if (overlapped is { } first)
            {
                problems.Add(new(
                    $"{path}units[{index}]",
                    $"{NameOf(unit, index)} overlaps {InSentence(block.Units[first], first)} at row {place.Row + 1}, column {place.Column + 1}. Move one of them or make it span fewer cells."));
            }
        }

        var gaps = Enumerable.Range(0, block.Rows.Count)
            .SelectMany(row => Enumerable.Range(0, block.Columns.Count).Select(column => (Row: row, Column: column)))
            .Where(cell => owner[cell.Row, cell.Column] is null)
            .ToList();
        if (gaps.Count > 0)
        {
            problems.Add(new(path + "units", Gaps(gaps)));
        }
    }

    /// <summary>All gaps in one sentence, so that they do not bury what else is wrong.</summary>
    private static Sentence Gaps(List<(int Row, int Column)> gaps)
    {
        if (gaps is [var only])
        {
            return $"Row {only.Row + 1} has a gap at column {only.Column + 1}. Put a unit there or let a neighbour span it.";
        }

        var named = Sentence.Join("; ", gaps.Take(GapsNamed).Select(gap => (Sentence)$"row {gap.Row + 1}, column {gap.Column + 1}"));
        return gaps.Count > GapsNamed
            ? (Sentence)$"The grid has {gaps.Count} gaps: {named}; and {gaps.Count - GapsNamed} more. Put a unit at each or let a neighbour span it."
            : $"The grid has {gaps.Count} gaps: {named}. Put a unit at each or let a neighbour span it.";
    }

    private static Sentence? Outside(Block block, Unit unit, Sentence name)
    {
        if (unit.Row < 0 || unit.Column < 0)
        {
            return $"{name} lies outside the grid; rows and columns count from 0 in a file. Move it onto the grid.";
        }

        if (unit.RowSpan < 1 || unit.ColumnSpan < 1)
        {
            return $"{name} spans {unit.RowSpan} rows and {unit.ColumnSpan} columns; it must span at least one of each.";
        }

        // Subtracted, not added: a span near the largest whole number must not overflow.
        if (unit.RowSpan > block.Rows.Count - unit.Row)
        {
            return $"{name} reaches below the last row, {block.Rows.Count}. Move it up or make it span fewer rows.";
        }

        return unit.ColumnSpan > block.Columns.Count - unit.Column
            ? (Sentence)$"{name} reaches past the last column, {block.Columns.Count}. Move it left or make it span fewer columns."
            : null;
    }
}
