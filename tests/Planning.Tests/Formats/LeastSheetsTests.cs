using CsCheck;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Formats;

public sealed class LeastSheetsTests
{
    private static readonly Length Ruler = Length.FromInches(24);

    // Squares from a fat quarter of 18 × 22 in: Marcia Hohn, "Math Charts", 17 June 2002, quilterscache.com/M/MathChartsPage.html;
    // the list from 2 to 6½ also at piecefulliving.blogspot.com, 13 August 2011.
    [Theory]
    [InlineData("2", 99)]
    [InlineData("2 1/2", 56)]
    [InlineData("2 7/8", 42)]
    [InlineData("3", 42)]
    [InlineData("3 1/2", 30)]
    [InlineData("3 7/8", 20)]
    [InlineData("4", 20)]
    [InlineData("4 1/2", 16)]
    [InlineData("4 7/8", 12)]
    [InlineData("5", 12)]
    [InlineData("5 1/2", 12)]
    [InlineData("5 7/8", 9)]
    [InlineData("6", 9)]
    [InlineData("6 1/2", 6)]
    [InlineData("6 7/8", 6)]
    public void For_SquaresFromAFatQuarter18By22_IsThePublishedCount(string size, int published) => OneSheetHoldsJust(published, size, "22", "18");

    // A 10 in square cut in quarters is four 5 in squares: whip-stitch.com, "charm packs, jelly rolls, layer cakes". The other
    // counts are recomputed as whole squares across times whole squares along.
    [Theory]
    [InlineData("5", 4)]
    [InlineData("2 1/2", 16)]
    [InlineData("2", 25)]
    [InlineData("2 7/8", 9)]
    [InlineData("3 1/2", 4)]
    [InlineData("4 1/2", 4)]
    [InlineData("5 1/2", 1)]
    [InlineData("10", 1)]
    public void For_SquaresFromATenInchSquare_IsTheCount(string size, int count) => OneSheetHoldsJust(count, size, "10", "10");

    // Recomputed as above; a 5 in square in four is 2½ in each.
    [Theory]
    [InlineData("1 1/2", 9)]
    [InlineData("2", 4)]
    [InlineData("2 1/2", 4)]
    [InlineData("2 7/8", 1)]
    [InlineData("5", 1)]
    public void For_SquaresFromAFiveInchSquare_IsTheCount(string size, int count) => OneSheetHoldsJust(count, size, "5", "5");

    // The size of the fat quarter matters: 5½ in squares are 12 of 18 × 22 but 9 of 18 × 21, and 3 in squares 42 of 18 × 21 but 36 of 18 × 20 (recomputed).
    [Theory]
    [InlineData("5 1/2", "21", 9)]
    [InlineData("3", "21", 42)]
    [InlineData("3", "20", 36)]
    [InlineData("2 7/8", "20", 36)]
    public void For_SmallerFatQuarters_HoldLess(string size, string across, int count) => OneSheetHoldsJust(count, size, across, "18");

    [Fact]
    public void For_MixedSizes_UsesTheRestOfTheSheet()
    {
        // A 9 × 21 in fat eighth: three 6½ in squares across leave 1½ in at the end and 2½ in below: eight 2½ in squares go there.
        var pieces = Pieces(("6 1/2", "6 1/2", 3), ("2 1/2", "2 1/2", 8));
        var needed = Find("fat eighth", Read("21"), Read("9"), pieces, false);
        Assert.Equal((1, true), (needed.Count, needed.IsLeast));
        AssertValid(needed, pieces, Read("21"), Read("9"), false);
        pieces[1] = pieces[1] with { Count = 9 };
        Assert.Equal(2, Find("fat eighth", Read("21"), Read("9"), pieces, false).Count);
    }

    [Fact]
    public void For_DirectionalFabric_TurnsNothing()
    {
        var pieces = Pieces(("2 1/2", "4 1/2", 1));
        Assert.Equal(2, Find("strip", Read("5"), Read("5"), Pieces(("2 1/2", "4 1/2", 3)), true).Count);
        AssertValid(Find("square", Read("5"), Read("5"), pieces, true), pieces, Read("5"), Read("5"), true);
    }

