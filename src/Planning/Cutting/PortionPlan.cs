using System.Numerics;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Which plans of a small demand are looked for.</summary>
/// <param name="Waste">What one may cost above the bound, in inches of bolt; infinite for any plan.</param>
/// <param name="MostBolt">The most ticks of bolt that one takes.</param>
/// <param name="MostSheets">By kind, the most sheets that one has.</param>
/// <param name="Measure">Ticks that all sides are whole multiples of.</param>
internal sealed record PortionAim(double Waste, long MostBolt, Func<int, int> MostSheets, long Measure);

/// <summary>Settles small demands by tables of all their portions, in cells as narrow as the lengths allow.</summary>
internal static class PortionPlan
{
    private const int MostPortions = 1 << 22;

    /// <summary>Blocks of tables looked at for each second allowed, about half of that second's work; and for how many seconds at most.</summary>
    private const double WorkPerSecond = 2e8;
    private const double MostSeconds = 5;

    /// <summary>All portions of what is to be cut, or null where they are too many for the work that the request allows.</summary>
    public static Portions? PortionsOf(CuttingModel model, CancellationToken clock) =>
        Portions.Of([.. model.Sizes.Select(size => size.Demand)], MostPortions, new PortionWork((long)(WorkPerSecond * Math.Min(MostSeconds, model.Request.TimeAllowance.TotalSeconds)), clock));

    /// <summary>
    /// The cheapest plan, of those the one with the least bolt; settled without a plan where there is none that is looked for;
    /// not settled where it takes too much work.
    /// </summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its worths and tables.</param>
    /// <param name="portions">Of the demand.</param>
    /// <param name="waste">What a plan that is looked for may cost above the bound, in inches of bolt; infinite for any plan.</param>
    /// <param name="mostBolt">The most ticks of bolt that it takes; null where there is no such limit.</param>
    /// <param name="mostSheets">By kind, the most sheets that it has.</param>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Cheapest(
        CuttingModel model, Relaxation relaxation, Portions portions, double waste, long? mostBolt, Func<int, int> mostSheets) =>
        Settle(model, relaxation, portions, new PortionAim(waste, mostBolt ?? LongestOf(model), mostSheets, MeasureOf(model)));

    /// <summary>The shortest strips of a bolt alone for all pieces; none and settled where they waste more or are longer than is looked for; not settled where that takes too much work.</summary>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Shortest(CuttingModel model, Relaxation relaxation, Portions portions, double waste, long mostBolt) =>
        Settle(model, relaxation, portions, new PortionAim(waste, mostBolt, _ => 0, MeasureOf(model)));

    private static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Settle(CuttingModel model, Relaxation relaxation, Portions portions, PortionAim aim)
    {
        var longest = model.Grounds.Select(ground => Math.Max(ground.Across, ground.IsBolt ? aim.MostBolt : ground.Along)).Append(0).Max();
        var most = Math.Max(longest / aim.Measure, model.Sizes.Sum(size => (long)size.Demand));
        return most < PortionTable<short>.Never ? Of<short>() : most < PortionTable<int>.Never ? Of<int>() : (null, false);

        (IReadOnlyList<LayoutUse>? Plan, bool Settled) Of<T>()
            where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
        {
            var share = new PortionShare<T>(model, relaxation, portions, aim);
            return model.Grounds is [{ IsBolt: true }] ? share.Shortest() : share.Cheapest();
        }
    }

    /// <summary>A length of bolt that is always enough: each piece with its longer side along it.</summary>
    private static long LongestOf(CuttingModel model) => model.Sizes.Sum(size => size.Demand * Length.Max(size.Width, size.Height).Ticks);

    private static long MeasureOf(CuttingModel model) => model.Sizes
        .SelectMany(size => new[] { size.Width.Ticks, size.Height.Ticks })
        .Aggregate(0L, Floor.GreatestCommonDivisor);
}
