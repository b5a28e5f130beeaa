using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The cheapest plan of a small demand, by looking at every way to share it out among bolt and sheets: the least that each
/// cloth takes for each portion is known from tables, and so is the price, with increments, least cut and packs as they are.
/// </summary>
internal sealed class PortionPlan
{
    private const int MostPortions = 200_000;

    /// <summary>Entries of tables looked at for each second allowed.</summary>
    private const double WorkPerSecond = 1.5e8;

    /// <summary>Money in the program is whole numbers of these parts.</summary>
    private const decimal Parts = 10_000m;

    private readonly CuttingModel _model;
    private readonly Relaxation _relaxation;
    private readonly int[] _need;
    private readonly Portions _portions;
    private readonly double[] _worth;
    private readonly double _waste;
    private readonly List<(long[] Cost, Func<int, IEnumerable<LayoutUse>> Read)> _cloths = [];

    private PortionPlan(CuttingModel model, Relaxation relaxation, int[] need, Portions portions, double waste)
    {
        (_model, _relaxation, _need, _portions, _waste) = (model, relaxation, need, portions, waste);
        _worth = portions.WorthOf(relaxation.Worth);
    }

    /// <summary>
    /// The cheapest plan, of those the one with the least bolt; settled without a plan where there is none of so little
    /// waste; not settled where it takes too much work.
    /// </summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its worths and tables.</param>
    /// <param name="waste">What a plan that is looked for may cost above the bound, in inches of bolt; infinite for any plan.</param>
    /// <param name="mostSheets">By kind, the most sheets that a plan that is looked for has.</param>
    /// <param name="clock">The safety net.</param>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Find(CuttingModel model, Relaxation relaxation, double waste, Func<int, int> mostSheets, CancellationToken clock) =>
        Over(model, relaxation, waste, clock) is { } plan && plan.AddCloths(mostSheets) ? plan.Share() : (null, false);

    /// <summary>The shortest strips of a bolt alone for all pieces; none and settled where they waste more; not settled where that takes too much work.</summary>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Shortest(CuttingModel model, Relaxation relaxation, double waste, CancellationToken clock)
    {
        if (Over(model, relaxation, waste, clock) is not { } plan || plan.OnBolt(0) is not { } strips)
        {
            return (null, false);
        }

        return strips.Lengths[^1] < Portions.Never ? (ReadBolt(0, strips, strips.Lengths.Length - 1), true) : (null, true);
    }

    private static PortionPlan? Over(CuttingModel model, Relaxation relaxation, double waste, CancellationToken clock)
    {
        var need = model.Sizes.Select(size => size.Demand).ToArray();
        var work = new PortionWork((long)(WorkPerSecond * WholePlan.Effort(model.Request)), clock);
        return Portions.Of(need, MostPortions, work) is { } portions ? new PortionPlan(model, relaxation, need, portions, waste) : null;
    }

    private bool AddCloths(Func<int, int> mostSheets)
    {
        var (stock, measure, longest) = (_model.Request.Stock, Floor.Measure(_relaxation), 1L);
        for (var ground = 0; ground < _model.Grounds.Count; ground++)
        {
            var (index, kind) = (ground, _model.Grounds[ground].Sheet);
            if (_model.Grounds[ground].IsBolt)
            {
                if (OnBolt(ground) is not { } strips)
                {
                    return false;
                }

                longest = (strips.Lengths.Where(length => length < Portions.Never).Max() / measure) + 1;
                _cloths.Add((Priced(strips.Lengths, length => BoltCost(stock, length) is { } cost ? (cost * longest) + (length / measure) : null), portion => ReadBolt(index, strips, portion)));
            }
            else if (!_model.Grounds[ground].Lengthwise)
            {
                if (OnSheets(ground, mostSheets(kind)) is not { } sheets)
                {
                    return false;
                }

                _cloths.Add((
                    Priced(sheets.Fewest, number => ToParts(Buying.SheetPrice(stock.Sheets[kind], (int)number)) * longest),
                    portion => sheets.Read(portion).Select(one => new LayoutUse(Layout.OfSheet(one.Ground, one.Strips, _relaxation.SheetCosts[one.Ground]), 1))));
            }
        }

        // Sums of costs must stay under what counts as never.
        return _cloths.Sum(cloth => (double)cloth.Cost.Where(cost => cost < Portions.Never).Max()) < Portions.Never;
    }

