using KittingBee.Planning.Classes;
using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Settling;

/// <summary>What a kit cost, as planned and as it turned out.</summary>
/// <param name="PlannedPerKit">All planned costs ÷ kits planned, rounded up to the cent.</param>
/// <param name="PerKit">All costs as they were, without what went back to the shelf, ÷ kits handed over, rounded up to the cent; null where none was.</param>
/// <param name="PerKitWithLeftovers">The same, leftovers included; null as above.</param>
/// <param name="NotHandedOver">Kits made that nobody took.</param>
public sealed record ClassOutcome(decimal PlannedPerKit, decimal? PerKit, decimal? PerKitWithLeftovers, int NotHandedOver)
{
    /// <summary>Compares a class with its plan.</summary>
    /// <param name="plannedCost">All planned costs of the kits, fabric as planned to be bought.</param>
    /// <param name="otherCosts">Costs of the kits as they were, but for fabric.</param>
    /// <param name="fabrics">The fabrics' accounts.</param>
    /// <param name="kitsPlanned">Kits planned; at least 1.</param>
    /// <param name="kitsHandedOver">Kits handed over; at least 0.</param>
    public static ClassOutcome Of(decimal plannedCost, decimal otherCosts, IReadOnlyList<FabricAccount> fabrics, int kitsPlanned, int kitsHandedOver)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(kitsPlanned, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(kitsHandedOver);
        var had = fabrics.Sum(fabric => fabric.HadMoney) + otherCosts;
        var kept = fabrics.Sum(fabric => fabric.LeftMoney);
        return new(
            Each(plannedCost, kitsPlanned),
            kitsHandedOver == 0 ? null : Each(had - kept, kitsHandedOver),
            kitsHandedOver == 0 ? null : Each(had, kitsHandedOver),
            Math.Max(0, kitsPlanned - kitsHandedOver));
    }

    private static decimal Each(decimal money, int kits) => Cents.UpTo(money / kits, 0.01m);
}

/// <summary>How many pieces came out wrong.</summary>
/// <param name="Spoiled">Pieces reported spoiled.</param>
/// <param name="Cut">All pieces cut, spares and re-cuts included.</param>
public sealed record Spoilage(long Spoiled, long Cut)
{
    /// <summary>Share of the pieces that came out wrong, to four places; null where nothing was cut or the count cannot be.</summary>
    public decimal? Rate => Cut <= 0 || Spoiled < 0 || Spoiled > Cut ? null : decimal.Round((decimal)Spoiled / Cut, 4);

    /// <summary>The share to offer for the next class's spare pieces: the rate, at most what spares can be promised for.</summary>
    public decimal? ForNextClass => Rate is { } rate ? Math.Min(rate, SpareCount.MostMiscut) : null;

    /// <summary>Several classes together: more pieces make a better estimate.</summary>
    public static Spoilage Together(IEnumerable<Spoilage> classes) =>
        classes.Aggregate(new Spoilage(0, 0), (sum, one) => new(sum.Spoiled + one.Spoiled, sum.Cut + one.Cut));
}
