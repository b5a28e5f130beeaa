using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Layouts of one ground that cut no more than is still wanted.</summary>
internal sealed class BoundedLayouts
{
    private readonly int _ground;
    private readonly GroundTables _tables;
    private readonly BoundedRecipes _recipes;
    private readonly double _sheetCost;
    private readonly List<(int Height, int Forced)> _places = [];

    public BoundedLayouts(int ground, GroundTables tables, double sheetCost)
    {
        _ground = ground;
        _tables = tables;
        _recipes = new BoundedRecipes(tables);
        _sheetCost = sheetCost;
        var heights = tables.Tables.Heights;
        for (var height = 1; height < heights.Count && heights.Sums[height] <= tables.Longest; height++)
        {
            _places.Add((height, -1));
        }

        for (var facing = 0; facing < tables.Facings.Length; facing++)
        {
            if (tables.Facings[facing].Height > tables.Longest)
            {
                _places.Add((heights.IndexAtMost(tables.Tables.Facings[facing].Height), facing));
            }
        }
    }

    /// <summary>Heights to leave out, by index; null for none.</summary>
    public bool[]? Skip { get; set; }

    public long Steps => _recipes.Steps;

    /// <summary>Layouts whose worth for each unit of cost is more than <paramref name="leastRatio"/>, in no order.</summary>
    /// <param name="worth">Worth of a piece by size.</param>
    /// <param name="need">Pieces still wanted by size.</param>
    /// <param name="leastRatio">What a layout must be worth for its cost.</param>
    /// <param name="room">Ticks of bolt that are left, where that is limited.</param>
    /// <param name="bestOnly">True to look for the best alone.</param>
    /// <param name="clock">Ends the search once something is found.</param>
    public List<Layout> Find(double[] worth, int[] need, double leastRatio, long room, bool bestOnly, CancellationToken clock)
    {
        if (!_tables.Ground.IsBolt)
        {
            return room > 0 && Sheet(worth, need, clock) is { } sheet && RatioOf(sheet, worth) > leastRatio ? [sheet] : [];
        }

        return [.. Strips(worth, need, leastRatio, room, bestOnly, clock).Select(strip => Layout.OfStrip(_ground, strip, (double)strip.Height / Length.TicksPerInch))];
    }

    /// <summary>Leaves heights out by chance.</summary>
    public void SkipSome(Random random, double keep)
    {
        Skip = new bool[_tables.Tables.Heights.Count];
        for (var height = 0; height < Skip.Length; height++)
        {
            Skip[height] = random.NextDouble() > keep;
        }
    }

    public static double RatioOf(Layout layout, double[] worth)
    {
        var sum = 0.0;
        for (var size = 0; size < worth.Length; size++)
        {
            sum += worth[size] * layout.Yield[size];
        }

        return sum / layout.Cost;
    }

    private List<Recipe> Strips(double[] worth, int[] need, double leastRatio, long room, bool bestOnly, CancellationToken clock)
    {
        _recipes.Prepare(worth, need);
        var sums = _tables.Tables.Heights.Sums;
        var places = new List<(int Height, int Forced, double Bound)>();
        foreach (var (height, forced) in _places)
        {
            if (sums[height] <= room && (Skip is null || !Skip[height]) && (forced < 0 || need[_tables.Facings[forced].Size] > 0))
            {
                var bound = _recipes.WorthBound(height, forced) * Length.TicksPerInch / sums[height];
                if (bound > leastRatio)
                {
                    places.Add((height, forced, bound));
                }
            }
        }

        var found = new List<Recipe>();
        foreach (var (height, forced, bound) in places.OrderByDescending(place => place.Bound))
        {
            if (bound <= leastRatio || (found.Count > 0 && clock.IsCancellationRequested))
            {
                break;
            }

            if (_recipes.MostWorth(height, forced) * Length.TicksPerInch / sums[height] > leastRatio
                && _recipes.Build(height, forced) is { } recipe
                && WorthOf(recipe, worth) * Length.TicksPerInch / recipe.Height is var ratio
                && ratio > leastRatio)
            {
                found.Add(recipe);
                leastRatio = bestOnly ? ratio : leastRatio;
            }
        }

        return bestOnly && found.Count > 0 ? [found[^1]] : found;
    }

    private static double WorthOf(Recipe recipe, double[] worth)
    {
        var sum = 0.0;
        for (var size = 0; size < worth.Length; size++)
        {
            sum += worth[size] * recipe.Yield[size];
        }

        return sum;
    }

    /// <summary>A sheet filled strip by strip, each the one worth most for its height among those that still go on.</summary>
    private Layout? Sheet(double[] worth, int[] need, CancellationToken clock)
    {
        var left = _tables.Ground.Along;
        var still = need.ToArray();
        var strips = new List<Recipe>();
        while (Strips(worth, still, 0, left, true, clock) is [var strip])
        {
            strips.Add(strip);
            left -= strip.Height;
            for (var size = 0; size < still.Length; size++)
            {
                still[size] -= strip.Yield[size];
            }
        }

        return strips.Count == 0 ? null : Layout.OfSheet(_ground, strips, _sheetCost);
    }
}
