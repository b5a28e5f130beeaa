using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>A plan of which only the cost is asked for ends its search early; it costs what the whole search finds.</summary>
public sealed class CostOnlyTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Plan_BesideRemnants_CostsTheSameWhereOnlyTheCostIsAskedFor(int seed)
    {
        var request = BesideRemnants(seed);

        var whole = CuttingPlanner.Plan(request).Plan!;
        var cost = CuttingPlanner.Plan(request with { CostOnly = true }).Plan!;

        Assert.Equal(whole.Buy.Cost, cost.Buy.Cost);
        Assert.Empty(PlanChecker.Check(request, cost));
        // The clock of a busy machine may have cut the whole search short, which it says.
        Assert.True(cost.Status != PlanStatus.ProvedBest || whole.Status != PlanStatus.Good, "Both know the same floor.");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Plan_FromSheetsAlone_CostsTheSameWhereOnlyTheCostIsAskedFor(int seed)
    {
        var request = ClassCases.Mixed(seed, sizes: 4, kits: 12) with { Stock = new(null, [Cloth.Sheet("fat quarter", 21, 18, null, 3.5m), Cloth.Sheet("half yard", 42, 18, null, 6.3m)]), Objective = CuttingObjective.LeastWork };

        var whole = Cloth.ProvedByWork(request);
        var cost = Cloth.ProvedByWork(request with { CostOnly = true });

        Assert.Equal(whole.Buy.Cost, cost.Buy.Cost);
    }

    [Fact]
    public void Plan_ThatRemnantsAloneCanMake_BuysNothing()
    {
        var request = BesideRemnants(1) with { Pieces = [new("square", Length.FromInches(4), Length.FromInches(4), 3)], CostOnly = true };

        var plan = CuttingPlanner.Plan(request).Plan!;

        Assert.Equal((0m, Length.Zero), (plan.Buy.Cost, plan.Length));
    }

    /// <summary>Two to five sizes for 3 to 30 kits, from a bolt that shrinks and one or two kinds of remnants.</summary>
    private static CuttingRequest BesideRemnants(int seed)
    {
        var random = new Random(seed);
        var mixed = ClassCases.Mixed(seed, sizes: random.Next(2, 6), kits: random.Next(3, 31));
        var remnants = Enumerable.Range(1, random.Next(1, 3))
            .Select(number => new SheetStock($"remnant {number}", Length.FromInches(random.Next(8, 42)), Length.FromInches(random.Next(6, 30)), random.Next(1, 3), 0m));
        return mixed with
        {
            Stock = mixed.Stock with { Sheets = [.. remnants], ShrinkageAlong = random.Next(2) * 0.03m, SquaringUp = Length.FromInches(0, random.Next(3), 2) },
            Objective = CuttingObjective.LeastWork,
            TimeAllowance = TimeSpan.FromSeconds(5),
        };
    }
}
