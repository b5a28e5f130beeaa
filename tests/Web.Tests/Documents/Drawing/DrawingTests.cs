using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Tests.Documents.Drawing;

public sealed class DrawingTests
{
    private static readonly Length Three = Length.FromInches(3);

    private static Block Pinwheel(string name = "Pinwheel") => new(
        name,
        [Three, Three],
        [Three, Three],
        [new("A", "ground & <sky>"), new("B", "\"vane\"")],
        [Half(0, 0, 90), Half(0, 1, 180), Half(1, 1, 270), Half(1, 0, 0)]);

    private static Unit Half(int row, int column, int turn) => new()
    {
        Row = row,
        Column = column,
        Kind = UnitKind.HalfSquareTriangle,
        Turn = turn,
        Fabrics = ["A", "B"],
    };

    private static Strip Strip() => new(Three, 2, [new(Three, 5, [new(0, Three, Three, false, 1)]), new(Length.FromInches(1), 1, [new(1, Length.FromInches(1), Length.FromInches(1), false, 2)])]);

    public static TheoryData<string> Drawings() => new(
        BlockDrawing.Svg(Pinwheel("A <b>&\"'\u0001"), new() { Letters = true, Pressing = true, Area = new(0, 0, 1, 2), Scale = 4, OnWhite = true }),
        BlockDrawing.Svg(Pinwheel() with { Units = [] }),
        ProjectDrawing.Svg(Pinwheel(), new() { Across = 2, Down = 2, Sashing = new("A", Three, "B", true), Borders = [new("B", Three)], Binding = new("A", Three) }),
        ProjectDrawing.Svg(Pinwheel(), new() { Across = 2, Down = 3, Setting = ProjectSetting.OnPoint, SettingTriangles = "B" }),
        ProjectDrawing.Svg(Pinwheel(), new() { Across = 0, Down = 3 }),
        StepDrawing.Svg(Pinwheel(), CutLists.For(Pinwheel(), new()).CutList!.Steps[^1]),
        RecipeDrawing.Svg(Strip(), Length.FromInches(40), new() { Letter = "B", Title = "<&>" }),
        RecipeDrawing.Svg(new SheetRecipe(0, "quarter", 1, true, [Strip()]), new SheetStock("quarter", Length.FromInches(18), Length.FromInches(21), null, 3m)));

