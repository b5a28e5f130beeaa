using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Classes;

public sealed class SupplyListTests
{
    private static readonly Length Square = Length.FromInches(4, 1, 2);
    private static readonly BoltStock Bolt = new(Length.FromInches(40), Length.FromInches(4, 1, 2), Length.FromInches(4, 1, 2), 0m);
    private static readonly Precut FatQuarter = PrecutSizes.Usual(Length.FromInches(40)).Single(precut => precut.Format == FormatCodes.FatQuarter);

    // 40 in usable: eight 4½ in squares to a strip, 16 from ¼ yd; a fat quarter of 18 × 21 in holds 16 (whole squares across times whole squares along).
    [Theory]
    [InlineData(8, 1, 1)]
    [InlineData(16, 2, 1)]
    [InlineData(17, 3, 2)]
    public void For_Squares_IsALengthOrFatQuarters(int squares, int eighths, int quarters) => Assert.Equal(
        [new SupplyLine("A", "sky", Length.FromInches(4, 1, 2) * eighths, quarters, null)],
        SupplyList.For(List([new(Square, Square, squares, [])]), Bolt, FatQuarter, false));

    [Fact]
    public void For_APieceLargerThanAFatQuarter_SaysSo()
    {
        var line = Assert.Single(SupplyList.For(List([new(Length.FromInches(30), Length.FromInches(2), 2, [])]), Bolt, FatQuarter, false));
        Assert.Equal((Length.FromInches(4, 1, 2), null), (line.Length, line.FatQuarters));
        Assert.Equal("“A: 30″ × 2″” does not fit; a fat quarter has 21″ × 18″ to cut from. Choose a larger cut.", line.Reason);
    }

    [Fact]
    public void For_ALetterWithoutPieces_IsLeftOut() => Assert.Empty(SupplyList.For(List([]), Bolt, FatQuarter, false));

    private static CutList List(IReadOnlyList<KitPiece> pieces) => new(Square, Square, [new("A", "sky", pieces)], [], []);
}
