using KittingBee.Planning.Measures;
using KittingBee.Planning.Pricing;
using KittingBee.Planning.Settling;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>
/// Deals what was bought out to the classes that need it: each gets what it still needs in the order of the list, the last one
/// what is over. Where it does not reach, the last ones get less or nothing. The money goes by what each gets.
/// </summary>
public static class SharedPurchase
{
    /// <summary>Cloth by the length.</summary>
    public static IReadOnlyList<FabricPurchase> OfLength(IReadOnlyList<ShoppingPart> needing, Length length, decimal paid)
    {
        var rest = length;
        var lengths = needing.Select(part =>
        {
            var wanted = Length.Max(Length.Zero, part.Line.Length - part.Bought);
            var share = Length.Min(wanted, rest);
            rest -= share;
            return share;
        }).ToList();
        lengths[^1] += rest;
        return Dealt(needing, paid, lengths, [.. lengths.Select(_ => 0)]);
    }

    /// <summary>Precuts, whose cloth is counted as length of whole width too, so that the account of the fabric closes.</summary>
    public static IReadOnlyList<FabricPurchase> OfPrecuts(IReadOnlyList<ShoppingPart> needing, int count, PlannedFabric fabric, Length usableWidth, decimal paid)
    {
        var rest = count;
        var counts = needing.Select(part =>
        {
            var share = Math.Min(Math.Max(0, part.Line.Sheets.Sum(sheets => sheets.Bought) - part.Really.Count), rest);
            rest -= share;
            return share;
        }).ToList();
        counts[^1] += rest;
        var precut = fabric.Request.Stock.Sheets[0];
        var each = new Cloth(precut.Width, precut.Length).AcrossWholeWidth(usableWidth);
        return Dealt(needing, paid, counts.ConvertAll(share => each * share), counts);
    }

    private static List<FabricPurchase> Dealt(IReadOnlyList<ShoppingPart> needing, decimal paid, List<Length> lengths, List<int> counts)
    {
        var money = Cents.Share(paid, lengths.ConvertAll(part => part.Yards));
        return
        [
            .. needing.Select((part, index) => new FabricPurchase { ClassId = part.ClassId, FabricId = part.Line.Fabric, Length = lengths[index], Count = counts[index], Paid = money[index] })
                .Where(share => share.Length.IsPositive),
        ];
    }
}
