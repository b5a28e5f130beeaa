using Google.OrTools.Sat;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>How few sheets of one size hold some pieces, and how they are cut.</summary>
/// <param name="Count">Sheets.</param>
/// <param name="IsLeast">True when no smaller number is possible.</param>
/// <param name="Recipes">The sheets, each piece in its place.</param>
internal sealed record SheetsNeeded(int Count, bool IsLeast, IReadOnlyList<SheetRecipe> Recipes);

/// <summary>
/// Finds the least number of sheets. The cutting planner gives a good number and neat recipes; where a floor does not prove
/// that number and the kit is small, all largest sets of pieces that one sheet holds are found, and the fewest sets that make
/// up the need, which settles it.
/// </summary>
internal static class LeastSheets
{
    private const int MostStates = 5_000;
    private const int MostSizes = 12;

    /// <summary>Every piece must fit the sheet alone.</summary>
    public static SheetsNeeded For(SheetStock sheet, IReadOnlyList<CutPiece> pieces, bool directional, int layers)
    {
        var request = new CuttingRequest(new CuttingStock(null, [sheet with { Available = null, Price = 1m, PackSize = 1 }]), pieces) { Directional = directional, Layers = layers };
        var planned = CuttingPlanner.Plan(request).Plan is { } plan ? new SheetsNeeded(plan.Sheets.Sum(recipe => recipe.Repeat), false, plan.Sheets) : null;
        if (planned is not null && planned.Count == Floor(sheet, pieces, directional, request.LongestStrip))
        {
            return planned with { IsLeast = true };
        }

        var searched = Searched(sheet, pieces, directional, request.LongestStrip);
        return (planned, searched) switch
        {
            ({ } found, { } other) when found.Count <= other.Count => found with { IsLeast = other.IsLeast },
            (_, { } other) => other,
            ({ } found, null) => found,
            _ => OneEach(sheet, pieces, directional, request.LongestStrip),
        };
    }

    /// <summary>The exact search, or null where the kit is too large for it.</summary>
    internal static SheetsNeeded? Searched(SheetStock sheet, IReadOnlyList<CutPiece> pieces, bool directional, Length longestStrip)
    {
        var caps = pieces.Select(piece => MostByArea(sheet, piece, piece.Count)).ToArray();
        if (pieces.Count > MostSizes || StateSpace.CountFor(caps) > MostStates)
        {
            return null;
        }

        var space = new StateSpace(caps);
        var tables = Tables(sheet, pieces, space, directional, longestStrip);
        bool Holds(int state) => tables[0].Holds(state) || tables[1].Holds(state);
        var sets = Enumerable.Range(1, space.Count - 1).Where(state => Holds(state) && space.IsLargest(state, Holds)).ToList();
        var need = pieces.Select(piece => piece.Count).ToArray();
        if (Fewest(sets.ConvertAll(space.Counts), need) is not { } uses)
        {
            return null;
        }

        // A set may hold more than is still wanted: the sheet then gets what is wanted and no more.
        var cut = new List<int>();
        foreach (var state in sets.SelectMany((state, index) => Enumerable.Repeat(state, uses[index])))
        {
            var counts = space.Counts(state).Select((count, size) => Math.Min(count, need[size])).ToArray();
            need = [.. need.Select((count, size) => count - counts[size])];
            cut.Add(space.Of(counts));
        }

        var recipes = cut.Where(state => state > 0).GroupBy(state => state).Select(group =>
        {
            var table = tables.First(table => table.Holds(group.Key));
            return new SheetRecipe(0, sheet.Name, group.Count(), table.Lengthwise, table.Layout(group.Key));
        }).ToList();
        return new(recipes.Sum(recipe => recipe.Repeat), tables.All(table => table.IsComplete), recipes);
    }

    /// <summary>How often each set is taken so that the need is met with the fewest sets; null where the limit of work ends the search first.</summary>
    private static int[]? Fewest(List<int[]> sets, int[] need)
    {
        var model = new CpModel();
        var uses = sets.ConvertAll(_ => model.NewIntVar(0, need.Max(), ""));
        for (var size = 0; size < need.Length; size++)
        {
            model.Add(LinearExpr.WeightedSum(uses, sets.ConvertAll(set => (long)set[size])) >= need[size]);
        }

        model.Minimize(LinearExpr.Sum(uses));
        var solver = new CpSolver { StringParameters = "num_workers:1,random_seed:1,max_deterministic_time:1" };
        return solver.Solve(model) == CpSolverStatus.Optimal ? [.. uses.Select(use => (int)solver.Value(use))] : null;
    }

    /// <summary>A number of sheets under which nothing can go: by area, and by each size on its own.</summary>
    private static long Floor(SheetStock sheet, IReadOnlyList<CutPiece> pieces, bool directional, Length longestStrip)
    {
        var area = (Int128)sheet.Width.Ticks * sheet.Length.Ticks;
        var taken = pieces.Aggregate(Int128.Zero, (sum, piece) => sum + ((Int128)piece.Width.Ticks * piece.Height.Ticks * piece.Count));
        var floor = (long)((taken + area - 1) / area);
        foreach (var piece in pieces)
        {
            var space = new StateSpace([MostByArea(sheet, piece, MostStates - 1)]);
            var tables = Tables(sheet, [piece], space, directional, longestStrip);
            if (tables.All(table => table.IsComplete))
            {
                var most = Enumerable.Range(1, space.Count - 1).Last(count => tables.Any(table => table.Holds(count)));
                floor = Math.Max(floor, (piece.Count + most - 1) / most);
            }
        }

        return floor;
    }

    /// <summary>A sheet for each piece: not good, but always there.</summary>
    private static SheetsNeeded OneEach(SheetStock sheet, IReadOnlyList<CutPiece> pieces, bool directional, Length longestStrip)
    {
        var recipes = pieces.Select((piece, index) =>
        {
            var counts = pieces.Select((_, other) => other == index ? 1 : 0).ToList();
            var space = new StateSpace(counts);
            var table = Tables(sheet, pieces, space, directional, longestStrip).First(table => table.Holds(1));
            return new SheetRecipe(0, sheet.Name, piece.Count, table.Lengthwise, table.Layout(1));
        });
        return new(pieces.Sum(piece => piece.Count), false, [.. recipes]);
    }

    private static SheetTable[] Tables(SheetStock sheet, IReadOnlyList<CutPiece> pieces, StateSpace space, bool directional, Length longestStrip) =>
    [
        new(pieces, space, sheet.Width, sheet.Length, false, directional, longestStrip),
        new(pieces, space, sheet.Width, sheet.Length, true, directional, longestStrip),
    ];

    private static int MostByArea(SheetStock sheet, CutPiece piece, int most) =>
        (int)Int128.Min(most, (Int128)sheet.Width.Ticks * sheet.Length.Ticks / ((Int128)piece.Width.Ticks * piece.Height.Ticks));
}
