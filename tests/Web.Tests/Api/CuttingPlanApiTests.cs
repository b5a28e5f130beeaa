using System.Net;
using System.Text.Json.Nodes;

namespace KittingBee.Web.Tests.Api;

public sealed class CuttingPlanApiTests(ApiHost api) : IClassFixture<ApiHost>
{
    private const string Call = "/api/cutting-plan";

    // 24 squares of 4 1/2 in: 9 across 42 in make 3 strips of 4 1/2 in, 13 1/2 in, sold as 3/8 yd (arithmetic).
    private const string TwentyFour = """
        { "stock": { "bolt": { "usableWidth": 42, "increment": 4.5, "minimum": 4.5, "pricePerYard": 12 }, "sheets": [] },
          "directional": false, "layers": 4, "longestStrip": 24, "objective": "least-work",
          "pieces": [ { "name": "square", "width": 4.5, "height": "4 1/2", "count": 24 } ] }
        """;

    [Fact]
    public async Task Plan_OfSquares_HasTheAgreedShapeAndFigures()
    {
        var (status, answer) = await api.Post(Call, TwentyFour);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal("length floor buy oneSizePerStrip strips sheets surplus strokes", ApiHost.Names(answer));
        Assert.Equal("length cost", ApiHost.Names(answer["buy"]));
        Assert.Equal("length cost", ApiHost.Names(answer["oneSizePerStrip"]));
        var strip = answer["strips"]!.AsArray()[0]!;
        Assert.Equal("height repeat columns", ApiHost.Names(strip));
        var column = strip["columns"]!.AsArray()[0]!;
        Assert.Equal("width repeat pieces", ApiHost.Names(column));
        var stacked = column["pieces"]!.AsArray()[0]!;
        Assert.Equal("piece width height turned count", ApiHost.Names(stacked));
        Assert.Equal("square", stacked["piece"]!.GetValue<string>());
        Assert.Equal(4.5m, stacked["width"]!.GetValue<decimal>());
        Assert.Equal(13.5m, answer["length"]!.GetValue<decimal>());
        Assert.Equal(13.5m, answer["buy"]!["length"]!.GetValue<decimal>());
        Assert.Equal(4.50m, answer["buy"]!["cost"]!.GetValue<decimal>());
        Assert.True(answer["floor"]!.GetValue<decimal>() <= 13.5m);
        Assert.True(answer["strokes"]!.GetValue<int>() > 0);
    }

    [Fact]
    public async Task Plan_OfSquares_CutsEveryPiece()
    {
        var (_, answer) = await api.Post(Call, TwentyFour);

        Assert.Equal(24 + Surplus(answer), answer["strips"]!.AsArray().Sum(PiecesIn));
    }

    [Fact]
    public async Task Plan_FromSheets_NamesTheSheet()
    {
        // Four 9 in squares lie on an 18 x 18 in remnant (arithmetic).
        var (status, answer) = await api.Post(Call, """
            { "stock": { "sheets": [ { "name": "remnant", "width": 18, "length": 18, "available": 1, "price": 0 } ] },
              "pieces": [ { "name": "square", "width": 9, "height": 9, "count": 4 } ] }
            """);

        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        var sheet = Assert.Single(answer["sheets"]!.AsArray())!;
        Assert.Equal("name repeat lengthwise strips", ApiHost.Names(sheet));
        Assert.Equal("remnant", sheet["name"]!.GetValue<string>());
        Assert.Equal(4 + Surplus(answer), sheet["strips"]!.AsArray().Sum(PiecesIn) * sheet["repeat"]!.GetValue<int>());
        Assert.Equal(0m, answer["buy"]!["cost"]!.GetValue<decimal>());
    }

