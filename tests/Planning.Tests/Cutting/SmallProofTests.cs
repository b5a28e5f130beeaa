using KittingBee.Planning.Cutting;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>The integer program over all strips worth cutting, where tables of portions have no work allowed: against every plan there is.</summary>
public sealed class SmallProofTests
{
    private const int Cases = 120;

    [Theory]
    [InlineData(CuttingObjective.LeastLength)]
    [InlineData(CuttingObjective.LeastWork)]
    public void Settle_TinyBoltWithoutTables_FindsTheLeastThereIs(CuttingObjective objective)
    {
        var (failures, bettered) = (new List<string>(), 0);
        for (var seed = 2001; seed <= 2000 + Cases; seed++)
        {
            var tiny = TinyCase.From(seed);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 2), [])) with { TimeAllowance = TimeSpan.Zero };
            var model = CuttingModel.From(request);
            GroundTables[] tables = [.. model.Grounds.Select(ground => GroundTables.For(model, ground))];
            var relaxation = Relaxation.Solve(model, tables, SheetCost.ByGround(model), CancellationToken.None);

            // A piece to a strip: as bad a plan as there is.
            var known = Enumerable.Range(0, model.Sizes.Count)
                .Select(size => new LayoutUse(FirstLayouts.On(tables[0], 0, 0).First(layout => layout.Yield[size] > 0), model.Sizes[size].Demand)).ToList();
            if (SmallProof.Settle(model, relaxation, known, objective, CancellationToken.None) is not { } settled)
            {
                failures.Add($"Case {seed} is not settled.");
                continue;
            }

            var plan = Checked(model, tables, settled.Plan);
            var least = In(tiny.Search.LeastLengths(tiny.Across, lengthwise: false)[tiny.Search.All]);
            bettered += plan.Length.Ticks < known.Sum(use => use.Layout.Height * use.Times) ? 1 : 0;
            if (objective == CuttingObjective.LeastLength ? (plan.Length, settled.Floor) != (least, least) : (plan.Buy.Length, Buying.BoltLength(request.Stock, settled.Floor)) != (Buying.BoltLength(request.Stock, least), plan.Buy.Length))
            {
                failures.Add($"Case {seed}: {plan.Length} and floor {settled.Floor} instead of {least}.");
            }
        }

        Assert.Empty(failures);
        Assert.True(bettered > Cases / 2, $"Only {bettered} plans were bettered.");
    }
}
