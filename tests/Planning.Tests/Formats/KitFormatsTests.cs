using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Formats;

public sealed class KitFormatsTests
{
    private static readonly Length Square = Length.FromInches(4, 1, 2);

    private static readonly FormatRequest EightSquares = new([new("A: 4½″ square", Square, Square, 8)], 24)
    {
        Bolt = new(Length.FromInches(42), Length.FromInches(4, 1, 2), Length.FromInches(4, 1, 2), 12m),
        Precuts = [.. PrecutSizes.Usual(Length.FromInches(42)).Select(precut => precut with { PackPrice = precut.PackSize == 1 ? 3.50m : 42m })],
    };

    [Fact]
    public void Compare_FourAndAHalfInchSquares_AnswersEveryFormat()
    {
        var options = KitFormats.Compare(EightSquares).Formats.ToDictionary(option => option.Format);
        Assert.Equal(["cut-pieces", "fat-eighth", "fat-quarter", "squares-10", "squares-5", "strips-2.5", "yardage"], options.Keys.Order(StringComparer.Ordinal));

        // A 4½ in square fits a 5 in square and no 2½ in strip; four fit a 10 in square, 16 a fat quarter, eight a fat eighth.
        Assert.Equal((false, "“A: 4½″ square” does not fit; a 2½ in strip has 42″ × 2½″ to cut from. Choose a larger cut."), (options["strips-2.5"].Feasible, options["strips-2.5"].Reason));
        AssertCounts(options["squares-5"], 8, 192, 5, 210m);
        AssertCounts(options["squares-10"], 2, 48, 2, 84m);
        AssertCounts(options["fat-quarter"], 1, 24, 24, 84m);
        AssertCounts(options["fat-eighth"], 1, 24, 24, 84m);

        // Eight of nine squares across 42 in: a kit takes one strip, ⅛ yd; the class 3 yd at 12. All together are 192 squares, 9 to a strip: 22 strips, 99 in, 2¾ yd.
        Assert.Equal((Length.FromInches(4, 1, 2), Length.FromYards(3), 36m), (options["yardage"].LengthPerKit, options["yardage"].TotalLength, options["yardage"].Cost));
        Assert.Equal((192, Length.FromYards(2.75m), 33m, 0), (options["cut-pieces"].Total, options["cut-pieces"].TotalLength, options["cut-pieces"].Cost, options["cut-pieces"].StudentCuts));
        Assert.True(options["cut-pieces"].BestByCost);
        Assert.Single(options.Values, option => option.BestByCost);
        Assert.Single(options.Values, option => option.BestByTime);
    }

    [Fact]
    public void Compare_WasteShare_IsClothThatIsInNoPiece()
    {
        var options = KitFormats.Compare(EightSquares).Formats.ToDictionary(option => option.Format);
        Assert.Equal(1 - decimal.Round(20.25m / 25m, 4), options["squares-5"].WasteShare);
        Assert.Equal(decimal.Round(1 - (8 * 20.25m / (21 * 9)), 4), options["fat-eighth"].WasteShare);
        Assert.Equal(decimal.Round(1 - (8 * 20.25m / (42 * 4.5m)), 4), options["yardage"].WasteShare);
        Assert.Equal(decimal.Round(1 - (192 * 20.25m / (42 * 99m)), 4), options["cut-pieces"].WasteShare);
    }

    [Fact]
    public void Compare_WithoutPrices_HasNoCostAndNoCheapest()
    {
        var options = KitFormats.Compare(new(EightSquares.Pieces, 3)).Formats;
        Assert.All(options, option => Assert.Null(option.Cost));
        Assert.DoesNotContain(options, option => option.BestByCost);
        Assert.Single(options, option => option.BestByTime);
    }

    // An inner edge measured at the valleys can lose up to ¼ in: Quilting Daily, "Pinked Edges on Pre-Cuts", 18 October 2022.
    [Fact]
    public void Compare_PinkedMargin_TakesClothFromEveryPinkedEdge()
    {
        var quarter = Length.FromInches(0, 1, 4);
        var request = EightSquares with { Precuts = [.. PrecutSizes.Usual(Length.FromInches(42)).Select(precut => precut with { PinkedMargin = quarter })] };
        var options = KitFormats.Compare(request).Formats.ToDictionary(option => option.Format);
        Assert.True(options["squares-5"].Feasible);
        Assert.Equal(1, options["fat-eighth"].PerKit);
        var wider = request with { Pieces = [new("B: 4⅝″ square", Length.FromInches(4, 5, 8), Length.FromInches(4, 5, 8), 1)] };
        options = KitFormats.Compare(wider).Formats.ToDictionary(option => option.Format);
        Assert.Equal("“B: 4⅝″ square” does not fit; a 5 in square has 4½″ square to cut from. Choose a larger cut.", options["squares-5"].Reason);
        Assert.True(options["squares-10"].Feasible);
    }

    [Fact]
    public void Compare_StripsOfTheUsableWidth_AreCutAcross()
    {
        // 42 in width: 2½ × 4½ in are nine to a 2½ in strip, 18 are two strips: Sweetpotato Quilts blog, "WOF table", sweetpotatoquiltsblog.com/?p=2293.
        var pieces = new CutPiece("A", Square, Length.FromInches(2, 1, 2), 18);
        var option = Assert.Single(KitFormats.Compare(EightSquares with { Pieces = [pieces], Formats = ["strips-2.5"] }).Formats);
        Assert.Equal((2, true), (option.PerKit, option.IsLeast));
        option = Assert.Single(KitFormats.Compare(EightSquares with { Pieces = [pieces with { Count = 19 }], Formats = ["strips-2.5"] }).Formats);
        Assert.Equal((3, true), (option.PerKit, option.IsLeast));
    }

    [Fact]
    public void Compare_PieceWiderThanAnyCloth_SaysWhichAndWhy()
    {
        var wide = Length.FromInches(50);
        Assert.All(
            KitFormats.Compare(EightSquares with { Pieces = [new("backing", wide, wide, 1)] }).Formats,
            option => Assert.Contains("“backing”", option.Reason, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0, 1, "kits", "0 kits cannot be planned. Give 1 to 100,000.")]
    [InlineData(1, 0, "pieces[0].count", "0 of “A” in a kit cannot be planned. Give 1 to 10,000.")]
    [InlineData(100_000, 10_000, "pieces[0].count", "“A” is needed 1,000,000,000 times in all; the most is 10,000,000. Check the number of kits.")]
    public void Compare_FiguresThatCannotBe_NamesThem(int kits, int count, string field, string message) =>
        Assert.Equal([new Problem(field, message)], KitFormats.Compare(new([new("A", Square, Square, count)], kits)).Problems);

    [Fact]
    public void Compare_UnknownFormat_ListsTheKnownOnes() => Assert.Equal(
        [new Problem("formats", "“half-yards” is not a kit format. The formats are cut-pieces, strips-2.5, squares-5, squares-10, fat-quarter, fat-eighth, yardage.")],
        KitFormats.Compare(EightSquares with { Formats = ["half-yards"] }).Problems);

    private static void AssertCounts(FormatOption option, int perKit, int total, int packs, decimal cost)
    {
        Assert.Equal((true, null, perKit, total, packs, cost), (option.Feasible, option.Reason, option.PerKit, option.Total, option.Packs, option.Cost));
        Assert.True(option.IsLeast);
    }
}
