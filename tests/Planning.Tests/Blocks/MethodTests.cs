using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class MethodTests
{
    private static Block HalfSquares(int count, params string[] letters) => Of(
        "Row",
        Equal("3", count),
        Sides("3"),
        "ABC",
        [.. Enumerable.Range(0, count).Select(index => Half(0, index, letters[index % letters.Length]))]);

    // Six of a two-at-a-time unit need three squares of each fabric; five need three and leave one unit over. By counting.
    [Theory]
    [InlineData(6, "A: 3 @ 4 x 4; B: 3 @ 4 x 4", 0)]
    [InlineData(5, "A: 3 @ 4 x 4; B: 3 @ 4 x 4", 1)]
    public void HalfSquares_InEitherOrder_AreCountedTogether(int count, string pieces, int leftOver)
    {
        var list = CutList(HalfSquares(count, "AB", "BA"));
        Assert.Equal(pieces, InShort(list));
        var unit = Assert.Single(list.Units);
        Assert.Equal((count, leftOver, In("3 1/2")), (unit.Count, unit.LeftOver, unit.TrimWidth));
    }

    [Fact]
    public void HalfSquares_OfOtherFabrics_AreCountedApart()
    {
        var list = CutList(HalfSquares(2, "AB", "AC"));
        Assert.Equal("A: 2 @ 4 x 4; B: 1 @ 4 x 4; C: 1 @ 4 x 4", InShort(list));
        Assert.Equal([1, 1], list.Units.Select(unit => unit.LeftOver));
    }

    [Fact]
    public void Kit_OfSeveralBlocks_MultipliesBeforeRoundingUp()
    {
        var list = CutList(HalfSquares(3, "AB"), new() { BlocksPerKit = 4, Methods = new() { HalfSquareTriangle = HalfSquareMethod.EightAtATime } });
        Assert.Equal("A: 2 @ 8 x 8; B: 2 @ 8 x 8", InShort(list));
        Assert.Equal((12, 4), (list.Units[0].Count, list.Units[0].LeftOver));
    }

    [Fact]
    public void EqualPieces_OfDifferentUnits_AreOneLineWithBothUses()
    {
        var block = Of("Two", Sides("3", "3"), Sides("3"), "AB", Plain(0, 0, "A"), Made(0, 1, UnitKind.FlippedCorners, 0, "AB...") with { Corner = In("1") });
        var piece = Assert.Single(CutList(block).Fabrics[0].Pieces);
        Assert.Equal(2, piece.Count);
        Assert.Equal(["plain patches", "patches with flipped corners"], piece.Uses);
    }

    [Fact]
    public void Hourglass_WithUnlikeOppositeTriangles_IsCutAsTriangles()
    {
        var rules = Exact;
        var list = CutList(Of("One", Sides("4"), Sides("4"), "ABC", Quarter(0, 0, "ABCB")), rules);
        Assert.Equal("A: 1 @ 5 1/4 x 5 1/4; B: 1 @ 5 1/4 x 5 1/4; C: 1 @ 5 1/4 x 5 1/4", InShort(list));
        Assert.Equal("Opposite triangles differ, so the triangles are cut and sewn one by one.", list.Units[0].Note);

        // Four triangles of A and C would make four units, but two of B each only two: one left over.
        Assert.Equal(1, list.Units[0].LeftOver);
    }

    [Fact]
    public void Geese_WithUnlikeSkies_AreFlipped()
    {
        var rules = new CuttingRules { Methods = new() { FlyingGeese = GeeseMethod.FourAtATime } };
        var list = CutList(Of("One", Sides("4"), Sides("2"), "ABC", Made(0, 0, UnitKind.FlyingGeese, 0, "ABC")), rules);
        Assert.Equal("A: 1 @ 4 1/2 x 2 1/2; B: 1 @ 2 1/2 x 2 1/2; C: 1 @ 2 1/2 x 2 1/2", InShort(list));
        Assert.Equal("The two skies differ, so the corners are flipped one by one.", list.Units[0].Note);
    }

    [Fact]
    public void StripSets_LongerThanTheCloth_AreShared()
    {
        // Ten segments of 4 1/2 in: eight fit into 40 in, so two sets of five.
        var block = Of("Rails", Equal("4", 10), Sides("4"), "AB", [.. Enumerable.Range(0, 10).Select(column => Made(0, column, UnitKind.Rails, 0, "AB"))]);
        var list = CutList(block, new() { Methods = new() { Rails = PatchMethod.StripPieced } });
        Assert.Equal("A: 2 @ 22 1/2 x 2 1/2; B: 2 @ 22 1/2 x 2 1/2", InShort(list));
    }

    [Fact]
    public void NinePatch_StripPieced_UsesOneSetForTheEqualRows()
    {
        var unit = new Unit { Row = 0, Column = 0, Kind = UnitKind.Checkerboard, Patches = [["A", "B", "A"], ["B", "A", "B"], ["A", "B", "A"]] };
        var list = CutList(Of("Nine", Sides("6"), Sides("6"), "AB", unit), new() { Methods = new() { Checkerboard = PatchMethod.StripPieced } });

        // A B A: two segments of 2 1/2; B A B: one.
        Assert.Equal("A: 2 @ 5 x 2 1/2, 1 @ 2 1/2 x 2 1/2; B: 1 @ 5 x 2 1/2, 2 @ 2 1/2 x 2 1/2", InShort(list));
    }

    [Fact]
    public void Metric_Oversize_Adds25And38Millimetres()
    {
        var rules = new CuttingRules { Metric = true, SeamAllowance = Length.FromMillimetres(6), CuttingStep = Length.FromMillimetres(1) };
        var block = Of("Two", [Length.FromMillimetres(75), Length.FromMillimetres(75)], [Length.FromMillimetres(75)], "AB", Half(0, 0, "AB"), Quarter(0, 1, "ABAB"));
        var sizes = CutList(block, rules).Fabrics[0].Pieces.Select(piece => piece.Width.Millimetres);
        Assert.Equal([113m, 100m], sizes);
    }

    [Fact]
    public void Oversize_WithAWideSeam_IsNeverSmallerThanExact()
    {
        // 1/2 in seams need f + 1.71: one inch more would be too small.
        var rules = new CuttingRules { SeamAllowance = In("1/2") };
        Assert.Equal("A: 1 @ 4 3/4 x 4 3/4; B: 1 @ 4 3/4 x 4 3/4", InShort(CutList(HalfSquares(1, "AB"), rules)));
    }

    [Fact]
    public void NestedBlock_InASmallerCell_IsScaledExactly()
    {
        // A 6 in nine-patch in a 3 in cell: patches finish at 1 in. Its third, in a 4 in cell, is 1 1/3: cut 1 7/8 with the eighth.
        var nine = Of("Nine", Equal("2", 3), Equal("2", 3), "AB", [.. Enumerable.Range(0, 9).Select(cell => Plain(cell / 3, cell % 3, cell % 2 == 0 ? "A" : "B"))]);
        Block In(string side) => Of("Outer", Sides(side), Sides(side), "AB", new Unit { Row = 0, Column = 0, Kind = UnitKind.Block, Inner = nine });
        Assert.Equal("A: 5 @ 1 1/2 x 1 1/2; B: 4 @ 1 1/2 x 1 1/2", InShort(CutList(In("3"))));
        var list = CutList(In("4"));
        Assert.Equal("A: 5 @ 1 7/8 x 1 7/8; B: 4 @ 1 7/8 x 1 7/8", InShort(list));
        Assert.Contains("Trim them", list.Units[0].Note?.ToString(), StringComparison.Ordinal);
        Assert.Equal(Sketch.In("4 1/2"), list.Steps[^1].Width);
    }

    [Fact]
    public void Effects_OfHalfSquares_CompareTheMethods()
    {
        var effects = MethodEffects.For(HalfSquares(8, "AB"), new());
        Assert.Equal(
            ["two at a time, exact", "two at a time, oversize", "eight at a time, exact", "eight at a time, oversize", "triangles cut once"],
            effects.Select(effect => effect.Name));
        Assert.Equal("two at a time, oversize", Assert.Single(effects, effect => effect.IsChosen).Name);

        // By arithmetic: 8 squares of 3 7/8, 8 of 4, 2 of 7 3/4, 2 of 8; 72 square inches show.
        Assert.Equal([120.13m, 128m, 120.13m, 128m, 120.13m], effects.Select(effect => effect.SquareInches));
        Assert.Equal([8, 8, 2, 2, 8], effects.Select(effect => effect.PieceCount));
        Assert.Equal(0.438m, effects[1].HiddenShare);
        Assert.Equal(["A: 1 @ 8″ square", "B: 1 @ 8″ square"], effects[3].Pieces);
    }

    [Fact]
    public void Project_WrittenAndRead_IsTheSame()
    {
        var project = new Project
        {
            Across = 3,
            Down = 4,
            Setting = ProjectSetting.OnPoint,
            Alternate = "B",
            SettingTriangles = "C",
            Sashing = new("D", In("1 1/3"), "E", true),
            Borders = [new("F", Length.FromMillimetres(51)), new("G", In("4"))],
            Binding = new("H", In("2 1/4")),
            Backing = new("I", In("4"), In("108")),
            Fabrics = [new("C", "setting")],
        };
        var reading = ProjectJson.Read(ProjectJson.Write(project));
        Assert.Empty(reading.Problems);
        Assert.Equivalent(project, reading.Project, strict: true);
        var plain = new Project { Across = 1, Down = 1 };
        Assert.Equivalent(plain, ProjectJson.Read(ProjectJson.Write(plain)).Project, strict: true);
    }

    [Theory]
    [InlineData("""{ "down": 1 }""", "across")]
    [InlineData("""{ "across": "1", "down": 1 }""", "across")]
    [InlineData("""{ "across": 1, "down": 1, "version": 9 }""", "version")]
    [InlineData("""{ "across": 1, "down": 1, "setting": "round" }""", "setting")]
    [InlineData("""{ "across": 1, "down": 1, "sashing": { "fabric": "A" } }""", "sashing.width")]
    [InlineData("""{ "across": 1, "down": 1, "borders": [{ "width": 1 }] }""", "borders[0].fabric")]
    [InlineData("""{ "across": 1, "down": 1, "binding": 3 }""", "binding")]
    [InlineData("""{ "across": 1, "down": 1, "quilting": 3 }""", "quilting")]
    [InlineData("""{ "across": 1""", "")]
    public void ProjectText_ThatIsBad_NamesTheField(string json, string field)
    {
        var reading = ProjectJson.Read(json);
        Assert.Null(reading.Project);
        Assert.Equal(field, Assert.Single(reading.Problems).Field);
    }
}
