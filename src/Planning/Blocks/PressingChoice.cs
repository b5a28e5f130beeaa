using Google.OrTools.Sat;

namespace KittingBee.Planning.Blocks;

/// <summary>A seam whose side is to be chosen.</summary>
/// <param name="IsUpright">Which way a joint between units runs; null for a seam inside a unit.</param>
/// <param name="IsOpen">Pressed open: it takes no side.</param>
/// <param name="NearIsPieced">Whether pressing a joint to its near side presses it toward a pieced unit.</param>
/// <param name="FarIsPieced">The same for its far side.</param>
/// <param name="Shared">Unit and number of the choice that a seam inside a unit follows, and whether the other way.</param>
/// <param name="Fixed">The side of a seam that can be pressed one way only.</param>
internal sealed record PressedLine(
    bool? IsUpright, bool IsOpen, bool NearIsPieced, bool FarIsPieced, (int Unit, int Choice, bool IsOpposite)? Shared, bool? Fixed)
{
    /// <summary>The side taken where all else is equal.</summary>
    public bool Prefers { get; init; }
}

/// <summary>A crossing: it nests when all near seams lie one way and all far ones the other. <c>Same</c> says whether a seam's far side lies far there.</summary>
internal sealed record NestingRule(IReadOnlyList<(int Seam, bool Same)> Near, IReadOnlyList<(int Seam, bool Same)> Far);

/// <summary>
/// Chooses the side of every seam by integer programs, each aim with the best of those before it held: most
/// crossings nested, fewest joints pressed toward pieced units, most rows pressed one way; then a choice that settles ties, so
/// that the same block always has the same plan.
/// </summary>
internal sealed class PressingChoice(IReadOnlyList<PressedLine> seams, IReadOnlyList<NestingRule> crossings, IReadOnlyList<IReadOnlyList<int>> rows)
{
    /// <summary>Work limit of each program, in the solver's own units and so the same on every machine.</summary>
    private const double WorkLimit = 5;

    /// <summary>Up to here all aims go into one program, their weights far from the largest whole number; beyond, one after the other is quicker.</summary>
    private const int FewSeams = 120;

    private readonly CpModel model = new();

    /// <summary>The far (right, down, right-hand) side of each seam or not, how many crossings nest, and whether each aim was proved.</summary>
    public (IReadOnlyList<bool> Far, int Nested, bool IsProved) Solve()
    {
        var side = Sides();
        List<ILiteral> nests = [.. crossings.Where(crossing => !crossing.Near.Concat(crossing.Far).Any(end => seams[end.Seam].IsOpen)).Select(crossing => Nests(crossing, side))];
        List<ILiteral> toward = [.. seams.Index().Where(item => !item.Item.IsOpen && item.Item.NearIsPieced != item.Item.FarIsPieced)
            .Select(item => item.Item.FarIsPieced ? side[item.Index] : side[item.Index].Not())];
        List<ILiteral> oneWay = [.. rows.Select(row => Whole(row, side))];
        List<ILiteral> usual = [.. seams.Index().Where(item => !item.Item.IsOpen && item.Item.Fixed is null).Select(item => item.Item.Prefers ? side[item.Index] : side[item.Index].Not())];

        var solver = new CpSolver { StringParameters = $"num_workers:1,random_seed:1,max_deterministic_time:{WorkLimit}" };
        List<(List<ILiteral> Aim, int Sign)> aims = [(nests, 1), (toward, -1), (oneWay, 1), (usual, 1)];
        var isProved = true;
        foreach (var step in seams.Count <= FewSeams ? [aims] : aims.Select(aim => new List<(List<ILiteral> Aim, int Sign)> { aim }))
        {
            model.Maximize(Weighed(step));
            var status = solver.Solve(model);
            if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
            {
                throw new InvalidOperationException($"A pressing plan always exists, but the solver says {status}.");
            }

            isProved &= status == CpSolverStatus.Optimal || step is [var (last, _)] && ReferenceEquals(last, usual);
            foreach (var (aim, _) in step)
            {
                model.Add(LinearExpr.Sum(aim) == aim.Count(solver.BooleanValue));
            }

            model.Model.SolutionHint = Hint(solver);
        }

        return ([.. side.Select(solver.BooleanValue)], nests.Count(solver.BooleanValue), isProved);
    }

    /// <summary>Each aim weighs more than all after it can bring together.</summary>
    private static LinearExpr Weighed(IReadOnlyList<(List<ILiteral> Aim, int Sign)> aims)
    {
        var weight = 1L;
        var parts = new List<LinearExpr>();
        foreach (var (aim, sign) in aims.Reverse())
        {
            parts.Add(LinearExpr.Sum(aim) * (sign * weight));
            weight *= aim.Count + 1;
        }

        return LinearExpr.Sum(parts);
    }

    private PartialVariableAssignment Hint(CpSolver solver)
    {
        var hint = new PartialVariableAssignment();
        hint.Vars.AddRange(Enumerable.Range(0, model.Model.Variables.Count));
        hint.Values.AddRange(solver.Response!.Solution);
        return hint;
    }

    private ILiteral[] Sides()
    {
        var shared = new Dictionary<(int, int), BoolVar>();
        return [.. seams.Select(seam =>
        {
            if (seam.Fixed is { } way)
            {
                return way ? model.TrueLiteral() : (ILiteral)model.FalseLiteral();
            }

            if (seam.Shared is not { } choice)
            {
                return model.NewBoolVar("");
            }

            if (!shared.TryGetValue((choice.Unit, choice.Choice), out var one) )
            {
                shared[(choice.Unit, choice.Choice)] = one = model.NewBoolVar("");
            }

            return choice.IsOpposite ? one.Not() : (ILiteral)one;
        })];
    }

    /// <summary>Whether a crossing nests; it may be false where it could be true, which no aim wants.</summary>
    private BoolVar Nests(NestingRule crossing, ILiteral[] side)
    {
        var nests = model.NewBoolVar("");
        ILiteral Lies((int Seam, bool Same) end) => end.Same ? side[end.Seam] : side[end.Seam].Not();
        var first = Lies(crossing.Near[0]);
        foreach (var end in crossing.Near.Skip(1).Select(Lies).Concat(crossing.Far.Select(end => Lies(end).Not())))
        {
            model.AddImplication(first, end).OnlyEnforceIf(nests);
            model.AddImplication(end, first).OnlyEnforceIf(nests);
        }

        return nests;
    }

    private BoolVar Whole(IReadOnlyList<int> row, ILiteral[] side)
    {
        var whole = model.NewBoolVar("");
        foreach (var (one, other) in row.Zip(row.Skip(1)))
        {
            model.AddImplication(side[one], side[other]).OnlyEnforceIf(whole);
            model.AddImplication(side[other], side[one]).OnlyEnforceIf(whole);
        }

        return whole;
    }
}
