using System.Net;
using System.Text.Json.Nodes;

namespace KittingBee.Web.Tests.Api;

public sealed class KitFormatsApiTests(ApiHost api) : IClassFixture<ApiHost>
{
    private const string Call = "/api/kit-formats";

    [Fact]
    public async Task Formats_OfASquare_HaveTheAgreedShapeAndReasons()
    {
        var (status, answer) = await api.Post(Call, """{ "pieces": [ { "name": "square", "width": "4 1/2", "height": 4.5, "count": 3 } ], "kits": 24 }""");

        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        Assert.Equal("formats", ApiHost.Names(answer));
        var formats = answer["formats"]!.AsArray().ToDictionary(format => format!["format"]!.GetValue<string>(), format => format!);
        Assert.Equal(
            ["cut-pieces", "fat-eighth", "fat-quarter", "squares-10", "squares-5", "strips-2.5", "yardage"],
            formats.Keys.Order(StringComparer.Ordinal));
        Assert.All(formats.Values, format => Assert.Equal(
            "format feasible reason perKit total packs cost wasteShare teacherMinutes studentCuts", ApiHost.Names(format)));

        // A 4 1/2 in square is cut from a 5 in square and not from a 2 1/2 in strip; three need three 5 in squares (arithmetic).
        Assert.False(formats["strips-2.5"]["feasible"]!.GetValue<bool>());
        Assert.Contains("square", formats["strips-2.5"]["reason"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Null(formats["strips-2.5"]["perKit"]);
        Assert.Equal(3, formats["squares-5"]["perKit"]!.GetValue<decimal>());
        Assert.Equal(72, formats["squares-5"]["total"]!.GetValue<decimal>());
        Assert.Equal(3, formats["cut-pieces"]["perKit"]!.GetValue<decimal>());
        Assert.Equal(4.5m, formats["yardage"]["perKit"]!.GetValue<decimal>());
        Assert.Equal(108m, formats["yardage"]["total"]!.GetValue<decimal>());
    }

    [Fact]
    public async Task Formats_NamedInTheCall_AreTheOnlyOnesTried()
    {
        var (_, answer) = await api.Post(Call, """{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "formats": [ "squares-5", "yardage" ] }""");

        Assert.Equal("squares-5 yardage", string.Join(" ", answer["formats"]!.AsArray().Select(format => format!["format"]!.GetValue<string>())));
    }

    [Fact]
    public async Task Prices_AndPacksOfTheCall_GiveTheCost()
    {
        // 24 kits of three squares each: 72 squares are two packs of 42, or three of 30; 40 lengths of a ⅛ yd are 5 yd (arithmetic).
        var (_, answer) = await api.Post(Call, """
            { "pieces": [ { "name": "square", "width": "4 1/2", "height": 4.5, "count": 3 } ], "kits": 24, "bolt": { "usableWidth": 42, "pricePerYard": 12 },
              "precuts": [ { "format": "squares-5", "packPrice": 9.90 }, { "format": "squares-6", "name": "6 in square", "width": 6, "length": 6, "packSize": 30, "packPrice": 11 } ] }
            """);
        var formats = answer["formats"]!.AsArray().ToDictionary(format => format!["format"]!.GetValue<string>(), format => format!);
        Assert.Equal((2, 19.80m), (formats["squares-5"]["packs"]!.GetValue<int>(), formats["squares-5"]["cost"]!.GetValue<decimal>()));
        Assert.Equal((3, 33m), (formats["squares-6"]["packs"]!.GetValue<int>(), formats["squares-6"]["cost"]!.GetValue<decimal>()));
        Assert.Equal(36m, formats["yardage"]["cost"]!.GetValue<decimal>());
        Assert.Null(formats["squares-10"]["cost"]);
    }

    [Fact]
    public async Task PinkedMargin_OfTheCall_MakesASquareTooSmall()
    {
        var (_, answer) = await api.Post(Call, """
            { "pieces": [ { "name": "square", "width": 4.75, "height": 4.75, "count": 1 } ], "kits": 1, "formats": [ "squares-5" ], "precuts": [ { "format": "squares-5", "pinkedMargin": "1/4" } ] }
            """);
        Assert.Equal("“square” is 4¾″ square; a 5 in square has 4½″ square to cut from. Choose a larger cut.", answer["formats"]![0]!["reason"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "precuts": [ { "format": "squares-5", "packSize": 0 } ] }""", "precuts[0].packSize", "pack of 0")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "precuts": [ { "format": "squares-5", "packPrice": -1 } ] }""", "precuts[0].packPrice", "-1 a pack")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "precuts": [ { "format": "half-moon" } ] }""", "precuts[0]", "Give both sizes")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "precuts": [ { "format": "b", "width": 5, "length": 5 }, { "format": "b", "width": 6, "length": 6 } ] }""", "precuts[1].format", "earlier line")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "precuts": [ { "format": "no-name", "width": 5, "length": 5 }, { "format": "no-name", "width": 6, "length": 6 } ] }""", "precuts[1].format", "no-name\" is the format of an earlier line")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "bolt": { "usableWidth": 0 } }""", "bolt.usableWidth", "usable width is 0")]
    [InlineData("""{ "kits": 2 }""", "pieces", "missing")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ] }""", "kits", "missing")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 0 }""", "kits", "0 kits")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": null }""", "kits", "whole number")]
    [InlineData("""{ "pieces": [], "kits": 2 }""", "pieces", "0 lines")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 0, "height": 2, "count": 1 } ], "kits": 2 }""", "pieces[0].width", "0")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "formats": [ "jar" ] }""", "formats", "cut-pieces, ")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "formats": [ null ] }""", "formats[0]", "null")]
    [InlineData("""{ "pieces": [ { "name": "a", "width": 2, "height": 2, "count": 1 } ], "kits": 2, "formats": "yardage" }""", "formats", "list in square brackets")]
    public async Task BadInput_IsRefused_NamingTheFieldAndTheRemedy(string json, string field, string says) =>
        Assert.Contains(says, await api.Refusal(Call, json, field), StringComparison.Ordinal);
}