    private PortionStrips? OnBolt(int ground)
    {
        var perInch = 1 + ScarcityOf(-1);
        return PortionStrips.Of(_relaxation.Tables[ground], _portions, _need, (portion, ticks) => ((double)ticks / Length.TicksPerInch * perInch) - _worth[portion] <= _waste);
    }

    private SheetPortions? OnSheets(int ground, int most)
    {
        var cost = _relaxation.SheetCosts[ground] + ScarcityOf(_model.Grounds[ground].Sheet);
        var rest = new Dictionary<int, Func<long, double>>();
        foreach (var way in new[] { ground, ground + 1 }.Where(way => _relaxation.Tables[way].IsExact && _waste < double.PositiveInfinity))
        {
            rest.Add(way, new LayoutPricing(_model, way, _relaxation.Tables[way], cost).BestWithin(_relaxation.Worth));
        }

        return SheetPortions.Of(_relaxation.Tables, ground, _portions, _need, most, (portion => cost - _worth[portion] <= _waste, IsUseful));

        bool IsUseful(int way, int portion, long ticks) =>
            !rest.TryGetValue(way, out var worth) || cost - _worth[portion] - worth(_model.Grounds[way].Along - ticks) <= _waste;
    }

    /// <summary>Shares the demand out among the cloths: one after the other is added to the tables, the last for the whole demand alone.</summary>
    private (IReadOnlyList<LayoutUse>? Plan, bool Settled) Share()
    {
        var sums = new List<long[]> { _cloths[0].Cost };
        foreach (var (cost, _) in _cloths.Skip(1).SkipLast(1))
        {
            var sum = sums[^1].ToArray();
            for (var portion = 1; portion < cost.Length && !_portions.Work.IsSpent; portion++)
            {
                if (cost[portion] < Portions.Never)
                {
                    _portions.Join(sum, sums[^1], portion, cost[portion], Portions.Never - 1);
                }
            }

            sums.Add(sum);
        }

        if (_portions.Work.IsSpent)
        {
            return (null, false);
        }

        var uses = new List<LayoutUse>();
        var rest = _portions.Count - 1;
        for (var cloth = _cloths.Count - 1; cloth >= 0; cloth--)
        {
            var cost = _cloths[cloth].Cost;
            var part = cloth == 0 ? rest : _portions.Within(rest).MinBy(portion => cost[portion] + sums[cloth - 1][rest - portion]);
            if (cost[part] >= Portions.Never || (cloth > 0 && sums[cloth - 1][rest - part] >= Portions.Never))
            {
                return (null, true);
            }

            uses.AddRange(_cloths[cloth].Read(part));
            rest -= part;
        }

        return (uses, true);
    }

    private double ScarcityOf(int sheet) => _relaxation.Scarcity.Where(one => _model.Grounds[one.Ground].Sheet == sheet).Sum(one => one.Worth);

    private static List<LayoutUse> ReadBolt(int ground, PortionStrips strips, int portion) =>
        strips.Read(portion).ConvertAll(strip => new LayoutUse(Layout.OfStrip(ground, strip, (double)strip.Height / Length.TicksPerInch), 1));

    private static long[] Priced(long[] amounts, Func<long, long?> price)
    {
        var prices = amounts.Where(amount => amount is > 0 and < Portions.Never).Distinct().ToDictionary(amount => amount, amount => price(amount) ?? Portions.Never);
        return [.. amounts.Select(amount => amount == 0 ? 0 : prices.GetValueOrDefault(amount, Portions.Never))];
    }

    private static long? BoltCost(CuttingStock stock, long ticks)
    {
        var bought = Buying.BoltLength(stock, Length.FromTicks(ticks));
        return bought > stock.Bolt!.Available ? null : ToParts(Buying.BoltPrice(stock, bought));
    }

    private static long ToParts(decimal money) => decimal.ToInt64(decimal.Round(money * Parts));
}
