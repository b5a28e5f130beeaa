using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>Which fabric shows where, for each kind as it is described and turned clockwise.</summary>
public sealed class UnitPatchesTests
{
    private static readonly Unit FourPatch = new() { Row = 0, Column = 0, Kind = UnitKind.Checkerboard, Patches = [["A", "B"], ["C", "D"]] };

    private static readonly Unit Nested = new()
    {
        Row = 0,
        Column = 0,
        Kind = UnitKind.Block,
        Inner = Of("Inner", Sides("1", "1"), Sides("1", "1"), "ABCD", Plain(0, 0, "A"), Plain(0, 1, "B"), Plain(1, 0, "C"), Plain(1, 1, "D")),
    };

    public static TheoryData<string, Unit, string> Places()
    {
        // Letters at upper left, upper middle, upper right; left, middle, right; lower left, lower middle, lower right.
        var corners = Made(0, 0, UnitKind.FlippedCorners, 0, "ABCD.") with { Corner = In("1 1/2") };
        var rails = Made(0, 0, UnitKind.Rails, 0, "ABC");
        return new()
        {
            { "half 0", Half(0, 0, "AB"), "A?? ??? ??B" },
            { "half 90", Half(0, 0, "AB", 90), "??A ??? B??" },
            { "half 180", Half(0, 0, "AB", 180), "B?? ??? ??A" },
            { "half 270", Half(0, 0, "AB", 270), "??B ??? A??" },
            { "quarter 0", Quarter(0, 0, "ABCD"), "?A? D?B ?C?" },
            { "quarter 90", Quarter(0, 0, "ABCD", 90), "?D? C?A ?B?" },
            { "quarter 180", Quarter(0, 0, "ABCD", 180), "?C? B?D ?A?" },
            { "quarter three alike", Quarter(0, 0, "AAAB"), "?A? B?A ?A?" },
            { "corners 0", corners, "BAC AAA AAD" },
            { "corners 90", corners with { Turn = 90 }, "AAB AAA DAC" },
            { "corners 180", corners with { Turn = 180 }, "DAA AAA CAB" },
            { "square 0", Made(0, 0, UnitKind.SquareInASquare, 0, "ABCDA"), "BAC AAA AAD" },
            { "square 270", Made(0, 0, UnitKind.SquareInASquare, 270, "ABCDA"), "CAD AAA BAA" },
            { "rails 0", rails, "AAA BBB CCC" },
            { "rails 90", rails with { Turn = 90 }, "CBA CBA CBA" },
            { "rails 180", rails with { Turn = 180 }, "CCC BBB AAA" },
            { "rails 270", rails with { Turn = 270 }, "ABC ABC ABC" },
            { "four-patch 0", FourPatch, "A?B ??? C?D" },
            { "four-patch 90", FourPatch with { Turn = 90 }, "C?A ??? D?B" },
            { "four-patch 180", FourPatch with { Turn = 180 }, "D?C ??? B?A" },
            { "nested 0", Nested, "A?B ??? C?D" },
            { "nested 270", Nested with { Turn = 270 }, "B?D ??? A?C" },
        };
    }

    [Theory]
    [MemberData(nameof(Places))]
    public void Unit_Turned_ShowsItsFabricsInTheirPlaces(string name, Unit unit, string letters)
    {
        var block = Of(name, Sides("4"), Sides("4"), "ABCD", unit);
        Assert.Empty(BlockChecks.Check(block).Select(problem => problem.Message));
        var seen = letters.Replace(" ", "", StringComparison.Ordinal).Select((letter, place) =>
            letter == '?' ? "?" : LetterAt(block, At(place % 3), At(place / 3)));
        Assert.Equal(letters.Replace(" ", "", StringComparison.Ordinal), string.Concat(seen));
    }

    /// <summary>½, 2 and 3½ in: near both edges and in the middle.</summary>
    private static Length At(int third) => Length.FromInches(0, 1 + (3 * third), 2);

    [Theory]
    [InlineData(0, "2", "1 1/2", "1/2", "1/2", "3 1/2", "1/2")]
    [InlineData(90, "1/2", "2", "1 1/2", "1/2", "1 1/2", "3 1/2")]
    [InlineData(180, "2", "1/2", "3 1/2", "1 1/2", "1/2", "1 1/2")]
    [InlineData(270, "1 1/2", "2", "1/2", "3 1/2", "1/2", "1/2")]
    public void Geese_Turned_PointUpRightDownAndLeft(int turn, string gooseX, string gooseY, string leftX, string leftY, string rightX, string rightY)
    {
        var (width, height) = turn % 180 == 0 ? ("4", "2") : ("2", "4");
        var block = Of("Goose", Sides(width), Sides(height), "ABC", Made(0, 0, UnitKind.FlyingGeese, turn, "ABC"));
        Assert.Empty(BlockChecks.Check(block));
        Assert.Equal("A", LetterAt(block, In(gooseX), In(gooseY)));
        Assert.Equal("B", LetterAt(block, In(leftX), In(leftY)));
        Assert.Equal("C", LetterAt(block, In(rightX), In(rightY)));
    }

    private static string LetterAt(Block block, Length x, Length y) => Assert.Single(BlockPatches.Of(block).Patches, patch => Contains(patch, x, y)).Letter;

    /// <summary>All patches are convex and run clockwise, so a point inside is on the right of every side.</summary>
    private static bool Contains(Patch patch, Length x, Length y) => patch.Corners.Zip(patch.Corners.Skip(1).Append(patch.Corners[0])).All(side =>
    {
        var (from, to) = side;
        return ((Int128)(to.X - from.X).Ticks * (y - from.Y).Ticks) - ((Int128)(to.Y - from.Y).Ticks * (x - from.X).Ticks) > 0;
    });
}
