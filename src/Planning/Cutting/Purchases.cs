using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Cloth that may be had together.</summary>
/// <param name="Bolt">Length of bolt as sold; zero for none.</param>
/// <param name="Sheets">By kind, how many.</param>
/// <param name="Cost">What it costs, not rounded.</param>
internal sealed record ClothBought(Length Bolt, int[] Sheets, decimal Cost);

/// <summary>What can be bought for a sum of money.</summary>
internal static class Purchases
{
    private const int Most = 1_000;

    /// <summary>
    /// All purchases for less than a sum, the shelf's sheets among them, of which none is part of another, cheapest first;
    /// null where they are too many to tell. What none of them holds cannot be cut for less.
    /// </summary>
    public static IReadOnlyList<ClothBought>? Largest(CuttingModel model, decimal below)
    {
        var stock = model.Request.Stock;
        var pieces = model.Sizes.Sum(size => size.Demand);
        List<Length> lengths = [Length.Zero];
        if (stock.Bolt is not null)
        {
            if (stock.Bolt.PricePerYard == 0 || PurchaseSteps.Lengths(stock, below) is not { } sold)
            {
                return null;
            }

            lengths.AddRange(sold);
        }

        var found = new List<ClothBought> { new(Length.Zero, new int[stock.Sheets.Count], 0m) };
        for (var kind = 0; kind < stock.Sheets.Count; kind++)
        {
            var sheet = stock.Sheets[kind];
            var most = Math.Min(pieces, sheet.Available ?? pieces);
            found = [.. found.SelectMany(bought => Numbers(sheet, most, below - bought.Cost).Select(number => With(bought, kind, number, sheet)))];
            if (found.Count > Most)
            {
                return null;
            }
        }

        found = [.. found.Select(bought => bought with { Bolt = lengths.LastOrDefault(length => IsLess(bought.Cost + Buying.BoltPrice(stock, length), below)) })
            .Select(bought => bought with { Cost = bought.Cost + Buying.BoltPrice(stock, bought.Bolt) })
            .Where(bought => IsLess(bought.Cost, below))];
        return [.. found.Where(bought => !found.Exists(other => other != bought && IsPart(bought, other))).OrderBy(bought => bought.Cost)];
    }

    private static IEnumerable<int> Numbers(SheetStock sheet, int most, decimal money)
    {
        if (sheet.Price == 0)
        {
            yield return most;
            yield break;
        }

        for (var number = 0; number <= most && Buying.SheetPrice(sheet, number) <= money; number = number == most ? most + 1 : Math.Min(most, number + sheet.PackSize))
        {
            yield return number;
        }
    }

    private static ClothBought With(ClothBought bought, int kind, int number, SheetStock sheet)
    {
        var sheets = bought.Sheets.ToArray();
        sheets[kind] = number;
        return new ClothBought(bought.Bolt, sheets, bought.Cost + Buying.SheetPrice(sheet, number));
    }

    private static bool IsLess(decimal cost, decimal below) => decimal.Round(cost, 2, MidpointRounding.AwayFromZero) < below;

    private static bool IsPart(ClothBought bought, ClothBought other) =>
        bought.Bolt <= other.Bolt && bought.Sheets.Zip(other.Sheets).All(pair => pair.First <= pair.Second);
}
