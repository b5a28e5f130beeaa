using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Finds the layouts of one ground that are worth more than they cost, at given worths of the sizes.</summary>
internal sealed class LayoutPricing
{
    /// <summary>Layouts found in one go; many heights at once bring the program home in few rounds.</summary>
    private const int LeastAtOnce = 24;

    /// <summary>One more sheet is looked for in a round for so many sizes that there are.</summary>
    private const int SizesForOneMore = 80;

    private const double Tolerance = 1e-9;

    private readonly int _index;
    private readonly GroundTables _tables;
    private readonly ReachableSums _along;
    private readonly double _sheetCost;

    public LayoutPricing(CuttingModel model, int ground, GroundTables tables, double sheetCost)
    {
        _index = ground;
        _tables = tables;
        _sheetCost = sheetCost;
        var place = model.Grounds[ground];
        _along = place.IsBolt || place.Along == tables.Longest
            ? tables.Tables.Heights
            : ReachableSums.Of(tables.Tables.Facings.Select(facing => facing.Height), place.Along, int.MaxValue)!;
    }

    /// <summary>The greatest ratio of worth to cost that any layout here has; never less than what <see cref="Find"/> found.</summary>
    public double BestRatio { get; private set; }

    /// <summary>Layouts worth more than their cost and <paramref name="scarcity"/>, best first.</summary>
    /// <param name="worth">Worth of a piece by size.</param>
    /// <param name="scarcity">What the cloth is worth beyond its price.</param>
    /// <param name="clock">Ends the search early; what it found then is no bound.</param>
    public List<Layout> Find(double[] worth, double scarcity, CancellationToken clock) =>
        _tables.Ground.IsBolt ? FindStrips(worth, 1 + scarcity, clock) : FindSheets(worth, _sheetCost + scarcity, clock);

    /// <summary>An upper bound on the ratio of worth to cost that any layout can have.</summary>
    public double RatioBound(double[] worth, double scarcity)
    {
        if (_tables.IsExact)
        {
            return BestRatio;
        }

        _tables.Bounds.Fill(worth);
        var offers = Offers(_tables.Bounds, 1 + scarcity, !_tables.Ground.IsBolt, CancellationToken.None);
        return _tables.Ground.IsBolt
            ? offers.Max(offer => offer.Worth / (Inches(_tables.Bounds, offer.Height) * (1 + scarcity)))
            : Fill(_tables.Bounds, offers, ReachableSums.Of(_tables.Bounds.Facings.Select(facing => facing.Height), _tables.Ground.Along, int.MaxValue)!).Worths[^1] / (_sheetCost + scarcity);
    }

    /// <summary>The sheet of greatest worth.</summary>
    public (double Worth, IReadOnlyList<Recipe> Strips) BestSheet(double[] worth, CancellationToken clock)
    {
        _tables.Tables.Fill(worth);
        var offers = Offers(_tables.Tables, 0, true, clock);
        var (worths, chosen) = Fill(_tables.Tables, offers, _along);
        return (worths[^1], [.. chosen.Select(offer => Read(offers[offer]))]);
    }

    /// <summary>The greatest worth of strips on a sheet by the ticks that they may take of it.</summary>
    public Func<long, double> BestWithin(double[] worth)
    {
        _tables.Tables.Fill(worth);
        var best = Fill(_tables.Tables, Offers(_tables.Tables, 0, true, CancellationToken.None), _along).Worths;
        return ticks => ticks < 0 ? 0 : best[_along.IndexAtMost(ticks)];
    }

    private List<Layout> FindStrips(double[] worth, double costPerInch, CancellationToken clock)
    {
        _tables.Tables.Fill(worth);
        var offers = Offers(_tables.Tables, costPerInch, false, clock);
        BestRatio = offers.Count == 0 ? 0 : offers.Max(offer => offer.Worth / (Inches(_tables.Tables, offer.Height) * costPerInch));
        return [.. offers
            .Where(offer => offer.Worth > Inches(_tables.Tables, offer.Height) * costPerInch * (1 + Tolerance))
            .OrderByDescending(offer => offer.Worth / Inches(_tables.Tables, offer.Height))
            .Take(Math.Max(LeastAtOnce, _tables.SizeCount / 3))
            .Select(offer => Read(offer))
            .Select(recipe => Layout.OfStrip(_index, recipe, (double)recipe.Height / Length.TicksPerInch))];
    }

