using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The floor as a length.</summary>
internal static class Floor
{
    /// <summary>Doubles carry about 15 digits; this much is taken off a bound before it is trusted.</summary>
    private const double Doubt = 1e-7;

    /// <summary>
    /// Every strip's height is a sum of sizes, so no plan's length lies between two multiples of their common measure: the
    /// bound is rounded up to the next.
    /// </summary>
    public static Length Of(CuttingModel model, Relaxation relaxation)
    {
        if (model.Grounds.Any(ground => !ground.IsBolt))
        {
            return Length.Zero;
        }

        var ticks = (long)Math.Ceiling(relaxation.Bound * (1 - Doubt) * Length.TicksPerInch);
        return Length.FromTicks(Math.Max(0, ticks)).RoundUpTo(Length.FromTicks(Measure(relaxation)));
    }

    /// <summary>The common measure of all heights, in ticks.</summary>
    public static long Measure(Relaxation relaxation) =>
        relaxation.Tables.SelectMany(table => table.Facings).Select(facing => facing.Height).Aggregate(0L, GreatestCommonDivisor);

    private static long GreatestCommonDivisor(long one, long other)
    {
        while (other != 0)
        {
            (one, other) = (other, one % other);
        }

        return one;
    }
}
