using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

public sealed class HeadroomTests
{
    [Theory]
    [InlineData(30, 5, 8)] // a yard of 42 in holds 9 × 8 = 72 squares of 4½ in: 42 more, eight kits of five
    [InlineData(72, 5, 0)]
    [InlineData(68, 4, 1)]
    [InlineData(12, 1, 60)]
    public void Search_OneSize_FindsWhatTheRowsHold(int asked, int kit, int further)
    {
        var headroom = Headroom.Search(Cut(Bolt(42), Piece("square", 4.5m, 4.5m, asked)), In(36), [], [kit]);
        Assert.Equal(new HeadroomResult(further, further, Enough: true), headroom);
    }

    [Fact]
    public void Search_MoreAskedThanTheClothHolds_SaysNotEnough() =>
        Assert.False(Headroom.Search(Cut(Bolt(42), Piece("square", 4.5m, 4.5m, 73)), In(36), [], [1])!.Enough);

    [Fact]
    public void Search_KitWithoutThisCloth_SetsNoLimit() =>
        Assert.Null(Headroom.Search(Cut(Bolt(42), Piece("square", 4.5m, 4.5m, 7)), In(36), [], [0]));

    [Fact]
    public void Search_ShrinkingCloth_CountsWhatIsLeftOfIt()
    {
        // 36 in less 6 % less ½ in trued off: 33.34 in, seven rows of nine.
        var request = Cut(Bolt(42), Piece("square", 4.5m, 4.5m, 60));
        request = request with { Stock = request.Stock with { ShrinkageAlong = 0.06m, SquaringUp = In(0.5m) } };
        Assert.Equal(3, Headroom.Search(request, In(36), [], [1])!.Further);
    }

    [Fact]
    public void Search_Sheets_CountsWhatTheyHold()
    {
        // Two fat quarters of 18 × 21 in hold 12 squares of 5 in each: 14 more than ten, three kits of four.
        var request = CutSheets([Sheet("fat quarter", 21, 18, 1, 3m)], Piece("square", 5, 5, 10));
        Assert.Equal(3, Headroom.Search(request, Length.Zero, [2], [4])!.Further);
    }

    [Fact]
    public void Search_BoltAndSheets_CountsBoth()
    {
        // Nine inches of 42 in hold 18 squares of 4½ in, a fat quarter 16 more.
        var request = Cut(Bolt(42), Piece("square", 4.5m, 4.5m, 20));
        request = request with { Stock = request.Stock with { Sheets = [Sheet("fat quarter", 21, 18)] } };
        Assert.Equal(7, Headroom.Search(request, In(9), [1], [2])!.Further);
    }

    /// <summary>Tiny cases against every plan there is: the number is right, and it is known to be right.</summary>
    [Fact]
    public void Search_TinyCases_FindTheLargestNumberAndProveIt()
    {
        const int MostKits = 3;
        var failures = new List<string>();
        var asked = 0;
        for (var seed = 1; seed <= 160; seed++)
        {
            var random = new Random(seed);
            var (one, other) = ((random.Next(2, 7), random.Next(2, 7), random.Next(4) > 0), (random.Next(1, 6), random.Next(1, 6), true));
            var (across, bolt) = (random.Next(8, 13), random.Next(4, 14));
            var sheets = random.Next(2);
            bool Fits(int kits)
            {
                var search = new ExactSearch([one, .. Enumerable.Repeat(one, kits), .. Enumerable.Repeat(other, kits)], 24);
                var (lengths, onSheets) = (search.LeastLengths(across, lengthwise: false), search.FewestSheets(7, 6));
                return Enumerable.Range(0, search.All + 1).Any(set => (set == 0 || onSheets[set] <= sheets) && lengths[search.All ^ set] <= bolt);
            }

            var most = Enumerable.Range(0, MostKits + 1).TakeWhile(Fits).Count() - 1;
            if (most is < 0 or MostKits)
            {
                continue;
            }

            asked++;

            // A line cannot ask for none, so the request holds one kit already.
            var request = Cut(Bolt(across, 1m), Piece("one", one.Item1, one.Item2, 2, one.Item3), Piece("other", other.Item1, other.Item2, 1));
            request = request with
            {
                Stock = request.Stock with { Sheets = sheets == 0 ? [] : [Sheet("remnant", 7, 6)] },
                TimeAllowance = TimeSpan.FromSeconds(10),
            };
            var found = Headroom.Search(request, In(bolt), sheets == 0 ? [] : [sheets], [1, 1]);
            var expected = most == 0 ? new HeadroomResult(0, 0, Enough: false) : new HeadroomResult(most - 1, most - 1, Enough: true);
            if (found != expected)
            {
                failures.Add($"Case {seed}: {found}, most {most}.");
            }
        }

        Assert.Empty(failures);
        Assert.True(asked >= 60, $"only {asked} cases");
    }

    [Fact]
    public void Search_NumbersThatDoNotMatch_Throw() =>
        Assert.Throws<ArgumentException>(() => Headroom.Search(Cut(Bolt(42), Piece("square", 4.5m, 4.5m, 7)), In(36), [1], [1]));
}