    private List<Layout> FindSheets(double[] worth, double cost, CancellationToken clock)
    {
        var (best, strips) = BestSheet(worth, clock);
        BestRatio = best / cost;
        var found = new List<Layout>();
        var still = worth.ToArray();
        while (strips.Count > 0 && best > cost * (1 + Tolerance))
        {
            var sheet = Layout.OfSheet(_index, strips, _sheetCost);
            found.Add(sheet);
            if (found.Count > still.Length / SizesForOneMore || clock.IsCancellationRequested)
            {
                break;
            }

            // Of many sizes a sheet holds few: another one without those is asked for in the same round.
            for (var size = 0; size < still.Length; size++)
            {
                still[size] = sheet.Yield[size] > 0 ? 0 : still[size];
            }

            (best, strips) = BestSheet(still, clock);
        }

        return found;
    }

    /// <summary>For every height the worth of its best row, where a taller strip is worth more than a lower one; with rows that cannot pay left out unless <paramref name="all"/>.</summary>
    private List<StripOffer> Offers(StripTables tables, double costPerInch, bool all, CancellationToken clock)
    {
        var offers = new List<StripOffer>();
        var best = 0.0;
        for (var height = 1; height < tables.Heights.Count && tables.Heights.Sums[height] <= _tables.Longest && !clock.IsCancellationRequested; height++)
        {
            if (!all && tables.RowBound(height, _tables.Ground.Across) <= Inches(tables, height) * costPerInch)
            {
                continue;
            }

            var worth = tables.BestRow(height, _tables.Ground.Across);
            if (worth > best)
            {
                best = worth;
                offers.Add(new StripOffer(height, -1, worth));
            }
        }

        for (var facing = 0; facing < tables.Facings.Length; facing++)
        {
            if (_tables.Facings[facing].Height > _tables.Longest)
            {
                var height = tables.Heights.IndexAtMost(tables.Facings[facing].Height);
                var rest = tables.BestRow(height, _tables.Ground.Across - tables.Facings[facing].Width);
                offers.Add(new StripOffer(height, facing, rest + tables.WorthOf(facing)));
            }
        }

        return offers;
    }

    private Recipe Read(StripOffer offer)
    {
        var width = _tables.Ground.Across - (offer.Forced < 0 ? 0 : _tables.Tables.Facings[offer.Forced].Width);
        _tables.Tables.BestRow(offer.Height, width);
        return _tables.ReadRecipe(offer.Height, width, offer.Forced);
    }

    /// <summary>Strips of any heights, one above another, that fill a sheet with the greatest worth.</summary>
    private static (double[] Worths, List<int> Offers) Fill(StripTables tables, List<StripOffer> offers, ReachableSums along)
    {
        var worth = new double[along.Count];
        var choice = new int[along.Count];
        var before = new int[offers.Count][];
        for (var index = 0; index < offers.Count; index++)
        {
            before[index] = along.Before(tables.Heights.Sums[offers[index].Height]);
        }

        for (var at = 1; at < along.Count; at++)
        {
            for (var index = 0; index < offers.Count; index++)
            {
                if (before[index][at] >= 0 && worth[before[index][at]] + offers[index].Worth > worth[at])
                {
                    worth[at] = worth[before[index][at]] + offers[index].Worth;
                    choice[at] = index + 1;
                }
            }
        }

        var chosen = new List<int>();
        for (var at = along.Count - 1; choice[at] > 0; at = before[choice[at] - 1][at])
        {
            chosen.Add(choice[at] - 1);
        }

        return (worth, chosen);
    }

    private static double Inches(StripTables tables, int height) => (double)tables.Heights.Sums[height] / Length.TicksPerInch;

    /// <summary>A strip of a height, by index, with a facing that it must hold or −1, and its worth.</summary>
    private readonly record struct StripOffer(int Height, int Forced, double Worth);
}
