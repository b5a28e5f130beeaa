using System.Numerics;
using System.Runtime.InteropServices;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The cheapest plan of a small demand, by looking at every way to share it out among bolt and sheets: the least that each
/// cloth takes for each portion is known from tables, and so is the price, with increments, least cut and packs as they are.
/// </summary>
internal sealed class PortionShare<T>
    where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
{
    /// <summary>Money in the program is whole numbers of these parts.</summary>
    private const decimal Parts = 10_000m;

    private readonly CuttingModel _model;
    private readonly Relaxation _relaxation;
    private readonly PortionAim _aim;
    private readonly int[] _need;
    private readonly Portions _portions;
    private readonly double[] _worth;
    private readonly List<(PortionTable<long> Cost, Func<int, IEnumerable<LayoutUse>> Read)> _cloths = [];

    public PortionShare(CuttingModel model, Relaxation relaxation, Portions portions, PortionAim aim)
    {
        (_model, _relaxation, _portions, _aim) = (model, relaxation, portions, aim);
        _need = [.. model.Sizes.Select(size => size.Demand)];
        _worth = portions.WorthOf(relaxation.Worth);
    }

    /// <summary>The shortest strips of a bolt alone for all pieces; none and settled where they are longer than is looked for; not settled where that takes too much work.</summary>
    public (IReadOnlyList<LayoutUse>? Plan, bool Settled) Shortest()
    {
        if (OnBolt(0) is not { } strips)
        {
            return (null, false);
        }

        return (strips.Lengths.Has(_portions.All) ? ReadBolt(0, strips, _portions.All) : null, true);
    }

    /// <summary>The cheapest plan on all cloths, of those the one with the least bolt; settled without a plan where there is none that is looked for; not settled where it takes too much work.</summary>
    public (IReadOnlyList<LayoutUse>? Plan, bool Settled) Cheapest()
    {
        var (stock, longest) = (_model.Request.Stock, (_aim.MostBolt / _aim.Measure) + 1);
        for (var ground = 0; ground < _model.Grounds.Count; ground++)
        {
            var (index, kind) = (ground, _model.Grounds[ground].Sheet);
            if (_model.Grounds[ground].IsBolt)
            {
                if (OnBolt(ground) is not { } strips)
                {
                    return (null, false);
                }

                _cloths.Add((Priced(strips.Lengths, length => BoltCost(stock, strips.TicksOf(length)) is { } cost ? (cost * longest) + long.CreateChecked(length) : null), portion => ReadBolt(index, strips, portion)));
            }
            else if (!_model.Grounds[ground].Lengthwise)
            {
                if (OnSheets(ground, _aim.MostSheets(kind)) is not { } sheets)
                {
                    return (null, false);
                }

                _cloths.Add((
                    Priced(sheets.Fewest, number => ToParts(Buying.SheetPrice(stock.Sheets[kind], int.CreateChecked(number))) * longest),
                    portion => sheets.Read(portion).Select(one => new LayoutUse(Layout.OfSheet(one.Ground, one.Strips, _relaxation.SheetCosts[one.Ground]), 1))));
            }
        }

        return Share();
    }

    private PortionStrips<T>? OnBolt(int ground)
    {
        var perInch = 1 + ScarcityOf(-1);
        return PortionStrips<T>.Of(_relaxation.Tables[ground], _portions, _need, _aim.Measure, _aim.MostBolt, Needs(ticks => ((double)ticks / Length.TicksPerInch * perInch) - _aim.Waste));
    }

    private SheetPortions<T>? OnSheets(int ground, int most)
    {
        var cost = _relaxation.SheetCosts[ground] + ScarcityOf(_model.Grounds[ground].Sheet);
        return SheetPortions<T>.Of(_relaxation.Tables, ground, _portions, _need, _aim.Measure, most, (portion => cost - _worth[portion] <= _aim.Waste, StripNeeds));

        StripNeeds StripNeeds(int way)
        {
            if (!_relaxation.Tables[way].IsExact)
            {
                return Needs(null);
            }

            var rest = new LayoutPricing(_model, way, _relaxation.Tables[way], cost).BestWithin(_relaxation.Worth);
            return Needs(ticks => cost - _aim.Waste - rest(_model.Grounds[way].Along - ticks));
        }
    }

    private StripNeeds Needs(Func<long, double>? ofStrip) => new(_relaxation.Worth, _worth, double.IsFinite(_aim.Waste) ? ofStrip : null);

    /// <summary>Shares the demand out among the cloths: one after the other is added to the tables, the last for the whole demand alone.</summary>
    private (IReadOnlyList<LayoutUse>? Plan, bool Settled) Share()
    {
        var sums = new List<PortionTable<long>> { _cloths[0].Cost };
        foreach (var (cost, _) in _cloths.Skip(1).SkipLast(1))
        {
            var sum = sums[^1].Copy();
            var beyond = cost.Beyond();
            for (var portion = 1; portion < _portions.Count && !_portions.Work.IsSpent; portion++)
            {
                // Whatever more is had for the same money serves as well.
                if (cost[portion] < beyond[portion])
                {
                    sum.Join(sums[^1], portion, cost[portion]);
                }
            }

            sum.Close();
            sums.Add(sum);
        }

        if (_portions.Work.IsSpent)
        {
            return (null, false);
        }

        var uses = new List<LayoutUse>();
        var rest = _portions.All;
        for (var cloth = _cloths.Count - 1; cloth >= 0; cloth--)
        {
            var (cost, before) = (_cloths[cloth].Cost, cloth == 0 ? null : sums[cloth - 1]);
            var all = rest;
            var part = before is null ? all : _portions.Within(all).MinBy(portion => cost[portion] + before[all - portion]);
            if (!cost.Has(part) || before?.Has(all - part) == false)
            {
                return (null, true);
            }

            uses.AddRange(_cloths[cloth].Read(part));
            rest -= part;
        }

        return (uses, true);
    }

    private double ScarcityOf(int sheet) => _relaxation.Scarcity.Where(one => _model.Grounds[one.Ground].Sheet == sheet).Sum(one => one.Worth);

    private static List<LayoutUse> ReadBolt(int ground, PortionStrips<T> strips, int portion) =>
        strips.Read(portion).ConvertAll(strip => new LayoutUse(Layout.OfStrip(ground, strip, (double)strip.Height / Length.TicksPerInch), 1));

    private PortionTable<long> Priced(PortionTable<T> amounts, Func<T, long?> price)
    {
        var prices = new Dictionary<T, long>();
        var table = new PortionTable<long>(_portions);
        for (var portion = 1; portion < _portions.Count; portion++)
        {
            if (amounts.Has(portion))
            {
                ref var known = ref CollectionsMarshal.GetValueRefOrAddDefault(prices, amounts[portion], out var isKnown);
                table[portion] = isKnown ? known : known = price(amounts[portion]) ?? PortionTable<long>.Never;
            }
        }

        return table;
    }

    private static long? BoltCost(CuttingStock stock, long ticks)
    {
        var bought = Buying.BoltLength(stock, Length.FromTicks(ticks));
        return bought > stock.Bolt!.Available ? null : ToParts(Buying.BoltPrice(stock, bought));
    }

    private static long ToParts(decimal money) => decimal.ToInt64(decimal.Round(money * Parts));
}
