using Google.OrTools.Sat;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Spends the cloth up to the next shop increment on less work: among plans within the length that is bought anyway, fewest
/// strokes of the cutter, with a recipe more weighed as a part of a stroke. Strips of one size and strips of two sizes of
/// equal height stand in the choice beside the relaxed solution's and the least plan's. The same choice is searched for least
/// length first, where less cloth may yet be bought.
/// </summary>
internal static class EasyPlan
{
    private const double WorkPerSecond = 0.015;
    private const int MostOfRelaxation = 60;
    private const int Parts = 100;
    private const int PartsPerRecipe = 20;

    /// <summary>Strokes fall in steps of the number of layers; over this many repeats the steps are evened out.</summary>
    private const int ManyRepeats = 60;

    /// <summary>A plan with as few strokes as found, or null where none was found. Sheets stay as they are in <paramref name="least"/>.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Layouts to choose from.</param>
    /// <param name="least">The plan of least cost.</param>
    /// <param name="room">Washed length that is bought anyway.</param>
    /// <param name="leastLength">True to look for least length, as the start of a search for less work.</param>
    /// <param name="clock">The safety net.</param>
    public static IReadOnlyList<LayoutUse>? Find(CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> least, Length room, bool leastLength, CancellationToken clock)
    {
        var remainder = new Remainder(model);
        var sheets = least.Where(use => !model.Grounds[use.Layout.Ground].IsBolt).ToList();
        foreach (var use in sheets)
        {
            remainder.Take(use.Layout, use.Times);
        }

        if (remainder.IsMet)
        {
            return null;
        }

        var ground = Enumerable.Range(0, model.Grounds.Count).First(index => model.Grounds[index].IsBolt);
        var start = least.Where(use => use.Layout.Ground == ground).GroupBy(use => use.Layout.Key).ToDictionary(group => group.Key, group => group.Sum(use => use.Times));
        var pool = least.Where(use => use.Layout.Ground == ground).Select(use => use.Layout)
            .Concat(SimpleLayouts.On(relaxation.Tables[ground], ground))
            .Concat(relaxation.Layouts
                .Where(layout => layout.Ground == ground)
                .OrderByDescending(layout => BoundedLayouts.RatioOf(layout, relaxation.Worth))
                .Take(MostOfRelaxation))
            .Where(layout => layout.Yield.Where((count, size) => count > 0 && remainder.Need[size] > 0).Any())
            .DistinctBy(layout => layout.Key)
            .ToList();
        var found = Solve(model, relaxation.Tables[ground], pool, remainder, start, room, leastLength);
        if (leastLength)
        {
            return found is null ? null : [.. sheets, .. found];
        }

        var search = new WorkSearch(model, relaxation, ground, pool, remainder.Need, room);
        var known = least.Where(use => use.Layout.Ground == ground).ToList();
        var half = WholePlan.Effort(model.Request) / 2;
        var better = search.Better(known, half, clock);
        return [.. sheets, .. found is not null && search.Better(found, half, clock) is { } other && search.WorkOf(other) < search.WorkOf(better) ? other : better];
    }

    private static List<LayoutUse>? Solve(
        CuttingModel model, GroundTables tables, List<Layout> pool, Remainder remainder, Dictionary<string, int> start, Length room, bool leastLength)
    {
        var program = new CpModel();
        var need = remainder.Need;
        var uses = new List<IntVar>();
        var used = new List<BoolVar>();
        var perUse = new List<long>();
        var perRecipe = new List<long>();
        foreach (var layout in pool)
        {
            var most = Enumerable.Range(0, need.Length).Where(size => layout.Yield[size] > 0).Max(size => (Math.Max(0, need[size]) + layout.Yield[size] - 1) / layout.Yield[size]);
            var use = program.NewIntVar(0, most, string.Empty);
            var isUsed = program.NewBoolVar(string.Empty);
            program.Add(use <= most * isUsed);
            program.AddHint(use, start.GetValueOrDefault(layout.Key));
            program.AddHint(isUsed, start.ContainsKey(layout.Key) ? 1 : 0);
            var strip = SimpleLayouts.Write(layout.Strips[0], tables, model);
            var even = Parts * Strokes.OfBoltStrip(strip with { Repeat = ManyRepeats }, model.Request.Layers) / ManyRepeats;
            uses.Add(use);
            used.Add(isUsed);
            perUse.Add(even);
            perRecipe.Add(Math.Max(0, (Parts * Strokes.OfBoltStrip(strip, model.Request.Layers)) - even) + PartsPerRecipe);
        }

        for (var size = 0; size < need.Length; size++)
        {
            if (need[size] > 0)
            {
                var which = Enumerable.Range(0, pool.Count).Where(index => pool[index].Yield[size] > 0).ToList();
                program.Add(LinearExpr.WeightedSum(which.Select(index => uses[index]), which.Select(index => (long)pool[index].Yield[size])) >= need[size]);
            }
        }

        program.Add(LinearExpr.WeightedSum(uses, pool.Select(layout => layout.Height)) <= room.Ticks);
        program.Minimize(leastLength
            ? LinearExpr.WeightedSum(uses, pool.Select(layout => layout.Height))
            : LinearExpr.WeightedSum(uses, perUse) + LinearExpr.WeightedSum(used, perRecipe));
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"num_workers:1,random_seed:1,max_deterministic_time:{WorkPerSecond * WholePlan.Effort(model.Request)}"),
        };
        return solver.Solve(program) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? [.. pool.Select((layout, index) => new LayoutUse(layout, (int)solver.Value(uses[index]))).Where(use => use.Times > 0)]
            : null;
    }
}
