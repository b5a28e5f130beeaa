using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>What a sheet costs in inches of bolt, so that all stock can be weighed in one program.</summary>
internal static class SheetCost
{
    /// <summary>
    /// Cloth on the shelf costs next to nothing, but not nothing: a plan that needs less of it is the better one, and the
    /// linear program would otherwise see no difference.
    /// </summary>
    private const double ShareOfAreaOnTheShelf = 0.001;

    public static double[] ByGround(CuttingModel model) => [.. model.Grounds.Select(ground => ground.IsBolt ? 0 : Of(model, ground))];

    private static double Of(CuttingModel model, Ground ground)
    {
        var stock = model.Request.Stock;
        var sheet = stock.Sheets[ground.Sheet];
        var boltWidth = stock.Bolt is null ? Length.FromInches(40).Ticks : Buying.BoltWidth(stock).Ticks;
        var area = (double)ground.Across / Length.TicksPerInch * ground.Along / boltWidth;
        if (sheet.Price == 0)
        {
            return Math.Max(1e-6, ShareOfAreaOnTheShelf * area);
        }

        return Math.Max(1e-6, (double)sheet.Price / PerInch(stock));
    }

    /// <summary>Money for an inch of washed bolt; 1 where there is none or it has no price.</summary>
    public static double PerInch(CuttingStock stock) => stock.Bolt is { PricePerYard: > 0 } bolt
        ? (double)(bolt.PricePerYard / 36m / (1m - stock.ShrinkageAlong))
        : 1;
}
