using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>A size that a block may measure, and what it says about the seams.</summary>
/// <param name="Measured">Edge to edge, unfinished.</param>
/// <param name="SeamError">How much too deep each seam is sewn; below zero for too shallow; rounded to the nearest tick.</param>
public sealed record MeasuredSize(Length Measured, Length SeamError);

/// <summary>
/// "If your block measures…": with n seams across, a seam that is e too deep makes the block 2·n·e smaller, so e is the missing
/// size over 2n.
/// </summary>
/// <param name="SeamsAcross">Seams crossed from the left edge to the right, in the row with the most of them.</param>
/// <param name="SeamsDown">Seams crossed from top to bottom, in the column with the most of them.</param>
/// <param name="Across">Table for the width, smallest first; empty when there is no seam.</param>
/// <param name="Down">Table for the height; empty when there is no seam.</param>
public sealed record MeasuredSizes(int SeamsAcross, int SeamsDown, IReadOnlyList<MeasuredSize> Across, IReadOnlyList<MeasuredSize> Down)
{
    private const int StepsEachWay = 4;

    /// <summary>
    /// The tables of a block, four steps of ⅛ in (3 mm) below and above its size. Throws <see cref="ArgumentException"/> on a
    /// block that has problems.
    /// </summary>
    public static MeasuredSizes For(Block block, CuttingRules rules)
    {
        if (BlockChecks.Check(block) is [var problem, ..])
        {
            throw new ArgumentException(problem.Message, nameof(block));
        }

        var placed = PlacedBlock.Of(block);
        var (across, down) = (Seams(placed), Seams(placed.Turned()));
        var both = rules.SeamAllowance * 2;
        return new(across, down, Table(placed.Width + both, across, rules), Table(placed.Height + both, down, rules));
    }

    /// <summary>How much too deep each of some seams is, when a piece measures this much in place of that.</summary>
    public static Length SeamError(Length expected, Length measured, int seams)
    {
        var missing = expected - measured;
        var twice = 2L * seams;
        return Length.FromTicks(decimal.ToInt64(decimal.Round((decimal)missing.Ticks / twice, MidpointRounding.AwayFromZero)));
    }

    private static List<MeasuredSize> Table(Length expected, int seams, CuttingRules rules)
    {
        var step = rules.Metric ? Length.FromMillimetres(3) : Length.FromInches(0, 1, 8);
        return seams == 0 ? [] :
        [
            .. Enumerable.Range(-StepsEachWay, (2 * StepsEachWay) + 1)
                .Select(steps => expected + (step * steps))
                .Where(measured => measured.IsPositive)
                .Select(measured => new MeasuredSize(measured, SeamError(expected, measured, seams))),
        ];
    }

    /// <summary>Upright seams in the row that has the most. Seams of units that are trimmed to size do not count.</summary>
    private static int Seams(PlacedBlock block) => Enumerable.Range(0, block.Rows).Max(row =>
    {
        var units = block.Units.Where(unit => unit.Row <= row && unit.Row + unit.RowSpan > row).ToList();
        return units.Count - 1 + units.Sum(unit => Inside(unit.Form));
    });

    private static int Inside(UnitForm form) => form.Kind switch
    {
        UnitKind.Rails when form.Direction == 1 => form.Widths.Count - 1,
        UnitKind.Checkerboard => form.PatchColumns - 1,
        UnitKind.Block => Seams(form.Inner!),
        _ => 0,
    };
}