    [Theory]
    [MemberData(nameof(Drawings))]
    public void Drawing_OfAnyKind_IsWellFormedNamedAndWithoutStylesOrScripts(string svg)
    {
        var root = XElement.Parse(svg);
        Assert.Equal("img", (string?)root.Attribute("role"));
        var ids = root.Descendants().Attributes("id").Select(id => id.Value).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.All(((string)root.Attribute("aria-labelledby")!).Split(' '), id => Assert.Contains(id, ids));
        var used = root.Descendants().Attributes("fill").Select(fill => fill.Value).Where(fill => fill.StartsWith("url(#", StringComparison.Ordinal));
        Assert.All(used, fill => Assert.Contains(fill[5..^1], ids));
        Assert.DoesNotContain(root.DescendantsAndSelf().Attributes(), attribute =>
            attribute.Name.LocalName == "style" || (attribute.Name.LocalName == "href" && attribute.Value[0] != '#') || attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
        Assert.DoesNotContain(root.DescendantsAndSelf(), element => element.Name.LocalName is "script" or "style" or "foreignObject");
    }

    [Fact]
    public void BlockDrawing_OfAPinwheel_DrawsEachPatchWithItsLettersHatch()
    {
        var root = XElement.Parse(BlockDrawing.Svg(Pinwheel(), new() { Width = 200, Id = "x" }));
        var fills = root.Descendants().Where(element => element.Name.LocalName == "polygon").Select(patch => (string)patch.Attribute("fill")!).ToList();
        Assert.Equal(8, fills.Count);
        Assert.Equal(4, fills.Count(fill => fill == "url(#x-A)"));
        Assert.Contains("4 patches of A ground & <sky>", root.Descendants().First(element => element.Name.LocalName == "desc").Value, StringComparison.Ordinal);
    }

    [Fact]
    public void BlockDrawing_AtAScale_IsThatLargeOnPaper()
    {
        // A 6 in block at 1 : 2 is 3 in wide; the frame adds a unit of 100 on each side.
        var root = XElement.Parse(BlockDrawing.Svg(Pinwheel(), new() { Width = 100, Scale = 2 }));
        Assert.Equal("3.06in", (string?)root.Attribute("width"));
        Assert.Contains("scale 1 : 2", root.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void BlockDrawing_WithAColourThatIsNone_KeepsTheDye()
    {
        var options = new DrawingOptions { Colours = new Dictionary<string, string> { ["A"] = "red\"/><script>", ["B"] = "#12AB9f" } };
        var svg = BlockDrawing.Svg(Pinwheel(), options);
        Assert.DoesNotContain("script", svg, StringComparison.Ordinal);
        Assert.Contains("#12AB9f", svg, StringComparison.Ordinal);
        Assert.Contains(FabricLook.Of("A").Colour, svg, StringComparison.Ordinal);
    }

    [Fact]
    public void BlockDrawing_OfABlockWithOneBadUnit_DrawsTheOthers()
    {
        var block = Pinwheel();
        block = block with { Units = [.. block.Units.Skip(1), block.Units[0] with { Turn = 45 }] };
        var root = XElement.Parse(BlockDrawing.Svg(block));
        Assert.Equal(6, root.Descendants().Count(element => element.Name.LocalName == "polygon"));
    }

    [Fact]
    public void ProjectDrawing_OnPoint_UsesTheBlockAtEveryPlace()
    {
        var project = new Project { Across = 2, Down = 3, Setting = ProjectSetting.OnPoint, SettingTriangles = "B" };
        var root = XElement.Parse(ProjectDrawing.Svg(Pinwheel(), project));
        var uses = root.Descendants().Where(element => element.Name.LocalName == "use").ToList();
        Assert.Equal(project.Blocks, uses.Count);
        Assert.All(uses, use => Assert.Contains("rotate(45)", (string)use.Attribute("transform")!, StringComparison.Ordinal));
    }

    [Fact]
    public void RecipeDrawing_ShownSmall_SaysTheSameInWordsThatCanBeReadThere()
    {
        var picture = RecipeDrawing.Picture(Strip(), Length.FromInches(40), new() { Width = 700, SmallestWidth = 290 });
        var groups = XElement.Parse(picture.Svg).Elements().Where(element => element.Attribute("class") is not null).ToDictionary(element => (string)element.Attribute("class")!);
        List<XElement> Texts(string group) => [.. groups[group].Descendants().Where(element => element.Name.LocalName == "text")];
        List<string> Words(string group) => [.. Texts(group).Select(text => Regex.Replace(text.Value, "^[0-9]+: ", "")).Where(words => !int.TryParse(words, out _))];

        // Read at arm's length: 12 CSS px are 9 pt, common practice for the least of body text, no source.
        Assert.All(Texts("largewords"), text => Assert.True(decimal.Parse((string)text.Attribute("font-size")!, CultureInfo.InvariantCulture) * 290 / 700 >= 11.99m));
        Assert.Equal("none", (string)groups["largewords"].Attribute("display")!);
        Assert.NotEmpty(picture.Numbered);
        Assert.Subset(Words("asdrawn").ToHashSet(), Words("largewords").Concat(picture.Numbered).ToHashSet());
        Assert.Subset(Words("largewords").Concat(picture.Numbered).ToHashSet(), Words("asdrawn").Where(words => words.Contains(" of ", StringComparison.Ordinal)).ToHashSet());
        Assert.Equal(Enumerable.Range(1, picture.Numbered.Count).Select(number => $"{number}"), Texts("largewords").Select(text => text.Value).Where(text => int.TryParse(text, out _)).Distinct());
        Assert.DoesNotContain("largewords", RecipeDrawing.Svg(Strip(), Length.FromInches(40), new() { Width = 700 }), StringComparison.Ordinal);
    }

    [Fact]
    public void RecipeDrawing_OfANarrowSheet_HasRoomForTheWordsBelowIt()
    {
        var strip = new Strip(Three, 1, [new(Three, 1, [new(0, Three, Three, false, 1)])]);
        var root = XElement.Parse(RecipeDrawing.Svg(new SheetRecipe(0, "remnant", 1, false, [strip]), new SheetStock("remnant", Length.FromInches(3, 1, 2), Length.FromInches(42), 1, 0m), new() { Width = 400 }));
        var words = root.Descendants().Single(element => element.Name.LocalName == "text" && element.Value.StartsWith("1: ", StringComparison.Ordinal));
        var width = decimal.Parse(((string)root.Attribute("viewBox")!).Split(' ')[2], CultureInfo.InvariantCulture);

        // Letters of a sans serif are half as wide as they are high, taken together: common practice, no source.
        Assert.True(width >= words.Value.Length * decimal.Parse((string)words.Attribute("font-size")!, CultureInfo.InvariantCulture) / 2, $"“{words.Value}” under a drawing {width} wide");
    }

    [Fact]
    public void RecipeDrawing_OfAStrip_IsToScale()
    {
        var root = XElement.Parse(RecipeDrawing.Svg(Strip(), Length.FromInches(40), new() { Width = 400 }));
        var pieces = root.Descendants().Where(element => ((string?)element.Attribute("fill"))?.StartsWith("url", StringComparison.Ordinal) == true).ToList();

        // 10 units to the inch: five squares of 30, two of 10.
        Assert.Equal(["30", "30", "30", "30", "30", "10", "10"], pieces.Select(piece => (string)piece.Attribute("width")!));
        Assert.Equal(["0", "30", "60", "90", "120", "150", "150"], pieces.Select(piece => (string)piece.Attribute("x")!));
    }
}
