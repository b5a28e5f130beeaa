using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The sums of money that a purchase can come to: the shop sells lengths in increments and sheets in packs.</summary>
internal static class PurchaseSteps
{
    private const int MostLengths = 400;
    private const int MostSums = 5_000;

    /// <summary>The greatest sum of lengths and packs as they are sold that is less than a cost by a cent or more; null where there is none.</summary>
    public static decimal? NextBelow(CuttingStock stock, decimal known)
    {
        var sums = new HashSet<decimal> { 0m };
        if (stock.Bolt is not null)
        {
            sums.UnionWith((Lengths(stock, known) ?? []).Select(length => Buying.BoltPrice(stock, length)));
            if (sums.Count == 1)
            {
                return known; // Too many lengths, or none: nothing is known of the steps.
            }
        }

        foreach (var pack in stock.Sheets.Where(sheet => sheet.Price > 0).Select(sheet => sheet.Price * sheet.PackSize).Where(price => price <= known))
        {
            sums = [.. sums.SelectMany(sum => Enumerable.Range(0, (int)Math.Min(MostSums, (known - sum) / pack) + 1).Select(packs => sum + (packs * pack)))];
            if (sums.Count > MostSums)
            {
                return known;
            }
        }

        return sums.Where(sum => decimal.Round(sum, 2, MidpointRounding.AwayFromZero) < known).Select(sum => (decimal?)sum).Max();
    }

    /// <summary>The most ticks of washed bolt that are to be had for less than a length does; null where the shop's lengths are too many to tell.</summary>
    public static long? NextShorter(CuttingStock stock, Length bought) => Lengths(stock, Buying.BoltPrice(stock, bought)) is { } lengths
        ? lengths.Where(length => length < bought).Select(length => Buying.Leaves(stock, length).Ticks).LastOrDefault()
        : null;

    /// <summary>Lengths that the shop sells for no more than the cost; null where there are too many.</summary>
    public static List<Length>? Lengths(CuttingStock stock, decimal known)
    {
        var lengths = new List<Length>();
        var bolt = stock.Bolt!;
        for (var need = Length.FromTicks(1); ; need = Buying.Leaves(stock, lengths[^1]) + Length.FromTicks(1))
        {
            var bought = Buying.BoltLength(stock, need);
            if (bought > bolt.Available || Buying.BoltPrice(stock, bought) > known + 0.005m || (lengths.Count > 0 && bought <= lengths[^1]))
            {
                return lengths;
            }

            if (lengths.Count == MostLengths || bolt.PricePerYard == 0)
            {
                return null;
            }

            lengths.Add(bought);
        }
    }
}
