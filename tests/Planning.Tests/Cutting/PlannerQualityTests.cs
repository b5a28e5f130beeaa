using KittingBee.Benchmarks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>How near the floor plans come over a mixed set, and how the work grows.</summary>
public sealed class PlannerQualityTests
{
    private const int Cases = 40;

    /// <summary>Further classes of the same drawing, with hardly any cloth to spare up to the next increment.</summary>
    private static readonly int[] _tight = [45, 49, 53, 78, 85, 93];

    /// <summary>The shortest plan of each class, planned once for all tests; each goes through the checker on the way.</summary>
    private static readonly Lazy<CuttingPlan[]> Shortest = new(() => [.. Enumerable.Range(0, Cases).Select(seed => ProvedByWork(ClassCases.Mixed(seed)))]);

    [Fact]
    public void Plan_MixedClasses_ComesWithinThreeThousandthsOfTheFloorAndSavesSixPercent()
    {
        decimal gaps = 0, savings = 0;
        for (var seed = 0; seed < Cases; seed++)
        {
            var request = ClassCases.Mixed(seed);
            var plan = Shortest.Value[seed];
            var handbook = OneSizePerStrip.LengthOf(OneSizePerStrip.Strips(request)!);
            Assert.True(plan.Floor <= plan.Length);
            gaps += ((decimal)plan.Length.Ticks / plan.Floor.Ticks) - 1;
            savings += 1 - ((decimal)plan.Length.Ticks / handbook.Ticks);
        }

        Assert.True(gaps / Cases <= 0.003m, $"average gap {gaps / Cases:0.00000}");
        Assert.True(savings / Cases >= 0.06m, $"average saving {savings / Cases:0.0000}");
    }

