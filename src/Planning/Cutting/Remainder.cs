using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>What is still wanted, and what cloth there still is.</summary>
internal sealed class Remainder
{
    private readonly CuttingModel _model;

    public Remainder(CuttingModel model)
    {
        _model = model;
        Need = [.. model.Sizes.Select(size => size.Demand)];
        Stock = [.. model.Grounds.Select(StockOf)];
    }

    private Remainder(Remainder other)
    {
        _model = other._model;
        Need = [.. other.Need];
        Stock = [.. other.Stock];
    }

    /// <summary>Pieces by size; surplus makes it go below zero.</summary>
    public int[] Need { get; }

    /// <summary>Ticks of bolt, or sheets, by ground; both ways of cutting a sheet share one number.</summary>
    public long[] Stock { get; }

    public bool IsMet => Array.TrueForAll(Need, need => need <= 0);

    public Remainder Copy() => new(this);

    /// <summary>Takes a layout off so many times; gives it back where the number is below zero.</summary>
    public void Take(Layout layout, int times)
    {
        for (var size = 0; size < Need.Length; size++)
        {
            Need[size] -= layout.Yield[size] * times;
        }

        var sheet = _model.Grounds[layout.Ground].Sheet;
        for (var ground = 0; ground < Stock.Length; ground++)
        {
            if (_model.Grounds[ground].Sheet == sheet && Stock[ground] != long.MaxValue)
            {
                Stock[ground] -= times * (sheet < 0 ? layout.Height : 1);
            }
        }
    }

    /// <summary>How often a layout can be taken without cutting more of a size than is wanted, as far as the cloth lasts.</summary>
    public int TimesWithin(Layout layout)
    {
        var times = Stock[layout.Ground] / (_model.Grounds[layout.Ground].IsBolt ? layout.Height : 1);
        for (var size = 0; size < Need.Length; size++)
        {
            if (layout.Yield[size] > 0)
            {
                times = Math.Min(times, Math.Max(0, Need[size]) / layout.Yield[size]);
            }
        }

        return (int)Math.Min(times, int.MaxValue);
    }

    private long StockOf(Ground ground)
    {
        var stock = _model.Request.Stock;
        return ground.IsBolt
            ? stock.Bolt!.Available is { } available ? Buying.Leaves(stock, available).Ticks : long.MaxValue
            : stock.Sheets[ground.Sheet].Available ?? long.MaxValue;
    }
}
