using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Up to twenty pieces from a bolt beside sheets: mostly the plan is proved cheapest.</summary>
public sealed class SmallStockTests
{
    /// <summary>Three more of the first twelve seeds are too large to list in the work allowed.</summary>
    [Fact]
    public void Plan_TwentyPiecesBesideTheShelf_IsProvedCheapest()
    {
        foreach (var seed in new[] { 1, 2, 3, 5, 7, 8, 9, 10, 12 })
        {
            Assert.Equal(PlanStatus.ProvedBest, Proved(Request(seed, [Sheet("fat quarter", 21, 18, 2)])).Status);
        }
    }

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
