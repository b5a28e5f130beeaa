using Google.OrTools.Sat;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Settles small demands from the bolt: finds the least length there is, or proves that the plan known has it.</summary>
internal static class SmallProof
{
    /// <summary>Pieces in all; larger demands have too many strips to list.</summary>
    private const int MostPieces = 40;

    private const int MostStrips = 4_000;
    private const double Work = 0.5;
    private const double Doubt = 1e-6;

    /// <summary>
    /// A plan of which it is proved that no other is shorter, or that none of less length is to be bought, with the length that
    /// no plan is under; null where the case is too large to settle.
    /// </summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its bound and worths.</param>
    /// <param name="known">The best plan known.</param>
    /// <param name="objective">Whether the length is asked about or, for least work, what is bought.</param>
    /// <param name="clock">The safety net.</param>
    public static (IReadOnlyList<LayoutUse> Plan, Length Floor)? Settle(
        CuttingModel model, Relaxation relaxation, IReadOnlyList<LayoutUse> known, CuttingObjective objective, CancellationToken clock)
    {
        if (model.Grounds.Count != 1 || !model.Grounds[0].IsBolt)
        {
            return null;
        }

        var stock = model.Request.Stock;
        var length = LengthOf(known);
        var measure = Floor.Measure(relaxation);
        var most = objective == CuttingObjective.LeastWork && PurchaseSteps.NextShorter(stock, Buying.BoltLength(stock, Length.FromTicks(length))) is { } less
            ? less / measure * measure
            : length - measure;
        var settled = Length.FromTicks(most + measure);
        var waste = ((double)most / Length.TicksPerInch) - relaxation.Bound + Doubt;
        if (waste < 0)
        {
            return (known, settled);
        }

        if (PortionPlan.PortionsOf(model, clock) is { } portions && PortionPlan.Shortest(model, relaxation, portions, relaxation.IsSolved ? waste : double.PositiveInfinity, most) is { Settled: true, Plan: var shortest })
        {
            return shortest is not null && LengthOf(shortest) <= most ? (shortest, Length.FromTicks(LengthOf(shortest))) : (known, settled);
        }

        if (!relaxation.Tables[0].IsExact || !relaxation.IsSolved || model.Sizes.Sum(size => (long)size.Demand) > MostPieces)
        {
            return null;
        }

        var need = model.Sizes.Select(size => size.Demand).ToArray();
        return StripCensus.Take(relaxation.Tables[0], relaxation.Worth, need, ticks => ((double)ticks / Length.TicksPerInch) - waste) is { Count: <= MostStrips } strips
            ? Choose([.. strips], need, most / measure, measure, clock) is { IsProved: true } choice ? (choice.Plan ?? known, choice.Plan is null ? settled : Length.FromTicks(LengthOf(choice.Plan))) : null
            : null;
    }

    private static long LengthOf(IReadOnlyList<LayoutUse> plan) => plan.Sum(use => use.Layout.Height * use.Times);

    /// <summary>The shortest plan of these strips within so many measures; proved without one where there is none.</summary>
    private static (IReadOnlyList<LayoutUse>? Plan, bool IsProved) Choose(List<Recipe> strips, int[] need, long most, long measure, CancellationToken clock)
    {
        var program = new CpModel();
        var uses = strips.Select(strip => program.NewIntVar(0, need.Where((_, size) => strip.Yield[size] > 0).Max(), string.Empty)).ToList();
        for (var size = 0; size < need.Length; size++)
        {
            var which = Enumerable.Range(0, strips.Count).Where(index => strips[index].Yield[size] > 0).ToList();
            if (which.Count == 0)
            {
                // No better plan can cut this size.
                return (null, true);
            }

            program.Add(LinearExpr.WeightedSum(which.Select(index => uses[index]), which.Select(index => (long)strips[index].Yield[size])) >= need[size]);
        }

        var total = LinearExpr.WeightedSum(uses, strips.Select(strip => strip.Height / measure));
        program.Add(total <= most);
        program.Minimize(total);
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"num_workers:1,random_seed:1,max_deterministic_time:{Work}"),
        };
        using var alarm = clock.Register(solver.StopSearch);
        return solver.Solve(program) switch
        {
            CpSolverStatus.Infeasible => (null, true),
            CpSolverStatus.Optimal => ([.. strips.Select((strip, index) => new LayoutUse(Layout.OfStrip(0, strip, (double)strip.Height / Length.TicksPerInch), (int)solver.Value(uses[index]))).Where(use => use.Times > 0)], true),
            _ => (null, false),
        };
    }
}
