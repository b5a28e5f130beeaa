using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Settling;

/// <summary>One flat piece of cloth as measured: a length of the whole width, or a remnant.</summary>
/// <param name="Width">Size across (the direction of the bolt's width), above zero.</param>
/// <param name="Length">Size along (the direction of the selvage), above zero.</param>
public sealed record Cloth(Length Width, Length Length)
{
    /// <summary>
    /// The length of whole width that has the same area: width × length ÷ usable width, rounded down to the tick. A way to
    /// count remnants in one account with lengths; it does not say that a remnant is as useful as that length.
    /// </summary>
    /// <exception cref="OverflowException">The result is longer than any length.</exception>
    public Length AcrossWholeWidth(Length usableWidth)
    {
        if (!usableWidth.IsPositive)
        {
            throw new ArgumentOutOfRangeException(nameof(usableWidth), "A usable width is longer than zero.");
        }

        return Length.FromTicks(checked((long)((Int128)Width.Ticks * Length.Ticks / usableWidth.Ticks)));
    }

    /// <summary>
    /// The cloth that a plan cuts up, as length of whole width and as bought (before washing): the bolt's strips, and of each
    /// sheet the strips that are cut from it. The rest of a sheet is left over.
    /// </summary>
    public static Length CutUpBy(CuttingRequest request, CuttingPlan plan, Length usableWidth)
    {
        var total = Buying.Unwashed(request.Stock, plan.Length);
        foreach (var recipe in plan.Sheets)
        {
            var sheet = request.Stock.Sheets[recipe.Sheet];
            var strips = recipe.Strips.Aggregate(Length.Zero, (sum, strip) => sum + (strip.Height * strip.Repeat));
            var cut = recipe.Lengthwise ? new Cloth(strips, sheet.Length) : new Cloth(sheet.Width, strips);
            total += cut.AcrossWholeWidth(usableWidth) * recipe.Repeat;
        }

        return total;
    }
}
