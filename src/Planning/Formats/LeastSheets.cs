using Google.OrTools.Sat;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>How few sheets of one size hold some pieces, and how they are cut.</summary>
/// <param name="Count">Sheets.</param>
/// <param name="IsLeast">True when no smaller number is possible.</param>
/// <param name="Recipes">The sheets, each piece in its place; nothing is cut beyond the need.</param>
internal sealed record SheetsNeeded(int Count, bool IsLeast, IReadOnlyList<SheetRecipe> Recipes);

/// <summary>
/// Finds the least number of sheets: all largest sets of pieces that one sheet holds, then the fewest sets that make up the
/// need, by integer programming with a fixed seed and limits of work.
/// </summary>
internal static class LeastSheets
{
    private const int MostStates = 20_000;
    private const int MostSizes = 12;

    /// <summary>Every piece must fit the sheet alone.</summary>
    public static SheetsNeeded For(string name, Length width, Length length, IReadOnlyList<CutPiece> pieces, bool directional, Length longestStrip)
    {
        var recipes = new List<SheetRecipe>();
        var proved = true;
        foreach (var first in Enumerable.Range(0, pieces.Count).Where(index => index % MostSizes == 0))
        {
            var part = pieces.Skip(first).Take(MostSizes).ToList();
            var (found, isLeast) = Part(name, width, length, part, directional, longestStrip);
            recipes.AddRange(found.Select(recipe => Shifted(recipe, first)));
            proved &= isLeast && part.Count == pieces.Count;
        }

        var count = recipes.Sum(recipe => recipe.Repeat);
        return new(count, proved || count == Floor(width, length, pieces, directional, longestStrip), recipes);
    }

    private static (IReadOnlyList<SheetRecipe> Recipes, bool IsLeast) Part(
        string name, Length width, Length length, List<CutPiece> pieces, bool directional, Length longestStrip)
    {
        var caps = pieces.Select(piece => MostByArea(width, length, piece, piece.Count)).ToArray();
        var complete = true;
        while (StateSpace.CountFor(caps) > MostStates)
        {
            // Fewer of the most frequent size on one sheet: still a plan, no longer a proof.
            var largest = Array.IndexOf(caps, caps.Max());
            caps[largest] = (caps[largest] + 1) / 2;
            complete = false;
        }

        var space = new StateSpace(caps);
        SheetTable[] tables =
        [
            new(pieces, space, width, length, false, directional, longestStrip),
            new(pieces, space, width, length, true, directional, longestStrip),
        ];
        bool Holds(int state) => tables[0].Holds(state) || tables[1].Holds(state);
        var sets = Enumerable.Range(1, space.Count - 1).Where(state => Holds(state) && space.IsLargest(state, Holds)).ToList();
        var (uses, optimal) = Fewest(sets.ConvertAll(space.Counts), [.. pieces.Select(piece => piece.Count)]);
        complete &= optimal && tables.All(table => table.IsComplete);

        var wanted = pieces.Select(piece => piece.Count).ToArray();
        var cut = new List<int>();
        foreach (var state in sets.SelectMany((state, index) => Enumerable.Repeat(state, uses[index])))
        {
            var counts = space.Counts(state).Select((count, size) => Math.Min(count, wanted[size])).ToArray();
            wanted = [.. wanted.Select((count, size) => count - counts[size])];
            cut.Add(space.Of(counts));
        }

        var recipes = cut.Where(state => state > 0).GroupBy(state => state).Select(group =>
        {
            var table = tables.First(table => table.Holds(group.Key));
            return new SheetRecipe(0, name, group.Count(), table.Lengthwise, Merged(table.Layout(group.Key)));
        });
        return ([.. recipes], complete);
    }

    /// <summary>How often each set is taken so that the need is met with the fewest sets.</summary>
    private static (int[] Uses, bool IsLeast) Fewest(List<int[]> sets, int[] need)
    {
        var model = new CpModel();
        var uses = sets.ConvertAll(set => model.NewIntVar(0, need.Max(), ""));
        for (var size = 0; size < need.Length; size++)
        {
            model.Add(LinearExpr.WeightedSum(uses, sets.ConvertAll(set => (long)set[size])) >= need[size]);
        }

        model.Minimize(LinearExpr.Sum(uses));
        var solver = new CpSolver { StringParameters = "num_workers:1,random_seed:1,max_deterministic_time:1" };
        var status = solver.Solve(model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? ([.. uses.Select(use => (int)solver.Value(use))], status == CpSolverStatus.Optimal)
            : (Greedy(sets, need), false);
    }

    private static int[] Greedy(List<int[]> sets, int[] need)
    {
        var (uses, left) = (new int[sets.Count], need.ToArray());
        while (left.Any(count => count > 0))
        {
            var best = Enumerable.Range(0, sets.Count).MaxBy(index => sets[index].Select((count, size) => Math.Min(count, left[size])).Sum());
            uses[best]++;
            left = [.. left.Select((count, size) => Math.Max(0, count - sets[best][size]))];
        }

        return uses;
    }

    /// <summary>A number of sheets under which nothing can go: by area, and by each size on its own.</summary>
    private static long Floor(Length width, Length length, IReadOnlyList<CutPiece> pieces, bool directional, Length longestStrip)
    {
        var area = (Int128)width.Ticks * length.Ticks;
        var taken = pieces.Aggregate(Int128.Zero, (sum, piece) => sum + ((Int128)piece.Width.Ticks * piece.Height.Ticks * piece.Count));
        var floor = (long)((taken + area - 1) / area);
        foreach (var piece in pieces)
        {
            var cap = MostByArea(width, length, piece, MostStates - 1);
            var space = new StateSpace([cap]);
            SheetTable[] tables =
            [
                new([piece], space, width, length, false, directional, longestStrip),
                new([piece], space, width, length, true, directional, longestStrip),
            ];
            if (tables.All(table => table.IsComplete))
            {
                var most = Enumerable.Range(1, cap).Last(count => tables.Any(table => table.Holds(count)));
                floor = Math.Max(floor, (piece.Count + most - 1) / most);
            }
        }

        return floor;
    }

    private static int MostByArea(Length width, Length length, CutPiece piece, int most) =>
        (int)Int128.Min(most, (Int128)width.Ticks * length.Ticks / ((Int128)piece.Width.Ticks * piece.Height.Ticks));

    private static List<Strip> Merged(IReadOnlyList<Strip> strips) =>
    [
        .. strips.GroupBy(strip => (strip.Height, string.Join(' ', strip.Columns.Select(column => $"{column.Repeat}({string.Join('+', column.Pieces.Select(piece => $"{piece.Piece}×{piece.Count}"))})"))))
            .Select(group => group.First() with { Repeat = group.Count() })
            .OrderByDescending(strip => strip.Height),
    ];

    private static SheetRecipe Shifted(SheetRecipe recipe, int by) => by == 0 ? recipe : recipe with
    {
        Strips =
        [
            .. recipe.Strips.Select(strip => strip with
            {
                Columns = [.. strip.Columns.Select(column => column with { Pieces = [.. column.Pieces.Select(piece => piece with { Piece = piece.Piece + by })] })],
            }),
        ],
    };
}