    /// <summary>
    /// Branch and cut over a pool of strips that the engine had no part in finds next to nothing better; all 40 classes, with
    /// more time, are compared by the benchmarks' "solvers".
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(18)]
    [InlineData(28)]
    [InlineData(35)]
    [InlineData(37)]
    public void Plan_MixedClass_IsWithinTwoThousandthsOfAGeneralSolversPlan(int seed)
    {
        var request = ClassCases.Mixed(seed);
        var plan = Proved(request);
        var pool = StripPool.Of(request, [], moves: 60);
        var length = (double)(plan.Length.Inches * 8);
        var strips = pool.Strips.Where(strip => pool.WasteOf(strip) <= length - pool.Floor).OrderBy(pool.WasteOf).Take(400).ToList();
        var found = PoolSolver.Solve(strips, request, [], seconds: 60, nodes: 100);
        Assert.True(pool.Floor <= length + 1e-6, $"{pool.Floor / 8} is no floor for {plan.Length}");
        Assert.True(Math.Abs((pool.Floor / 8) - (double)plan.Floor.Inches) <= 0.13, $"floors {pool.Floor / 8} and {plan.Floor}");
        Assert.True(length <= found * 1.002, $"{length / 8} against {found / 8.0}");
    }

    /// <summary>Work is counted in rounds of the linear program and steps of its tables, so that a busy machine cannot hide or fake growth.</summary>
    [Fact]
    public void Plan_TenThousandTimesTheKits_TakesNoMoreThanHalfAsMuchWorkAgain()
    {
        var few = WorkFor(10);
        var many = WorkFor(100_000);
        Assert.True(many <= few * 1.5, $"{few} steps for 10 kits, {many} for 100,000");
    }

    /// <summary>
    /// What the shop cuts anyway is spent on easier cutting. The shortest plan is bought by the increment too: it costs the
    /// same, and in these classes the plan of least work is not behind it in strokes, then in recipes, then in what is left over.
    /// </summary>
    [Fact]
    public void Plan_LeastWork_IsNotHarderToCutThanTheShortestPlan()
    {
        var (strokes, least) = (0, 0);
        for (var seed = 0; seed < Cases; seed++)
        {
            var (shortest, easiest) = (Shortest.Value[seed], Easiest(seed));
            AssertNotHarder(seed, easiest, shortest);
            strokes += easiest.Strokes;
            least += shortest.Strokes;
        }

        // About three in a hundred is what the cloth to spare gains over the classes together.
        Assert.True(strokes * 1000 <= least * 975, $"{strokes} against {least}");
    }

    [Fact]
    public void Plan_LeastWorkWithHardlyAnyClothToSpare_IsNotHarderToCutThanTheShortestPlan()
    {
        foreach (var seed in _tight)
        {
            AssertNotHarder(seed, Easiest(seed), ProvedByWork(ClassCases.Mixed(seed)));
        }
    }

    private static CuttingPlan Easiest(int seed) => ProvedByWork(ClassCases.Mixed(seed) with { Objective = CuttingObjective.LeastWork });

    private static void AssertNotHarder(int seed, CuttingPlan easiest, CuttingPlan shortest)
    {
        Assert.Equal(shortest.Buy, easiest.Buy);
        Assert.True(shortest.Length <= easiest.Length, $"case {seed}: {shortest.Length} against {easiest.Length}");
        Assert.True(WorkOf(easiest).CompareTo(WorkOf(shortest)) <= 0, $"case {seed}: {WorkOf(easiest)} against {WorkOf(shortest)}");

        static (int Strokes, int Recipes, Length Length) WorkOf(CuttingPlan plan) => (plan.Strokes, plan.Strips.Count, plan.Length);
    }

    /// <summary>Rows of one strip are cut as one strip as high as the ruler allows: three of 7½ in make one of 22½ in, with a third of the strips to cut off.</summary>
    [Fact]
    public void Plan_RowsOfOneKind_AreCutInHighStrips()
    {
        var plan = Proved(Cut(Bolt(40), Piece("square", 7.5m, 7.5m, 5 * 12), Piece("strip", 2.5m, 7.5m, 12)));
        Assert.Equal(In(90), plan.Length);
        Assert.Equal(In(22.5m), Assert.Single(plan.Strips).Height);
    }

    [Fact]
    public void Plan_HundredThousandKits_DiffersInRepeatsOnly()
    {
        var plan = Proved(ClassCases.Mixed(3, sizes: 12, kits: 100_000));
        Assert.True(plan.Strips.Count <= 40, $"{plan.Strips.Count} recipes");
        Assert.True(plan.Gap < 0.0001m, $"gap {plan.Gap}");
    }

    /// <summary>With no time at all there still is a plan, it holds, and it says that it was cut short.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(19)]
    public void Plan_NoTimeAtAll_IsValidAndSaysSo(int seed)
    {
        var plan = Proved(ClassCases.Mixed(seed) with { TimeAllowance = TimeSpan.FromTicks(1) });
        Assert.Equal(PlanStatus.CutShort, plan.Status);
    }

    /// <summary>½ yd of 42 in cloth and two 18 × 21 in sheets on the shelf hold what 1 yd would: bolt only for the rest.</summary>
    [Fact]
    public void Plan_TwoFatQuartersOnTheShelf_BuysOnlyTheRest()
    {
        var stock = new CuttingStock(Bolt(42, 4.5m, 4.5m), [Sheet("fat quarter", 18, 21, 2)]);
        var plan = Proved(new CuttingRequest(stock, [Piece("square", 3, 3, 84 + 84)]));
        Assert.Equal(2, plan.Sheets.Sum(sheet => sheet.Repeat));
        Assert.Equal(In(18), plan.Buy.Length);
        Assert.Equal(6m, plan.Buy.Cost);
    }

    private static double WorkFor(int kits)
    {
        var model = CuttingModel.From(ClassCases.Mixed(3, sizes: 12, kits: kits));
        var tables = model.Grounds.Select(ground => GroundTables.For(model, ground)).ToArray();
        Relaxation.Solve(model, tables, SheetCost.ByGround(model), CancellationToken.None);
        return tables.Sum(table => table.Tables.Steps);
    }
}
