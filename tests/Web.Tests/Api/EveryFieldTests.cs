using System.Net;

namespace KittingBee.Web.Tests.Api;

/// <summary>A caller who got several fields wrong hears of all of them at once.</summary>
public sealed class EveryFieldTests(ApiHost api) : IClassFixture<ApiHost>
{
    [Theory]
    [InlineData("/api/cutting-plan", """
        { "stock": { "bolt": { "usableWidth": "wide", "pricePerYard": "12" }, "sheets": [ { "name": null, "width": 18, "available": 1.5 } ] },
          "directional": "no", "objective": "fast", "layer": 4,
          "pieces": [ { "name": "a", "width": "4 1/0", "height": 4.5, "count": 6 }, { "name": "b", "width": 2.5, "height": true, "count": "4" }, 7, null ] }
        """, "directional layer objective pieces[0].width pieces[1].count pieces[1].height pieces[2] pieces[3] stock.bolt.pricePerYard stock.bolt.usableWidth stock.sheets[0].available stock.sheets[0].length stock.sheets[0].name")]
    [InlineData("/api/kit-formats", """
        { "pieces": [ { "name": "a", "width": [], "count": 2 } ], "kits": "three", "kits": null, "formats": [ 5, "yardage" ] }
        """, "formats[0] kits pieces[0].height pieces[0].width")]
    [InlineData("/api/cut-list", """
        { "block": { "name": "Pair", "columns": [4, "x"], "rows": [4], "fabrics": [], "units": [ { "row": 0, "kind": "plane" } ] },
          "blocksPerKit": "2", "seamAllowance": "thin", "methods": { "trim": "tight" } }
        """, "block.columns[1] block.units[0].column block.units[0].kind blocksPerKit methods.trim seamAllowance")]
    [InlineData("/api/cut-list", "[]", "body")]
    [InlineData("/api/kit-formats", "{}", "kits pieces")]
    public async Task Body_WithSeveralFieldsWrong_NamesEach(string call, string body, string fields)
    {
        var (status, answer) = await api.Post(call, body);
        Assert.Equal(HttpStatusCode.BadRequest, status);
        var named = answer["errors"]!.AsObject().Select(error => error.Key).Order(StringComparer.Ordinal);
        Assert.Equal(fields, string.Join(" ", named));
    }

    [Fact]
    public async Task Body_WithTheSameFaultInEveryLine_NamesAHundred()
    {
        var lines = string.Join(",", Enumerable.Repeat("{\"name\":1}", 500));
        var (status, answer) = await api.Post("/api/kit-formats", $$"""{ "kits": 1, "pieces": [{{lines}}] }""");
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.InRange(answer["errors"]!.AsObject().Count, 90, 100);
        Assert.Contains("a text in quotes", answer["errors"]!["pieces[0].name"]![0]!.GetValue<string>(), StringComparison.Ordinal);
    }

    // Half of a surrogate pair is JSON by its grammar and no text by Unicode.
    [Theory]
    [InlineData("/api/kit-formats", """{ "kits": "x", "pieces": [ { "name": "\ud800", "width": 1, "height": 1, "count": 1 } ] }""")]
    [InlineData("/api/kit-formats", """{ "kits": 1, "\ud800": 1, "pieces": [] }""")]
    [InlineData("/api/cut-list", """{ "block": { "name": "\ud800", "columns": [4], "rows": [4], "fabrics": [], "units": [] } }""")]
    [InlineData("/api/cut-list", """{ "block": { "\ud800": 1 }, "blocksPerKit": "2" }""")]
    public async Task Body_WithHalfACharacter_IsRefused(string call, string body) =>
        Assert.Equal(HttpStatusCode.BadRequest, (await api.Post(call, body)).Status);
}
