using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class ProjectTests
{
    private static readonly BlockFabric[] Around = [new("S", "setting"), new("T", "stones"), new("U", "border"), new("V", "binding"), new("W", "backing")];

    private static Block Patch(string side) => Of("Patch", Sides(side), Sides(side), "A", Plain(0, 0, "A"));

    private static ProjectResult Result(Block block, Project project, CuttingRules? rules = null)
    {
        var result = ProjectCutLists.For(block, project with { Fabrics = Around }, rules ?? new());
        Assert.Empty(result.Problems.Select(problem => problem.Message));
        return result;
    }

    private static int Count(ProjectResult result, string use) =>
        result.CutList!.Fabrics.SelectMany(fabric => fabric.Pieces).Where(piece => piece.Uses.Any(one => one.ToString().StartsWith(use, StringComparison.Ordinal))).Sum(piece => piece.Count);

    // Strips at 40 and 42 in for (perimeter + 10 in): recomputed from the rule of C&T Publishing's "Calculating Yardage for
    // Straight-Grain Binding"; 60 x 70 at 40 in, 7 strips: Quilter's World, June 2021.
    [Theory]
    [InlineData("36", "52", 5, 5)]
    [InlineData("45", "60", 6, 6)]
    [InlineData("50", "65", 6, 6)]
    [InlineData("60", "70", 7, 7)]
    [InlineData("60", "80", 8, 7)]
    [InlineData("68", "88", 9, 8)]
    [InlineData("84", "92", 10, 9)]
    [InlineData("96", "110", 11, 11)]
    [InlineData("102", "92", 10, 10)]
    public void Binding_OfPublishedQuilts_TakesTheseStrips(string width, string height, int at40, int at42)
    {
        Assert.Equal(at40, JoinedStrips.ForBinding(In(width), In(height), In("40"), In("1/4")));
        Assert.Equal(at42, JoinedStrips.ForBinding(In(width), In(height), In("42"), In("1/4")));
    }

    // Magazine projects at 42 in, allpeoplequilt.com: edge sizes and binding strips.
    [Theory]
    [InlineData("13 1/2", "49 1/2", 4)]
    [InlineData("15 1/2", "33 1/2", 3)]
    [InlineData("24 1/2", "60 1/2", 5)]
    [InlineData("18 1/2", "42 1/2", 4)]
    public void Binding_OfMagazineProjects_TakesTheStripsPrinted(string width, string height, int strips) =>
        Assert.Equal(strips, JoinedStrips.ForBinding(In(width), In(height), In("42"), In("1/4")));

    // 4 x 5 blocks with sashing outside too: 30 cornerstones and 49 sashes, susanintexas.blogspot.com, Feb 2009. Shoo Fly,
    // Sharon Stroud, Feb 2012: 20 blocks of 9 in, finished sash 2 1/2 gives 48 1/2 x 60.
    [Fact]
    public void Sashing_OutsideToo_HasThePublishedCounts()
    {
        var result = Result(Patch("9"), new() { Across = 4, Down = 5, Sashing = new("S", In("2 1/2"), "T", Outside: true) });
        Assert.Equal(49, Count(result, "sashing between"));
        Assert.Equal(30, Count(result, "cornerstones"));
        Assert.Equal((In("48 1/2"), In("60")), (result.Width, result.Height));
        Assert.Equal("A: 20 @ 9 1/2 x 9 1/2; S: 49 @ 9 1/2 x 3; T: 30 @ 3 x 3", InShort(result.CutList!));
    }

    // Janet Wickell, quilting.about.com: 12 in block, 3 in sashing: strips 3 1/2 by the unfinished block, cornerstones 3 1/2.
    // Without the outer frame: n(m-1) + m(n-1) sashes and (n-1)(m-1) cornerstones, by counting.
    [Fact]
    public void Sashing_Between_IsCutAsPublished()
    {
        var result = Result(Patch("12"), new() { Across = 3, Down = 4, Sashing = new("S", In("3"), "T", Outside: false) });
        Assert.Equal("A: 12 @ 12 1/2 x 12 1/2; S: 17 @ 12 1/2 x 3 1/2; T: 6 @ 3 1/2 x 3 1/2", InShort(result.CutList!));
        Assert.Empty(result.Notes);
    }

    [Fact]
    public void Sashing_WithoutCornerstones_JoinsStripsLongerThanTheCloth()
    {
        // Rows finish at 4 x 12 + 3 x 2 = 54 in; two long strips of 54 1/2 in from 40 in cloth: 109 in takes three strips
        // (3 x 40 less two joins of 1/2 is 119).
        var result = Result(Patch("12"), new() { Across = 4, Down = 3, Sashing = new("S", In("2"), null, Outside: false) });
        Assert.Equal("A: 12 @ 12 1/2 x 12 1/2; S: 3 @ 40 x 2 1/2, 9 @ 12 1/2 x 2 1/2", InShort(result.CutList!));
    }

    // Sides and corners of the chart on lukas.is-a-geek.org/tani/chart.htm for 12 in blocks; counts 2(r-1) + 2(c-1) sides, 4
    // corners, and (r-1)(c-1) places between, by counting.
    [Fact]
    public void OnPoint_ThreeByFour_HasSideAndCornerTriangles()
    {
        var project = new Project { Across = 3, Down = 4, Setting = ProjectSetting.OnPoint, SettingTriangles = "S", Alternate = "T" };
        var result = Result(Patch("12"), project);
        Assert.Equal("A: 12 @ 12 1/2 x 12 1/2; S: 3 @ 18 1/4 x 18 1/4, 2 @ 9 3/8 x 9 3/8; T: 6 @ 12 1/2 x 12 1/2", InShort(result.CutList!));

        // 3 x 12 x √2 = 50.912.
        Assert.Equal(50.912m, decimal.Round(result.Width.Inches, 3));
        Assert.Equal(67.882m, decimal.Round(result.Height.Inches, 3));
        Assert.Equal(18, (project with { Alternate = null }).Blocks);
    }

    // Geometry: with 6 in blocks and 1 1/2 in strips, side triangles finish with legs of 7 1/2 in, corners with a hypotenuse of
    // 9 in; by the formulas of the published chart, 7.5√2 + 1 1/4 = 11.857 and 9/√2 + 7/8 = 7.239.
    [Fact]
    public void OnPoint_WithSashing_HasTrianglesForItsPitch()
    {
        var project = new Project { Across = 2, Down = 2, Setting = ProjectSetting.OnPoint, SettingTriangles = "S", Sashing = new("U", In("1 1/2"), "V", Outside: true) };
        var result = Result(Patch("6"), project);
        Assert.Equal("A: 5 @ 6 1/2 x 6 1/2; S: 1 @ 11 7/8 x 11 7/8, 2 @ 7 1/4 x 7 1/4; U: 16 @ 6 1/2 x 2; V: 12 @ 2 x 2", InShort(result.CutList!));

        // (2 x 7.5 + 1.5)√2 = 23.335.
        Assert.Equal(23.335m, decimal.Round(result.Width.Inches, 3));
    }

    // jmncreativeendeavours.ca, Apr 2022: six 3 in strips x 42 in give 252 in of border (before joins).
    [Fact]
    public void Borders_WithButtedCorners_AreAddedFromTheInsideOut()
    {
        var result = Result(Patch("12"), new() { Across = 2, Down = 2, Borders = [new("S", In("2")), new("U", In("4"))] });
        Assert.Equal((In("36"), In("36")), (result.Width, result.Height));

        // Inner: sides 24 1/2, top and bottom 28 1/2. Outer: sides 28 1/2, top and bottom 36 1/2; all within 40 in of cloth.
        Assert.Equal(
            "A: 4 @ 12 1/2 x 12 1/2; S: 2 @ 28 1/2 x 2 1/2, 2 @ 24 1/2 x 2 1/2; U: 2 @ 36 1/2 x 4 1/2, 2 @ 28 1/2 x 4 1/2",
            InShort(result.CutList!));
        Assert.Equal(In("36 1/2"), result.CutList!.UnfinishedWidth);
    }

    [Theory]
    [InlineData("40", 1)]
    [InlineData("40 1/8", 2)]
    [InlineData("79 1/2", 2)]
    [InlineData("79 5/8", 3)]
    [InlineData("119", 3)]
    [InlineData("119 1/8", 4)]
    public void JoinedStrips_EachJoin_CostsTwoAllowances(string length, int strips) =>
        Assert.Equal(strips, JoinedStrips.Count(In(length), In("40"), In("1/4")));

    // allpeoplequilt.com, Built-to-Order runner: 13 1/2 x 49 1/2 edge to edge, backing about 8 in over: 22 x 58 fits one width of
    // 42 in cloth. Binding: 4 strips 2 1/2 x 42.
    [Fact]
    public void Runner_AsPublished_HasOnePanelAndFourStrips()
    {
        var rules = new CuttingRules { UsableWidth = In("42") };
        var project = new Project
        {
            Across = 1,
            Down = 5,
            Borders = [new("U", In("2"))],
            Binding = new("V", In("2 1/2")),
            Backing = new("W", In("4 1/4"), null),
        };
        var result = Result(Patch("9"), project, rules);
        Assert.Equal((In("13 1/2"), In("49 1/2")), (result.CutList!.UnfinishedWidth, result.CutList.UnfinishedHeight));
        Assert.Equal("A: 5 @ 9 1/2 x 9 1/2; U: 3 @ 42 x 2 1/2, 2 @ 13 1/2 x 2 1/2; V: 4 @ 42 x 2 1/2; W: 1 @ 22 x 58", InShort(result.CutList));
    }

    // sewberrychic.com/backing: 60 x 80 with 4 in each side is 68 x 88.
    [Fact]
    public void Backing_WiderThanTheCloth_IsPanelsOfTheShorterLength()
    {
        var project = new Project { Across = 1, Down = 1, Backing = new("W", In("4"), In("42")) };
        var block = Of("Top", Sides("59 1/2"), Sides("79 1/2"), "A", Plain(0, 0, "A"));
        var result = Result(block, project);

        // Upright panels: two of 88 in; level ones would be three of 68 in. Each panel (68 + 1/2) / 2 wide.
        Assert.Equal("2 @ 34 1/4 x 88", InShort(result.CutList!)[(InShort(result.CutList!).IndexOf("W: ", StringComparison.Ordinal) + 3)..]);
    }

    [Fact]
    public void Project_WithKitsOfBlocks_CountsUnitsOfAllBlocksTogether()
    {
        // Three blocks with one half-square triangle each: two pairs of squares, one unit left over.
        var block = Of("Half", Sides("3"), Sides("3"), "AB", Half(0, 0, "AB"));
        var result = Result(block, new() { Across = 3, Down = 1 });
        Assert.Equal("A: 2 @ 4 x 4; B: 2 @ 4 x 4", InShort(result.CutList!));
        Assert.Equal(1, result.CutList!.Units[0].LeftOver);
        Assert.Equal(Enumerable.Range(1, result.CutList.Steps.Count), result.CutList.Steps.Select(step => step.Number));
    }

    [Fact]
    public void Project_WithSeveralStepsOfItsOwn_NumbersThemOnWithoutAGap()
    {
        var block = Of("Half", Sides("3"), Sides("3"), "AB", Half(0, 0, "AB"));
        var result = Result(block, new() { Across = 3, Down = 2, Borders = [new("A", In("1")), new("B", In("2"))], Binding = new("A", In("2 1/2")) });
        Assert.Equal([1, 2, 3, 4, 5], result.CutList!.Steps.Select(step => step.Number));
    }

    [Theory]
    [InlineData(3, 2, true, true)]
    [InlineData(2, 4, true, false)]
    [InlineData(1, 1, false, true)]
    [InlineData(4, 3, false, false)]
    public void Layout_OfAStraightSetting_FillsItsSizeWithThePiecesOfTheCutList(int across, int down, bool outside, bool stones)
    {
        var project = new Project
        {
            Across = across,
            Down = down,
            Sashing = new("S", In("2"), stones ? "T" : null, outside),
            Borders = [new("U", In("1 1/2")), new("U", In("4"))],
            Fabrics = Around,
        };
        var layout = ProjectLayout.Of(Patch("6"), project);
        var result = Result(Patch("6"), project);
        Assert.Equal((result.Width, result.Height), (layout.Width, layout.Height));
        var area = layout.Patches.Aggregate((Int128)0, (sum, patch) => sum + patch.TwiceArea) + (2 * (Int128)In("6").Ticks * In("6").Ticks * layout.Blocks.Count);
        Assert.Equal(2 * (Int128)layout.Width.Ticks * layout.Height.Ticks, area);
        Assert.Equal(project.Blocks, layout.Blocks.Count);
        Assert.Equal(Count(result, "cornerstones"), layout.Patches.Count(patch => patch.Letter == "T"));
        if (stones)
        {
            Assert.Equal(Count(result, "sashing"), layout.Patches.Count(patch => patch.Letter == "S"));
        }
    }

    [Theory]
    [InlineData(1, 1, true, false)]
    [InlineData(3, 4, true, false)]
    [InlineData(3, 4, false, false)]
    [InlineData(1, 1, true, true)]
    [InlineData(3, 4, true, true)]
    [InlineData(4, 2, false, true)]
    public void Layout_OnPoint_FillsItsSize(int across, int down, bool alternate, bool sashing)
    {
        var project = new Project
        {
            Across = across,
            Down = down,
            Setting = ProjectSetting.OnPoint,
            SettingTriangles = "S",
            Alternate = alternate ? "T" : null,
            Sashing = sashing ? new("U", In("1 1/2"), "V", Outside: true) : null,
            Fabrics = Around,
        };
        var layout = ProjectLayout.Of(Patch("6"), project);
        var result = Result(Patch("6"), project);
        Assert.Equal((result.Width, result.Height), (layout.Width, layout.Height));
        Assert.Equal(project.Blocks, layout.Blocks.Count);
        Assert.Equal(Count(result, "sashing"), layout.Patches.Count(patch => patch.Letter == "U"));
        Assert.Equal(Count(result, "cornerstones"), layout.Patches.Count(patch => patch.Letter == "V"));

        // 2(r - 1) + 2(c - 1) side triangles and 4 corners, by counting.
        Assert.Equal((2 * (across - 1)) + (2 * (down - 1)) + 4, layout.Patches.Count(patch => patch.Letter == "S"));
        Assert.All(layout.Patches, patch => Assert.True(patch.TwiceArea > 0));
        var area = (decimal)layout.Patches.Aggregate((Int128)0, (sum, patch) => sum + patch.TwiceArea) / 2 / Length.TicksPerInch / Length.TicksPerInch;
        var whole = layout.Width.Inches * layout.Height.Inches;
        Assert.InRange(area + (36 * layout.Blocks.Count), whole - 0.001m, whole + 0.001m);
    }

    public static TheoryData<string, string, Project> BadProjects() => new()
    {
        { "project.across", "0 blocks across", new() { Across = 0, Down = 1 } },
        { "project.down", "41 blocks down", new() { Across = 1, Down = 41 } },
        { "project.sashing.cornerstones", "needs cornerstones", new() { Across = 2, Down = 2, Setting = ProjectSetting.OnPoint, SettingTriangles = "S", Sashing = new("S", In("1"), null, true) } },
        { "project.sashing.outside", "goes round the outside", new() { Across = 2, Down = 2, Setting = ProjectSetting.OnPoint, SettingTriangles = "S", Sashing = new("S", In("1"), "T", false) } },
        { "project.settingTriangles", "The side and corner triangles have no fabric. Give their letter.", new() { Across = 2, Down = 2, Setting = ProjectSetting.OnPoint } },
        { "project.sashing.width", "more than 0", new() { Across = 2, Down = 2, Sashing = new("S", Length.Zero, null, false) } },
        { "project.sashing.cornerstones", "The cornerstones use fabric Q", new() { Across = 2, Down = 2, Sashing = new("S", In("1"), "Q", false) } },
        { "project.sashing.fabric", "The sashing uses fabric Q", new() { Across = 2, Down = 2, Sashing = new("Q", In("1"), null, false) } },
        { "project.borders[0].width", "at most 40", new() { Across = 2, Down = 2, Borders = [new("S", In("41"))] } },
        { "project.binding.stripWidth", "more than 0", new() { Across = 2, Down = 2, Binding = new("S", -In("1")) } },
        { "project.backing.overhang", "0 to 40", new() { Across = 2, Down = 2, Backing = new("S", -In("1"), null) } },
        { "project.backing.usableWidth", "10", new() { Across = 2, Down = 2, Backing = new("S", In("1"), In("5")) } },
    };

    [Theory]
    [MemberData(nameof(BadProjects))]
    public void Project_ThatIsBad_NamesFieldAndRemedy(string field, string part, Project project)
    {
        var result = ProjectCutLists.For(Patch("12"), project with { Fabrics = Around }, new());
        Assert.Null(result.CutList);
        var problem = Assert.Single(result.Problems);
        Assert.Equal(field, problem.Field);
        Assert.Contains(part, problem.Message, StringComparison.Ordinal);
    }
}
