using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Whole numbers of layouts: the bulk from the relaxed solution, the remainder by search.</summary>
internal sealed class WholePlan
{
    private readonly CuttingModel _model;
    private readonly Relaxation _relaxation;
    private readonly int[] _need;
    private readonly long[] _stock;
    private readonly List<LayoutUse> _uses = [];
    private readonly BoundedRecipes[] _bounded;

    private WholePlan(CuttingModel model, Relaxation relaxation)
    {
        _model = model;
        _relaxation = relaxation;
        _need = [.. model.Sizes.Select(size => size.Demand)];
        _stock = [.. model.Grounds.Select(ground => StockOf(model, ground))];
        _bounded = [.. relaxation.Tables.Select(table => new BoundedRecipes(table))];
    }

    /// <summary>A plan, or null where the cloth did not suffice.</summary>
    public static IReadOnlyList<LayoutUse>? Find(CuttingModel model, Relaxation relaxation, CancellationToken clock)
    {
        var plan = new WholePlan(model, relaxation);
        plan.TakeBulk();
        return plan.TakeRest(clock) ? plan._uses : null;
    }

    private void TakeBulk()
    {
        for (var index = 0; index < _relaxation.Layouts.Count; index++)
        {
            var layout = _relaxation.Layouts[index];
            var times = (int)Math.Floor(_relaxation.Uses[index] + 1e-6);
            times = Enumerable.Range(0, _need.Length).Where(size => layout.Yield[size] > 0).Select(size => _need[size] / layout.Yield[size]).Append(times).Min();
            Use(layout, times);
        }
    }

    private void Use(Layout layout, int times)
    {
        if (times <= 0)
        {
            return;
        }

        _uses.Add(new LayoutUse(layout, times));
        for (var size = 0; size < _need.Length; size++)
        {
            _need[size] -= layout.Yield[size] * times;
        }

        for (var ground = 0; ground < _stock.Length; ground++)
        {
            if (_model.Grounds[ground].Sheet == _model.Grounds[layout.Ground].Sheet)
            {
                _stock[ground] -= times * (_model.Grounds[ground].IsBolt ? layout.Height : 1);
            }
        }
    }

    private bool TakeRest(CancellationToken clock)
    {
        while (_need.Any(need => need > 0))
        {
            Layout? best = null;
            var bestRatio = 0.0;
            for (var ground = 0; ground < _stock.Length; ground++)
            {
                foreach (var layout in Offers(ground))
                {
                    var ratio = Enumerable.Range(0, _need.Length).Sum(size => layout.Yield[size] * _relaxation.Worth[size]) / layout.Cost;
                    if (ratio > bestRatio)
                    {
                        (best, bestRatio) = (layout, ratio);
                    }
                }
            }

            if (best is null)
            {
                return false;
            }

            var times = Enumerable.Range(0, _need.Length).Where(size => best.Yield[size] > 0).Min(size => _need[size] / best.Yield[size]);
            Use(best, _model.Grounds[best.Ground].IsBolt ? times : 1);
        }

        return true;
    }

    private IEnumerable<Layout> Offers(int ground)
    {
        var table = _relaxation.Tables[ground];
        var heights = table.Tables.Heights;
        if (table.Ground.IsBolt)
        {
            for (var height = 1; height < heights.Count && heights.Sums[height] <= Math.Min(table.Longest, _stock[ground]); height++)
            {
                if (_bounded[ground].Build(height, _need, _relaxation.Worth) is { } recipe)
                {
                    yield return Layout.OfStrip(ground, recipe, (double)recipe.Height / Length.TicksPerInch);
                }
            }

            for (var facing = 0; facing < table.Facings.Length; facing++)
            {
                if (table.Facings[facing].Height > table.Longest && table.Facings[facing].Height <= _stock[ground] && _need[table.Facings[facing].Size] > 0
                    && _bounded[ground].Build(heights.IndexAtMost(table.Tables.Facings[facing].Height), _need, _relaxation.Worth, facing) is { } recipe)
                {
                    yield return Layout.OfStrip(ground, recipe, (double)recipe.Height / Length.TicksPerInch);
                }
            }
        }
        else if (_stock[ground] > 0 && BoundedSheet(ground) is { } sheet)
        {
            yield return sheet;
        }
    }

    private Layout? BoundedSheet(int ground)
    {
        var table = _relaxation.Tables[ground];
        var need = _need.ToArray();
        var strips = new List<Recipe>();
        var left = table.Ground.Along;
        while (true)
        {
            Recipe? best = null;
            var bestRatio = 0.0;
            for (var height = 1; height < table.Tables.Heights.Count && table.Tables.Heights.Sums[height] <= Math.Min(left, table.Longest); height++)
            {
                if (_bounded[ground].Build(height, need, _relaxation.Worth) is { } recipe)
                {
                    var ratio = Enumerable.Range(0, need.Length).Sum(size => recipe.Yield[size] * _relaxation.Worth[size]) / recipe.Height;
                    if (ratio > bestRatio)
                    {
                        (best, bestRatio) = (recipe, ratio);
                    }
                }
            }

            if (best is null)
            {
                return strips.Count == 0 ? null : Layout.OfSheet(ground, strips, _relaxation.SheetCosts[ground]);
            }

            strips.Add(best);
            left -= best.Height;
            for (var size = 0; size < need.Length; size++)
            {
                need[size] -= best.Yield[size];
            }
        }
    }

    private static long StockOf(CuttingModel model, Ground ground) => ground.IsBolt
        ? model.Request.Stock.Bolt!.Available is { } available ? Buying.Leaves(model.Request.Stock, available).Ticks : long.MaxValue
        : model.Request.Stock.Sheets[ground.Sheet].Available ?? long.MaxValue;
}
