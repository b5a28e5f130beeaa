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
    private readonly GroundTables[] _tables;
    private readonly int[] _need;
    private readonly Portions _portions;
    private readonly List<(long[] Cost, Func<int, IEnumerable<LayoutUse>> Read)> _cloths = [];

    private PortionPlan(CuttingModel model, GroundTables[] tables, int[] need, Portions portions) =>
        (_model, _tables, _need, _portions) = (model, tables, need, portions);

    /// <summary>The tables' work for a request, in entries.</summary>
    public static PortionWork WorkFor(CuttingRequest request, CancellationToken clock) => new((long)(WorkPerSecond * WholePlan.Effort(request)), clock);

    /// <summary>The cheapest plan, of those the one with the least bolt; settled without a plan where there is none; not settled where it takes too much work.</summary>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Find(CuttingModel model, Relaxation relaxation, CancellationToken clock)
    {
        var need = model.Sizes.Select(size => size.Demand).ToArray();
        var work = WorkFor(model.Request, clock);
        if (Portions.Of(need, MostPortions, work) is not { } portions)
        {
            return (null, false);
        }

        var plan = new PortionPlan(model, relaxation.Tables, need, portions);
        return plan.AddCloths(relaxation) ? plan.Share() : (null, false);
    }

    /// <summary>The shortest strips of a bolt for all pieces, or null where that takes too much work.</summary>
    public static IReadOnlyList<LayoutUse>? Shortest(CuttingModel model, GroundTables bolt, CancellationToken clock)
    {
        var need = model.Sizes.Select(size => size.Demand).ToArray();
        return Portions.Of(need, MostPortions, WorkFor(model.Request, clock)) is { } portions && PortionStrips.Of(bolt, portions, need) is { } strips
            ? [.. strips.Read(portions.Count - 1).Select(strip => OfBolt(0, strip))]
            : null;
    }

    private bool AddCloths(Relaxation relaxation)
    {
        var (stock, measure, longest) = (_model.Request.Stock, Floor.Measure(relaxation), 1L);
        for (var ground = 0; ground < _model.Grounds.Count; ground++)
        {
            var (index, kind) = (ground, _model.Grounds[ground].Sheet);
            if (_model.Grounds[ground].IsBolt)
            {
                if (PortionStrips.Of(_tables[ground], _portions, _need) is not { } strips)
                {
                    return false;
                }

                longest = (strips.Lengths.Where(length => length < Portions.Never).Max() / measure) + 1;
                _cloths.Add((Priced(strips.Lengths, length => BoltCost(stock, length) is { } cost ? (cost * longest) + (length / measure) : null), portion => strips.Read(portion).Select(strip => OfBolt(index, strip))));
            }
            else if (!_model.Grounds[ground].Lengthwise)
            {
                var sheet = stock.Sheets[kind];
                if (SheetPortions.Of(_tables, ground, _portions, _need, sheet.Available) is not { } sheets)
                {
                    return false;
                }

                _cloths.Add((
                    Priced(sheets.Fewest, number => ToParts(Buying.SheetPrice(sheet, (int)number)) * longest),
                    portion => sheets.Read(portion).Select(one => new LayoutUse(Layout.OfSheet(one.Ground, one.Strips, relaxation.SheetCosts[one.Ground]), 1))));
            }
        }

        // Sums of costs must stay under what counts as never.
        return _cloths.Sum(cloth => (double)cloth.Cost.Where(cost => cost < Portions.Never).Max()) < Portions.Never;
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
        for (var cloth = _cloths.Count - 1; cloth > 0; cloth--)
        {
            var (sum, cost) = (sums[cloth - 1], _cloths[cloth].Cost);
            var part = _portions.Within(rest).MinBy(portion => cost[portion] + sum[rest - portion]);
            if (cost[part] >= Portions.Never || sum[rest - part] >= Portions.Never)
            {
                return (null, true);
            }

            uses.AddRange(_cloths[cloth].Read(part));
            rest -= part;
        }

        if (_cloths[0].Cost[rest] >= Portions.Never)
        {
            return (null, true);
        }

        uses.AddRange(_cloths[0].Read(rest));
        return (uses, true);
    }

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

    private static LayoutUse OfBolt(int ground, Recipe strip) => new(Layout.OfStrip(ground, strip, (double)strip.Height / Length.TicksPerInch), 1);

    private static long ToParts(decimal money) => decimal.ToInt64(decimal.Round(money * Parts));
}
