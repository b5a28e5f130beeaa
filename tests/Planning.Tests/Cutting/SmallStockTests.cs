using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Twenty pieces of few sizes, from a bolt beside sheets or from sheets alone: the plan is proved cheapest.</summary>
public sealed class SmallStockTests
{
    private static readonly SheetStock FatQuarter = Sheet("fat quarter", 21, 18, null, 3.5m);

    private static readonly (bool Bolt, SheetStock[] Sheets)[] Stocks =
    [
        (true, [Sheet("fat quarter", 21, 18, 2)]),
        (true, [FatQuarter, Sheet("remnant", 15, 12, 1), Sheet("square", 10, 10, null, 0.9m, pack: 4)]),
        (false, [FatQuarter, Sheet("square", 10, 10, null, 0.9m), Sheet("half yard", 42, 18, null, 6.3m)]),
    ];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Plan_TwentyPieces_IsProvedCheapest(int stock)
    {
        var (bolt, sheets) = Stocks[stock];
        for (var seed = 1; seed <= 12; seed++)
        {
            var request = Request(seed, sheets);
            Assert.Equal(PlanStatus.ProvedBest, Proved(bolt ? request : request with { Stock = request.Stock with { Bolt = null } }).Status);
        }
    }

    /// <summary>What is proved cheapest from all kinds together is never dearer than from any of them alone.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Plan_FewerKindsOfSheets_IsNoCheaper(int seed)
    {
        SheetStock[] sheets = [Sheet("fat quarter", 21, 18, null, 3.5m), Sheet("remnant", 15, 12, 1), Sheet("square", 10, 10, null, 0.9m, pack: 4)];
        var plan = Proved(Request(seed, sheets));
        foreach (var fewer in sheets.Select(sheet => sheets.Where(other => other != sheet).ToArray()))
        {
            Assert.True(Proved(Request(seed, fewer)).Buy.Cost >= plan.Buy.Cost);
        }
    }

    /// <summary>Five sizes on halves, four of each.</summary>
    private static CuttingRequest Request(int seed, SheetStock[] sheets)
    {
        var random = new Random(seed);
        CutPiece[] pieces = [.. Enumerable.Range(1, 5).Select(number => new CutPiece(
            $"piece {number}", Length.FromInches(0, 4 * random.Next(4, 21), 8), Length.FromInches(0, 4 * random.Next(4, 21), 8), 4))];
        return new CuttingRequest(new CuttingStock(Bolt(42, 4.5m, 4.5m), sheets), pieces) { TimeAllowance = TimeSpan.FromSeconds(30) };
    }

    [Fact]
    public void Plan_SheetsInPacks_TakesThemForWhatThePackCosts()
    {
        // Four 10 in squares at 4 a pack hold sixteen 4½ in squares; 16 from the bolt take two strips, 9 in, at 3.
        var pack = Sheet("square", 10, 10, null, 1m, pack: 4);
        Assert.Equal(3m, Proved(CutBoth(pack, 16)).Buy.Cost);

        // Three strips of the bolt would be 4.50.
        Assert.Equal(4m, Proved(CutBoth(pack with { Width = In(14), Length = In(14) }, 27)).Buy.Cost);

        static CuttingRequest CutBoth(SheetStock sheet, int count)
        {
            var request = Cut(Bolt(42), Piece("square", 4.5m, 4.5m, count));
            return request with { Stock = request.Stock with { Sheets = [sheet] } };
        }
    }
}
