using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Documents.Handouts;

/// <summary>"If your block measures …": what that says of each seam.</summary>
/// <param name="Measured">The block as measured.</param>
/// <param name="Off">How far off each seam is; never below zero.</param>
/// <param name="TooDeep">True where the block is too small.</param>
public sealed record BlockMeasure(Length Measured, Length Off, bool TooDeep);

/// <summary>
/// The rows of that table. They go by the seam, not by the block: each row's seam is 1/32 in (0.5 mm) further off than its
/// neighbour's, so that no two rows say the same, and the block's size follows (2·n·e for n seams).
/// </summary>
public static class BlockMeasures
{
    // More seams too deep than too shallow, since that is the commoner fault (common practice, no source).
    private static readonly int[] Steps = [-4, -3, -2, -1, 0, 1, 2];

    /// <summary>Rows for a block that should measure <paramref name="right"/>, within about 1 in of it and at least one on each side.</summary>
    public static IReadOnlyList<BlockMeasure> Of(Length right, int seams, bool metric)
    {
        var step = metric ? Length.FromMillimetres(0.5m) : Length.FromInches(0, 1, 32);
        var furthest = Length.FromInches(1);
        return [.. Steps
            .Where(steps => Math.Abs(steps) <= 1 || 2 * seams * Math.Abs(steps) * step <= furthest)
            .Select(steps => new BlockMeasure(SeamsAcross.Measures(right, -steps * step, seams), Math.Abs(steps) * step, steps < 0))
            .Where(row => row.Measured.IsPositive)];
    }

    /// <summary>The block's size; in sixteenths where the class reads eighths, since an odd number of seams makes sixteenths of it.</summary>
    public static string Size(this ClassHabits habits, BlockMeasure row) =>
        habits.Metric ? habits.Show(row.Measured) : LengthText.Write(row.Measured, LengthStyle.Sixteenths);

    /// <summary>What it says of each seam.</summary>
    public static string OfEachSeam(this ClassHabits habits, BlockMeasure row)
    {
        var off = habits.Metric ? row.Off.Millimetres.ToString("0.0", Language.Current.Culture) + " mm" : LengthText.Write(row.Off, LengthStyle.ThirtySeconds);
        return row.Off == Length.Zero ? Say("just right") : row.TooDeep ? Say($"{off} too deep") : Say($"{off} too shallow");
    }
}
