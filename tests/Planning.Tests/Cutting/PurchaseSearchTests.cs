using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>The search purchase by purchase, asked alone, without a clock: against every plan there is, and on twenty drawn pieces.</summary>
public sealed class PurchaseSearchTests
{
    [Fact]
    public void Cheapest_TinyMixedStock_FindsTheLeastThereIsAndNothingBelowIt()
    {
        var failures = new List<string>();
        for (var seed = 1001; seed <= 1200; seed++)
        {
            var tiny = TinyCase.From(seed);
            var least = tiny.LeastOfMixedStock();
            var request = tiny.Request(tiny.MixedStock);
            if (least > 0)
            {
                Expect(Search(request, least) is (null, true), $"Case {seed}: less than {least}.");
            }

            Expect(Search(request, least + 7) is ({ } cost, true) && cost == least, $"Case {seed}: {Search(request, least + 7)} instead of {least}.");

            void Expect(bool met, string failure)
            {
                if (!met)
                {
                    failures.Add(failure);
                }
            }
        }

        Assert.Empty(failures);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Cheapest_TwentyDrawnPieces_IsSettled(int stock)
    {
        (bool Bolt, SheetStock[] Sheets)[] stocks =
        [
            (true, [Sheet("fat quarter", 21, 18, 2)]),
            (true, [Sheet("fat quarter", 21, 18, null, 3.5m), Sheet("remnant", 15, 12, 1), Sheet("square", 10, 10, null, 0.9m, pack: 4)]),
            (false, [Sheet("fat quarter", 21, 18, null, 3.5m), Sheet("square", 10, 10, null, 0.9m), Sheet("half yard", 42, 18, null, 6.3m)]),
        ];
        for (var seed = 1; seed <= 2; seed++)
        {
            var request = Drawn(seed, new CuttingStock(stocks[stock].Bolt ? Bolt(42, 4.5m, 4.5m) : null, stocks[stock].Sheets));
            var plan = Proved(request);
            var (cost, isSettled) = Search(request, plan.Buy.Cost);
            Assert.True(isSettled, $"Case {seed}.");

            // The clock of a busy machine may have cut the plan short, which it says.
            Assert.True(cost is null || plan.Status == PlanStatus.CutShort, $"Case {seed}: {cost} is less than {plan.Buy.Cost}, {plan.Status}.");
        }
    }

    /// <summary>What all purchases that are listed for a sum leave out, none of them can be part of.</summary>
    [Fact]
    public void Largest_AnySum_HoldsEverySmallerPurchase()
    {
        var stock = new CuttingStock(Bolt(42, 4.5m, 9m), [Sheet("shelf", 6, 4, 2), Sheet("pack", 7, 6, 5, 2.5m, pack: 2), Sheet("sheet", 9, 9, 3, 1.1m)]);
        var model = CuttingModel.From(new CuttingRequest(stock, [Piece("square", 3, 3, 12)]));
        for (var below = 0.5m; below < 15; below += 0.7m)
        {
            var listed = Purchases.Largest(model, below)!;
            Assert.All(listed, purchase => Assert.True(purchase.Cost < below));
            for (var (packed, single, increments) = (0, 0, 0); packed <= 5; (packed, single, increments) = Next(packed, single, increments))
            {
                var length = increments == 0 ? Length.Zero : Length.Max(In(9), In(4.5m * increments));
                if (Buying.BoltPrice(stock, length) + Buying.SheetPrice(stock.Sheets[1], packed) + Buying.SheetPrice(stock.Sheets[2], single) < below)
                {
                    Assert.Contains(listed, purchase => purchase.Bolt >= length && purchase.Sheets[0] == 2 && purchase.Sheets[1] >= packed && purchase.Sheets[2] >= single);
                }
            }
        }

        static (int, int, int) Next(int packed, int single, int increments) =>
            increments < 10 ? (packed, single, increments + 1) : single < 3 ? (packed, single + 1, 0) : (packed + 1, 0, 0);
    }

    private static (decimal? Cost, bool Settled) Search(CuttingRequest request, decimal below)
    {
        var model = CuttingModel.From(request);
        GroundTables[] tables = [.. model.Grounds.Select(ground => GroundTables.For(model, ground))];
        var relaxation = Relaxation.Solve(model, tables, SheetCost.ByGround(model), CancellationToken.None);
        var (plan, isSettled) = PurchaseSearch.Cheapest(model, relaxation, PortionPlan.PortionsOf(model, CancellationToken.None), below, CancellationToken.None);
        return (plan is null ? null : Checked(model, tables, plan).Buy.Cost, isSettled);
    }

    /// <summary>Twenty pieces of sizes of their own, sides of 2 to 10 in on eighths.</summary>
    private static CuttingRequest Drawn(int seed, CuttingStock stock)
    {
        var random = new Random(seed);
        CutPiece[] pieces = [.. Enumerable.Range(1, 20).Select(number => new CutPiece($"piece {number}", Side(), Side(), 1))];
        return new CuttingRequest(stock, pieces) { TimeAllowance = TimeSpan.FromSeconds(30) };

        Length Side() => Length.FromInches(0, random.Next(16, 81), 8);
    }
}
