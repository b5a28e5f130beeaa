using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// From cloth as bought to cloth as cut, and back: shrinkage, squaring up, shop increments, packs and money.
/// Cloth is washed first and trued after, so a bought length <c>L</c> leaves <c>L × (1 − p) − squaring up</c> to cut from,
/// and a need <c>n</c> asks for <c>(n + squaring up) ÷ (1 − p)</c>. What is left is rounded down to the tick, what is asked
/// for is rounded up, so that the washed cloth always suffices. Shares are read to ten digits, rounded up.
/// </summary>
public static class Buying
{
    /// <summary>Width of the washed bolt that strips may use; zero without a bolt.</summary>
    public static Length BoltWidth(CuttingStock stock) =>
        stock.Bolt is { } bolt ? Washed(bolt.UsableWidth, stock.ShrinkageAcross) : Length.Zero;

    /// <summary>Width of a washed and trued sheet; zero when nothing is left of it.</summary>
    public static Length SheetWidth(CuttingStock stock, SheetStock sheet) =>
        Length.Max(Length.Zero, Washed(sheet.Width, stock.ShrinkageAcross) - stock.SquaringUp);

    /// <summary>Length of a washed and trued sheet; zero when nothing is left of it.</summary>
    public static Length SheetLength(CuttingStock stock, SheetStock sheet) =>
        Length.Max(Length.Zero, Washed(sheet.Length, stock.ShrinkageAlong) - stock.SquaringUp);

    /// <summary>The least length of unwashed bolt, in any fineness, that leaves <paramref name="need"/> washed and trued; zero for no need.</summary>
    public static Length Unwashed(CuttingStock stock, Length need)
    {
        if (!need.IsPositive)
        {
            return Length.Zero;
        }

        var left = need + stock.SquaringUp;
        var length = Length.FromTicks(decimal.ToInt64(decimal.Ceiling(left.Ticks / (1m - Share(stock.ShrinkageAlong)))));

        // The division is rounded in its 28th digit; a tick more makes that safe.
        return Washed(length, stock.ShrinkageAlong) >= left ? length : length + Length.FromTicks(1);
    }

    /// <summary>
    /// The length to buy for a washed and trued <paramref name="need"/>: whole shop increments, not under the minimum cut; the
    /// end of a bolt is taken as it is, where that suffices. Zero for no need.
    /// </summary>
    public static Length BoltLength(CuttingStock stock, Length need)
    {
        if (stock.Bolt is not { } bolt || !need.IsPositive)
        {
            return Length.Zero;
        }

        var least = Unwashed(stock, need);
        var sold = Length.Max(least, bolt.Minimum).RoundUpTo(bolt.Increment);
        return bolt.Available is { } end && end < sold && end >= least ? end : sold;
    }

    /// <summary>The washed and trued length that a bought <paramref name="length"/> of bolt leaves to cut from; never under zero.</summary>
    public static Length Leaves(CuttingStock stock, Length length) =>
        Length.Max(Length.Zero, Washed(length, stock.ShrinkageAlong) - stock.SquaringUp);

    /// <summary>Price of a bought length of bolt, not rounded.</summary>
    public static decimal BoltPrice(CuttingStock stock, Length bought) =>
        stock.Bolt is { } bolt ? bought.Yards * bolt.PricePerYard : 0m;

    /// <summary>Price of so many sheets, bought in whole packs, not rounded.</summary>
    public static decimal SheetPrice(SheetStock sheet, int used)
    {
        var packs = (used + sheet.PackSize - 1L) / sheet.PackSize;
        return packs * sheet.PackSize * sheet.Price;
    }

    /// <summary>What is bought for a washed length of bolt and for the sheets that are used; money rounded to the cent, halves away from zero.</summary>
    public static Purchase For(CuttingStock stock, Length need, IReadOnlyList<SheetRecipe> sheets)
    {
        var bought = BoltLength(stock, need);
        var cost = BoltPrice(stock, bought);
        foreach (var kind in sheets.GroupBy(recipe => recipe.Sheet))
        {
            cost += SheetPrice(stock.Sheets[kind.Key], kind.Sum(recipe => recipe.Repeat));
        }

        return new Purchase(bought, decimal.Round(cost, 2, MidpointRounding.AwayFromZero));
    }

    private static Length Washed(Length length, decimal share) =>
        Length.FromTicks(decimal.ToInt64(decimal.Floor(length.Ticks * (1m - Share(share)))));

    /// <summary>A share to ten digits, rounded up: short enough for every product with a length to be exact.</summary>
    private static decimal Share(decimal share) => decimal.Ceiling(share * 10_000_000_000m) / 10_000_000_000m;
}
