using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Formats;

public sealed class HandedOutTests
{
    private static readonly Length Two = Length.FromInches(2);
    private static readonly Length TwoAndAHalf = Length.FromInches(2, 1, 2);

    private static readonly CutList Sewn = new(
        Length.Zero,
        Length.Zero,
        [
            new("A", "ground", [new(TwoAndAHalf, TwoAndAHalf, 12, ["corners"])]),
            new("B", "star", [new(TwoAndAHalf, TwoAndAHalf, 8, ["points"]), new(Two, Two, 3, ["heart"])]),
            new("C", "frame", [new(Two, Two, 4, ["frame"])]),
        ],
        [],
        []);

    // 16 squares of 2½ in lie in a 2½ in strip 42 in long: Sweetpotato Quilts blog, "WOF table", sweetpotatoquiltsblog.com/?p=2293,
    // gives 12 of 3½ in; 42 ÷ 2½ is recomputed.
    [Fact]
    public void Of_Strips_CountsWhatOneKitTakes()
    {
        var (thing, reason) = HandedOut.Of(Request(42, new CutPiece("A", TwoAndAHalf, TwoAndAHalf, 17)), FormatCodes.Strips);
        Assert.Null(reason);
        Assert.Equal((2, Length.FromInches(42), TwoAndAHalf), (thing!.Count, thing.Width, thing.Height));
        Assert.Equal("2½ in strip, 42″ long", thing.InWords(LengthStyle.Eighths));
        Assert.Equal("17 of 2½″ square", thing.PiecesInWords(LengthStyle.Eighths));
        Assert.Equal(17, thing.Recipes.Sum(recipe => recipe.Repeat * recipe.Strips.Sum(strip => strip.Repeat * strip.Columns.Sum(column => column.Repeat * column.Pieces.Sum(piece => piece.Count)))));
    }

    [Fact]
    public void Of_Yardage_IsOneLengthOfTheWholeWidth()
    {
        var (thing, _) = HandedOut.Of(Request(40, new CutPiece("A", TwoAndAHalf, TwoAndAHalf, 17)), FormatCodes.Yardage);
        Assert.Equal((1, Length.FromInches(40), Length.FromInches(9)), (thing!.Count, thing.Width, thing.Height));
        Assert.Equal("length of 9″, 40″ wide", thing.InWords(LengthStyle.Eighths));
    }

    [Fact]
    public void Of_ARequestThatDoesNotHold_SaysWhy()
    {
        var (thing, reason) = HandedOut.Of(Request(0, new CutPiece("A", Two, Two, 1)), FormatCodes.Strips);
        Assert.Null(thing);
        Assert.Contains("usable width is 0", reason?.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void For_AFabricOfTwoLetters_LiesInTheBagOnce()
    {
        var ways = new Dictionary<string, long> { ["A"] = 1, ["B"] = 2, ["C"] = 2 };
        var pieces = BagLists.PiecesOf(Sewn, ["B", "C"]);
        Assert.Equal([("B: 2½″ square", 8), ("B, C: 2″ square", 7)], pieces.Select(piece => (piece.Name, piece.Count)));
        var (thing, _) = HandedOut.Of(Request(40, [.. pieces]), FormatCodes.FatEighth);
        var bag = BagLists.For(Sewn, ways, new Dictionary<long, HandedOut> { [2] = thing! });

        Assert.Equal(Sewn.Fabrics[0], bag.Fabrics[0]);
        var line = Assert.Single(bag.Fabrics[1].Pieces);
        Assert.Equal((1, "fat eighth, 9″ × 21″", "to cut into 8 of 2½″ square, 7 of 2″ square"), (line.Count, line.Thing, Assert.Single(line.Uses)));
        Assert.Empty(bag.Fabrics[2].Pieces);
        Assert.Same(Sewn, BagLists.For(Sewn, ways, new Dictionary<long, HandedOut>()));
    }

    private static FormatRequest Request(int width, params CutPiece[] pieces) => new(pieces, 1)
    {
        Bolt = new BoltStock(Length.FromInches(width), Length.FromInches(4, 1, 2), Length.FromInches(4, 1, 2), 0m),
        Precuts = PrecutSizes.Usual(Length.FromInches(width)),
    };
}
