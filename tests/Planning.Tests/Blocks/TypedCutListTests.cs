using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class TypedCutListTests
{
    private static readonly CuttingRules Rules = new();

    [Theory]
    [InlineData("A 4 squares 4 1/2", "4 squares 4½″ of A")]
    [InlineData("B: 2 @ 2 x 14½", "2 pieces 2″ × 14½″ of B")]
    [InlineData("8 - 4\" sq white", "8 squares 4″ of A white")]
    [InlineData("8-4\" sq white", "8 squares 4″ of A white")]
    [InlineData("A: 4 squares 3 7/8, cut once", "4 squares 3⅞″ of A, cut once corner to corner")]
    [InlineData("A 1 square 5 1/4\" cut twice", "1 square 5¼″ of A, cut twice corner to corner")]
    [InlineData("A 4 4 1/2 squares", "4 squares 4½″ of A")]
    [InlineData("A 4 2½\" squares", "4 squares 2½″ of A")]
    [InlineData("12 x 2 1/2 squares red", "12 squares 2½″ of A red")]
    [InlineData("(4) 3 1/2\" squares blue", "4 squares 3½″ of A blue")]
    [InlineData("Cut 2 strips 2 1/2 x WOF from navy", "2 strips 2½″ × 40″ of A navy")]
    [InlineData("C 3 strips 2.5", "3 strips 2½″ × 40″ of C")]
    [InlineData("A white: 2 rectangles 4 1/2 by 2", "2 pieces 2″ × 4½″ of A white")]
    [InlineData("a: 6 @ 3-1/2", "6 squares 3½″ of A")]
    [InlineData("A-4 squares 2", "4 squares 2″ of A")]
    [InlineData("A - 4 squares 2", "4 squares 2″ of A")]
    [InlineData("- A 4 squares 2", "4 squares 2″ of A")]
    [InlineData("B 4 squares 10 cm", "4 squares ≈3⅞″ of B")]
    [InlineData("• A 16 @ 2", "16 squares 2″ of A")]
    [InlineData("A - 4 - 2 1/2 x 4 1/2", "4 pieces 2½″ × 4½″ of A")]
    [InlineData("4, 2 1/2\" squares, light green", "4 squares 2½″ of A light green")]
    [InlineData("A cut 4 at 2 1/2 x 6 1/2", "4 pieces 2½″ × 6½″ of A")]
    [InlineData("A 4 squares 2 1/2 from print 2", "4 squares 2½″ of A")]
    [InlineData("   ", "")]
    public void Line_AsPeopleTypeIt_IsUnderstood(string line, string understood)
    {
        var reading = TypedCutList.Read(line, Rules);
        var only = Assert.Single(reading.Lines);
        Assert.Null(only.Error);
        Assert.Equal(understood, only.Understood);
    }

    [Theory]
    [InlineData("A squares 4 1/2", "does not say how many")]
    [InlineData("A 4 squares", "has no size")]
    [InlineData("4 squares 4 1/2", "does not say which fabric")]
    [InlineData("A 4\" squares", "does not say how many")]
    [InlineData("A 0 squares 4", "asks for 0 pieces")]
    [InlineData("A 20000 squares 4", "1 to 10000")]
    [InlineData("A 999999999999 squares 4", "1 to 10000")]
    [InlineData("A 4 squares 2 x 3", "two different sides")]
    [InlineData("A 4 squares 0", "size of 0")]
    [InlineData("A 4 squares 900", "longer than")]
    [InlineData("A 4 @ 4 1/0", "4 1/0")]
    [InlineData("A -3 squares 4", "\"-3\", a number below 0. Type it without the minus sign")]
    [InlineData("A: −3 squares 4", "\"−3\", a number below 0")]
    [InlineData("-3 squares 4 white", "a number below 0")]
    [InlineData("A 3 squares -4 1/2", "\"-4\", a number below 0")]
    [InlineData("A 3 @ 2 x -4", "a number below 0")]
    [InlineData("A (-3) @ 2", "a number below 0")]
    [InlineData("A 4 squares 4½ ½", "goes on with \"½\"")]
    [InlineData("A 4 squares 4 1/2, 8 squares 3", "goes on with \", 8 squares 3\"")]
    [InlineData("A 4 @ 4 1/2\" and 2 @ 2 x 14 1/2", "a line of its own")]
    [InlineData("A 4 @ 2 x 3 x 4", "goes on with \"x 4\"")]
    public void Line_ThatIsNotUnderstood_SaysWhatToDo(string line, string part)
    {
        var reading = TypedCutList.Read("B 1 @ 2\n" + line, Rules);
        Assert.Null(reading.CutList);
        Assert.Contains(part, reading.Lines[1].Error?.ToString(), StringComparison.Ordinal);
        Assert.Equal("lines[1]", Assert.Single(reading.Problems).Field);
    }

    [Fact]
    public void List_WithHeadings_GivesEachLineItsFabric()
    {
        var reading = TypedCutList.Read("Fabric A white\n4 squares 4 1/2\n2 @ 2 x 4 1/2\n\nRed:\n8 - 2\" sq\n2 - 4 1/2\" sq white\n", Rules);
        Assert.Empty(reading.Problems);
        Assert.Equal("A: 6 @ 4 1/2 x 4 1/2, 2 @ 4 1/2 x 2; B: 8 @ 2 x 2", InShort(reading.CutList!));
        Assert.Equal(["white", "Red"], reading.CutList!.Fabrics.Select(fabric => fabric.Name));
        Assert.Empty(reading.CutList.Steps);
    }

    // Mother's Favorite, 12 in, allpeoplequilt.com, 15 Apr 2019. Its corners hold a triangle pieced of triangles, which is no
    // unit of a grid, so it is typed.
    [Fact]
    public void PrintedPattern_TypedAsPrinted_IsTheSameCutList()
    {
        var reading = TypedCutList.Read(
            """
            Dark blue:
            2 squares 4 7/8, cut once
            1 square 4 1/2
            2 squares 2 7/8, cut once
            Blue:
            4 @ 2 1/2 x 4 1/2
            8 squares 2 1/2
            White:
            4 @ 2 1/2 x 4 1/2
            6 squares 2 7/8, cut once
            8 squares 2 1/2
            """,
            Rules);
        Assert.Equal(
            "A: 2 @ 4 7/8 x 4 7/8, 1 @ 4 1/2 x 4 1/2, 2 @ 2 7/8 x 2 7/8; B: 4 @ 4 1/2 x 2 1/2, 8 @ 2 1/2 x 2 1/2; "
            + "C: 6 @ 2 7/8 x 2 7/8, 4 @ 4 1/2 x 2 1/2, 8 @ 2 1/2 x 2 1/2",
            InShort(reading.CutList!));
    }

    [Fact]
    public void List_ForTwoBlocksAKit_IsDoubled() => Assert.Equal(
        "A: 8 @ 4 1/2 x 4 1/2",
        InShort(TypedCutList.Read("A 4 squares 4 1/2", Rules with { BlocksPerKit = 2 }).CutList!));

    [Fact]
    public void List_InCentimetres_ReadsBareNumbersAsCentimetres() => Assert.Equal(
        Length.FromMillimetres(115),
        TypedCutList.Read("A 4 squares 11.5", Rules with { Metric = true }, LengthUnit.Centimetre).CutList!.Fabrics[0].Pieces[0].Width);

    [Theory]
    [InlineData("")]
    [InlineData("\n \n")]
    public void List_WithoutPieces_SaysSo(string text) =>
        Assert.Contains("no pieces", Assert.Single(TypedCutList.Read(text, Rules).Problems).Message, StringComparison.Ordinal);

    [Fact]
    public void List_OfAnyText_NeverThrows()
    {
        var random = new Random(7);
        const string Letters = "AB4 12/½x@-:.,\"sqwof()";
        for (var round = 0; round < 20_000; round++)
        {
            var text = string.Concat(Enumerable.Range(0, random.Next(30)).Select(_ => Letters[random.Next(Letters.Length)]));
            var reading = TypedCutList.Read(text, Rules);
            Assert.True(reading.CutList is null == (reading.Problems.Count > 0));
        }
    }
}