    [Theory]
    [InlineData("""{ "pieces": [] }""", "stock", "missing")]
    [InlineData("""{ "stock": {}, "pieces": [] }""", "pieces", "at least one")]
    [InlineData("""{ "stock": {}, "pieces": null }""", "pieces", "null")]
    [InlineData("""{ "stock": {}, "pieces": {} }""", "pieces", "list in square brackets")]
    [InlineData("""{ "stock": [], "pieces": [] }""", "stock", "object in braces")]
    [InlineData("""{ "stock": {}, "pieces": [ null ] }""", "pieces[0]", "null")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": 1 } ] }""", "pieces[0].height", "missing")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": 1 } ] }""", "pieces[0].count", "missing")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": "4 1/0" } ] }""", "pieces[0].width", "4 1/0")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": true } ] }""", "pieces[0].width", "length")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": 1e400 } ] }""", "pieces[0].width", "360000")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": -1e27 } ] }""", "pieces[0].width", "360000")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1.5 } ] }""", "pieces[0].count", "whole number")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": "3" } ] }""", "pieces[0].count", "whole number")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 99999999999 } ] }""", "pieces[0].count", "whole number")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": 3, "width": 1, "height": 1, "count": 1 } ] }""", "pieces[0].name", "text in quotes")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": " ", "width": 1, "height": 1, "count": 1 } ] }""", "pieces[0].name", "empty")]
    [InlineData("""{ "stock": {}, "pieces": [ { "nmae": "a" } ] }""", "pieces[0].nmae", "not a field")]
    [InlineData("""{ "stock": {}, "stock": {}, "pieces": [] }""", "stock", "twice")]
    [InlineData("""{ "stock": {}, "directional": 1, "pieces": [] }""", "directional", "true or false")]
    [InlineData("""{ "stock": {}, "objective": "fastest", "pieces": [] }""", "objective", "least-work, least-length")]
    [InlineData("""{ "stock": {}, "objective": 0, "pieces": [] }""", "objective", "least-work, least-length")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 42, "pricePerYard": "12" } }, "pieces": [] }""", "stock.bolt.pricePerYard", "a number")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 42, "pricePerYard": -1 } }, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1 } ] }""", "stock.bolt.pricePerYard", "-1")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 0 } }, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1 } ] }""", "stock.bolt.usableWidth", "0")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 42 } }, "pieces": [ { "name": "a", "width": 0, "height": 1, "count": 1 } ] }""", "pieces[0].width", "0")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 42 } }, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": -2 } ] }""", "pieces[0].count", "-2")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 42 } }, "layers": 0, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1 } ] }""", "layers", "0")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 420 } }, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1 } ] }""", "stock.bolt.usableWidth", "no wider than 120 in")]
    [InlineData("""{ "stock": { "bolt": { "usableWidth": 42 } }, "longestStrip": 2.4, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1 } ] }""", "longestStrip", "2.4 in")]
    [InlineData("""{ "stock": {}, "pieces": [ { "name": "a", "width": NaN } ] }""", "body", "line 1")]
    [InlineData("""{ "stock": """, "body", "not JSON")]
    [InlineData("", "body", "not JSON")]
    [InlineData("null", "body", "null")]
    [InlineData("[]", "body", "object in braces")]
    [InlineData("3", "body", "object in braces")]
    public async Task BadInput_IsRefused_NamingTheFieldAndTheRemedy(string json, string field, string says) =>
        Assert.Contains(says, await api.Refusal(Call, json, field), StringComparison.Ordinal);

    [Fact]
    public async Task SeveralMistakes_AreAllNamedAtOnce()
    {
        var (_, problem) = await api.Post(Call, """{ "stock": { "bolt": { "usableWidth": 42 } }, "pieces": [ { "name": "a", "width": -1, "height": 0, "count": 0 } ] }""");

        Assert.Equal("pieces[0].count pieces[0].height pieces[0].width", string.Join(" ", problem["errors"]!.AsObject().Select(error => error.Key).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public async Task NameGivenTwice_IsRefused() => Assert.Contains("earlier line", await api.Refusal(
        Call,
        """{ "stock": {}, "pieces": [ { "name": "a", "width": 1, "height": 1, "count": 1 }, { "name": "a", "width": 2, "height": 2, "count": 1 } ] }""",
        "pieces[1].name"), StringComparison.Ordinal);

    [Fact]
    public async Task PieceLargerThanTheCloth_IsRefused_NamingThePiece()
    {
        var message = await api.Refusal(Call, """{ "stock": { "bolt": { "usableWidth": 42 } }, "pieces": [ { "name": "back panel", "width": 60, "height": 60, "count": 1 } ] }""", "pieces[0].width");
        Assert.Contains("back panel", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DeepNesting_IsRefused()
    {
        var deep = new string('[', 5_000) + new string(']', 5_000);
        Assert.Contains("nested too deeply", await api.Refusal("/api/cut-list", $$"""{ "block": {{deep}} }""", "body"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task BodyTooLarge_Is413()
    {
        var (status, _) = await api.Post(Call, $$"""{ "stock": "{{new string('x', 1_000_001)}}" }""");
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, status);
    }

    [Fact]
    public async Task BodyThatIsNotJsonByItsOwnAccount_Is415()
    {
        using var form = new FormUrlEncodedContent([new("pieces", "1")]);
        using var response = await api.Client.PostAsync(new Uri(Call, UriKind.Relative), form, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, response.StatusCode);
    }

    private static int Surplus(JsonNode answer) => answer["surplus"]!.AsArray().Sum(surplus => surplus!["count"]!.GetValue<int>());

    private static int PiecesIn(JsonNode? strip) => strip!["repeat"]!.GetValue<int>() * strip["columns"]!.AsArray().Sum(column =>
        column!["repeat"]!.GetValue<int>() * column["pieces"]!.AsArray().Sum(piece => piece!["count"]!.GetValue<int>()));
}
