using System.Text.Json;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class BlockJsonTests
{
    private const string Good = """
        { "name": "Two", "columns": [3, "3 in"], "rows": ["7.62 cm"], "fabrics": [{ "letter": "A", "name": "sky" }, { "letter": "B" }],
          "units": [{ "row": 0, "column": 0, "kind": "plain", "fabrics": ["A"] }, { "row": 0, "column": 1, "kind": "half-square-triangle", "fabrics": ["A", "B"], "turn": 90 }] }
        """;

    private static string With(string old, string replacement)
    {
        Assert.Contains(old, Good, StringComparison.Ordinal);
        return Good.Replace(old, replacement, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_WithoutVersion_IsReadAsVersionOne()
    {
        var block = BlockJson.Read(Good).Block!;
        Assert.Equal([In("3"), In("3")], block.Columns);
        Assert.Equal([In("3")], block.Rows);
        Assert.Equal(new BlockFabric("B", ""), block.Fabrics[1]);
        Assert.Equal((0, 1, UnitKind.HalfSquareTriangle, 90), (block.Units[1].Row, block.Units[1].Column, block.Units[1].Kind, block.Units[1].Turn));
        Assert.Empty(BlockChecks.Check(block));
    }

    public static TheoryData<string, string, string> BadTexts() => new()
    {
        { "", "", "not JSON" },
        { "{", "", "not JSON: line 1" },
        { "[]", "", "should. Write a block as {" },
        { "null", "", "should. Write a block as {" },
        { With("\"name\": \"Two\"", "\"name\": \"Two\", \"version\": 2"), "version", "of version 2; this program reads version 1" },
        { With("\"name\": \"Two\"", "\"name\": \"Two\", \"version\": \"x\""), "version", "of version \"x\"" },
        { With("\"name\": \"Two\",", ""), "name", "\"name\" is missing" },
        { With("\"name\": \"Two\"", "\"name\": 7"), "name", "\"name\" is 7. Give a text" },
        { With("\"name\": \"Two\"", "\"name\": \"Two\", \"name\": \"Three\""), "", "not JSON" },
        { With("[3, \"3 in\"]", "3"), "columns", "should. Write it in [" },
        { With("[3, \"3 in\"]", "[3, true]"), "columns[1]", "true is not a length" },
        { With("[3, \"3 in\"]", "[3, 1e400]"), "columns[1]", "1e400 is not a length" },
        { With("\"3 in\"", "\"3 ells\""), "columns[1]", "3 ells" },
        { With("\"kind\": \"plain\"", "\"kind\": \"star\""), "units[0].kind", "\"star\" is not a kind of unit. Use one of plain, half-square-triangle" },
        { With("\"row\": 0, \"column\": 0,", "\"column\": 0,"), "units[0].row", "\"row\" is missing" },
        { With("\"row\": 0, \"column\": 0,", "\"row\": 0.5, \"column\": 0,"), "units[0].row", "0.5. Give a whole number" },
        { With("\"turn\": 90", "\"turn\": \"left\""), "units[1].turn", "\"left\". Give a whole number" },
        { With("\"turn\": 90", "\"trun\": 90"), "units[1].trun", "is not a field of a unit. Its fields are row, column" },
        { With("\"fabrics\": [\"A\"]", "\"fabrics\": [1]"), "units[0].fabrics[0]", "1 is not a fabric's letter" },
        { With("{ \"letter\": \"B\" }", "{ \"name\": \"B\" }"), "fabrics[1].letter", "\"letter\" is missing" },
        { With("{ \"letter\": \"B\" }", "\"B\""), "fabrics[1]", "should. Write a fabric as {" },
        { With("\"turn\": 90", "\"inner\": []"), "units[1].inner", "should. Write a block as {" },
    };

    [Theory]
    [MemberData(nameof(BadTexts))]
    public void Text_ThatIsBad_NamesTheFieldAndTheRemedy(string json, string field, string part)
    {
        var reading = BlockJson.Read(json);
        Assert.Null(reading.Block);
        var problem = Assert.Single(reading.Problems);
        Assert.Equal(field, problem.Field);
        Assert.Contains(part, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_NestedTooDeepOrTooLong_IsRefused()
    {
        Assert.Contains("not JSON", BlockJson.Read(new string('[', 5000)).Problems[0].Message, StringComparison.Ordinal);
        Assert.Contains("at most", BlockJson.Read(new string(' ', BlockJson.LongestText + 1)).Problems[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Part_OfALargerText_NamesItsFieldsFromThePath()
    {
        using var document = JsonDocument.Parse("""{ "block": { "name": 1, "columns": [], "rows": [], "fabrics": [], "units": [] } }""");
        Assert.Equal("block.name", Assert.Single(BlockJson.Read(document.RootElement.GetProperty("block"), "block.").Problems).Field);
    }

    [Fact]
    public void Block_WithEveryKind_ComesBackExactly()
    {
        var block = EveryKind();
        Assert.Empty(BlockChecks.Check(block).Select(problem => problem.Message));
        var text = BlockJson.Write(block);
        var back = BlockJson.Read(text).Block!;
        Assert.Equal(text, BlockJson.Write(back));
        Assert.Equal(block.Columns, back.Columns);
        Assert.Equal(block.Rows, back.Rows);
        Assert.Equal(block.Fabrics, back.Fabrics);
        Assert.All(block.Units.Zip(back.Units), pair =>
        {
            Assert.Equivalent(pair.First, pair.Second, strict: true);
        });
    }

    /// <summary>A block that holds each kind once, with lengths that are no round numbers of inches.</summary>
    internal static Block EveryKind()
    {
        var cell = Length.FromMillimetres(77.001m);
        return new(
            "Every \"kind\" – ½",
            [cell, cell, cell, cell],
            [cell, cell, cell],
            [new("A", "one"), new("B", ""), new("C", "trois")],
            [
                Plain(0, 0, "A"),
                Half(0, 1, "AB", 270),
                Quarter(0, 2, "ABCB", 90),
                Made(0, 3, UnitKind.FlyingGeese, 90, "ABC") with { RowSpan = 2 },
                Made(1, 0, UnitKind.FlippedCorners, 0, "A.B.C") with { Corner = Length.FromTicks(400_001) },
                Made(1, 1, UnitKind.SquareInASquare, 180, "ABCBC"),
                Made(1, 2, UnitKind.Rails, 0, "ABC") with { Widths = [Length.FromMillimetres(20), Length.FromMillimetres(30), Length.FromMillimetres(27.001m)] },
                new Unit { Row = 2, Column = 0, Kind = UnitKind.Checkerboard, Patches = [["A", "B"], ["C", "A"], ["A", "A"]] },
                new Unit { Row = 2, Column = 1, Kind = UnitKind.Block, Inner = Of("Inner", Sides("1", "2"), Sides("3"), "AB", Plain(0, 0, "A"), Plain(0, 1, "B")), Turn = 90 },
                Made(2, 2, UnitKind.Template, 0, "C") with { ColumnSpan = 2, CutWidth = In("7"), CutHeight = In("3 1/2"), Count = 2 },
            ]);
    }

    [Fact]
    public void Schema_NamesTheFieldsAndKindsThatAreWritten()
    {
        using var schema = JsonDocument.Parse(BlockSchema.Json);
        using var block = JsonDocument.Parse(BlockJson.Write(EveryKind()));
        var root = schema.RootElement;
        Assert.Equal("/schemas/block.json", root.GetProperty("$id").GetString());
        var unit = root.GetProperty("$defs").GetProperty("unit").GetProperty("properties");
        Assert.Equal(UnitKinds.Names, unit.GetProperty("kind").GetProperty("enum").EnumerateArray().Select(name => name.GetString()!));

        var ofBlock = root.GetProperty("properties").EnumerateObject().Select(field => field.Name).ToHashSet();
        Assert.All(block.RootElement.EnumerateObject(), field => Assert.Contains(field.Name, ofBlock));
        var ofUnit = unit.EnumerateObject().Select(field => field.Name).ToHashSet();
        var written = block.RootElement.GetProperty("units").EnumerateArray().SelectMany(one => one.EnumerateObject()).Select(field => field.Name).ToHashSet();
        Assert.Subset(ofUnit, written);

        // Every field of the schema is written at least once here, save the row span's and column span's defaults.
        Assert.Equal(ofUnit.Order(), written.Order());
    }
}