    [Fact]
    public void For_TinyRandomKits_IsTheLeastOfAllPlans() => TinyKits.Sample(
        (width, length, sizes, directional) =>
        {
            var pieces = sizes.Select((size, index) => new CutPiece($"{index}", Halves(size.Width), Halves(size.Height), size.Count))
                .Where(piece => Fits(piece, Halves(width), Halves(length), directional)).ToList();
            if (pieces.Count == 0)
            {
                return;
            }

            var needed = Find("sheet", Halves(width), Halves(length), pieces, directional);
            AssertValid(needed, pieces, Halves(width), Halves(length), directional);
            Assert.True(needed.IsLeast);
            var least = EveryPlan.LeastSheets(width, length, [.. pieces.SelectMany(piece => Enumerable.Repeat((Number(piece.Width), Number(piece.Height)), piece.Count))], directional);
            Assert.Equal(least, needed.Count);
            var searched = LeastSheets.Searched(new("sheet", Halves(width), Halves(length), null, 0m), pieces, directional, Ruler)!;
            Assert.Equal((least, true), (searched.Count, searched.IsLeast));
            AssertValid(searched, pieces, Halves(width), Halves(length), directional);
        },
        iter: 300);

    [Fact]
    public void For_RandomKits_EveryLayoutIsProved() => LargerKits.Sample(
        (width, length, sizes, directional) =>
        {
            var pieces = sizes.Select((size, index) => new CutPiece($"{index}", Halves(size.Width), Halves(size.Height), size.Count))
                .Where(piece => Fits(piece, Halves(width), Halves(length), directional)).ToList();
            if (pieces.Count > 0)
            {
                AssertValid(Find("sheet", Halves(width), Halves(length), pieces, directional), pieces, Halves(width), Halves(length), directional);
            }
        },
        iter: 60);

    private static Gen<(int Width, int Length, (int Width, int Height, int Count)[] Sizes, bool Directional)> TinyKits =>
        Gen.Select(Gen.Int[4, 12], Gen.Int[4, 12], Gen.Select(Gen.Int[1, 7], Gen.Int[1, 7], Gen.Int[1, 2]).Array[1, 3], Gen.Bool);

    private static Gen<(int Width, int Length, (int Width, int Height, int Count)[] Sizes, bool Directional)> LargerKits =>
        Gen.Select(Gen.Int[10, 84], Gen.Int[5, 44], Gen.Select(Gen.Int[3, 30], Gen.Int[3, 30], Gen.Int[1, 24]).Array[1, 5], Gen.Bool);

    private static void OneSheetHoldsJust(int count, string size, string width, string length)
    {
        var pieces = Pieces((size, size, count));
        var one = Find("sheet", Read(width), Read(length), pieces, false);
        Assert.Equal((1, true), (one.Count, one.IsLeast));
        AssertValid(one, pieces, Read(width), Read(length), false);
        var two = Find("sheet", Read(width), Read(length), Pieces((size, size, count + 1)), false);
        Assert.Equal((2, true), (two.Count, two.IsLeast));
    }

    private static SheetsNeeded Find(string name, Length width, Length length, IReadOnlyList<CutPiece> pieces, bool directional) =>
        LeastSheets.For(new(name, width, length, null, 0m), pieces, directional, 1);

    private static void AssertValid(SheetsNeeded needed, IReadOnlyList<CutPiece> pieces, Length width, Length length, bool directional)
    {
        var request = new CuttingRequest(new CuttingStock(null, [new SheetStock(needed.Recipes[0].Name, width, length, null, 1m)]), pieces) { Directional = directional, Layers = 1 };
        var plan = new CuttingPlan
        {
            Length = Length.Zero,
            Floor = Length.Zero,
            Buy = new(Length.Zero, needed.Count),
            OneSizePerStrip = new(Length.Zero, 0),
            Strips = [],
            Sheets = needed.Recipes,
            Surplus = [.. pieces.Select((piece, index) => new Surplus(index, Cut(needed, index) - piece.Count)).Where(surplus => surplus.Count != 0)],
            Strokes = Strokes.Count(request, [], needed.Recipes),
            Status = PlanStatus.Good,
            Gap = 0,
        };
        Assert.Empty(PlanChecker.Check(request, plan));
        Assert.Equal(needed.Count, needed.Recipes.Sum(recipe => recipe.Repeat));
    }

    private static int Cut(SheetsNeeded needed, int piece) => needed.Recipes.Sum(recipe => recipe.Repeat * recipe.Strips.Sum(strip => strip.Repeat
        * strip.Columns.Sum(column => column.Repeat * column.Pieces.Where(stacked => stacked.Piece == piece).Sum(stacked => stacked.Count))));

    private static bool Fits(CutPiece piece, Length width, Length length, bool directional) =>
        (piece.Width <= width && piece.Height <= length) || (!directional && piece.Height <= width && piece.Width <= length);

    private static List<CutPiece> Pieces(params (string Width, string Height, int Count)[] pieces) =>
        [.. pieces.Select((piece, index) => new CutPiece($"piece {index}", Read(piece.Width), Read(piece.Height), piece.Count))];

    private static Length Read(string text) => LengthText.Read(text).Value;

    private static Length Halves(int halves) => Length.FromInches(0, halves, 2);

    private static int Number(Length length) => (int)length.CountOf(Halves(1));
}
