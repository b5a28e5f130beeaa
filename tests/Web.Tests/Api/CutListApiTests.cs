using System.Net;
using System.Text.Json.Nodes;

namespace KittingBee.Web.Tests.Api;

public sealed class CutListApiTests(ApiHost api) : IClassFixture<ApiHost>
{
    private const string Call = "/api/cut-list";

    private const string TwoByOne = """
        { "name": "Pair", "columns": [4, "4"], "rows": ["4 in"],
          "fabrics": [ { "letter": "A", "name": "ground" }, { "letter": "B", "name": "star" } ],
          "units": [
            { "row": 0, "column": 0, "kind": "plain", "fabrics": ["A"] },
            { "row": 0, "column": 1, "kind": "half-square-triangle", "fabrics": ["A", "B"], "turn": 90 } ] }
        """;

    [Fact]
    public async Task CutList_HasTheAgreedShapeAndFigures()
    {
        var (status, answer) = await api.Post(Call, $$"""
            { "block": {{TwoByOne}}, "blocksPerKit": 2, "seamAllowance": 0.25, "cuttingStep": 0.125,
              "methods": { "half-square-triangle": "two-at-a-time", "trim": "exact" } }
            """);

        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        Assert.Equal("unfinished fabrics units steps", ApiHost.Names(answer));
        Assert.Equal("width height", ApiHost.Names(answer["unfinished"]));
        Assert.Equal(8.5m, answer["unfinished"]!["width"]!.GetValue<decimal>());
        Assert.Equal(4.5m, answer["unfinished"]!["height"]!.GetValue<decimal>());
        var fabric = answer["fabrics"]!.AsArray()[0]!;
        Assert.Equal("letter pieces", ApiHost.Names(fabric));
        Assert.All(fabric["pieces"]!.AsArray(), piece => Assert.Equal("width height count uses", ApiHost.Names(piece)));

        // Finished 4 in plus 7/8 in is the trade's rule for two half-square triangles from a pair of squares; two blocks need two units, one pair.
        Assert.Contains(fabric["pieces"]!.AsArray(), piece => piece!["width"]!.GetValue<decimal>() == 4.875m && piece["count"]!.GetValue<int>() == 1);
        Assert.Contains(fabric["pieces"]!.AsArray(), piece => piece!["width"]!.GetValue<decimal>() == 4.5m && piece["count"]!.GetValue<int>() == 2);
        var unit = answer["units"]!.AsArray().Single(unit => unit!["kind"]!.GetValue<string>() == "half-square-triangle")!;
        Assert.Equal("kind count trimTo leftOver", ApiHost.Names(unit));
        Assert.Equal(4.5m, unit["trimTo"]!["width"]!.GetValue<decimal>());
        Assert.NotEmpty(answer["steps"]!.AsArray());
    }

    [Theory]
    [InlineData("""{ }""", "block", "missing")]
    [InlineData("""{ "block": null }""", "block", "")]
    [InlineData("""{ "block": 3 }""", "block", "")]
    [InlineData("""{ "block": {}, "seamAllowance": "quarter" }""", "seamAllowance", "quarter")]
    [InlineData("""{ "block": {}, "cuttingStep": null }""", "cuttingStep", "length")]
    [InlineData("""{ "block": {}, "blocksPerKit": "two" }""", "blocksPerKit", "whole number")]
    [InlineData("""{ "block": {}, "methods": null }""", "methods", "null")]
    [InlineData("""{ "block": {}, "methods": { "half-square-triangle": "by magic" } }""", "methods.half-square-triangle", "two-at-a-time, eight-at-a-time, cut-triangles")]
    [InlineData("""{ "block": {}, "methods": { "trim": "never" } }""", "methods.trim", "oversize, exact")]
    [InlineData("""{ "block": {}, "methods": { "hst": "exact" } }""", "methods.hst", "not a field")]
    public async Task BadInput_IsRefused_NamingTheFieldAndTheRemedy(string json, string field, string says) =>
        Assert.Contains(says, await api.Refusal(Call, json, field), StringComparison.Ordinal);

    [Theory]
    [InlineData("\"seamAllowance\": -0.25", "seamAllowance")]
    [InlineData("\"cuttingStep\": 0", "cuttingStep")]
    [InlineData("\"blocksPerKit\": 0", "blocksPerKit")]
    public async Task RulesOutOfRange_AreNamedAsFieldsOfTheRequest(string rule, string field) =>
        Assert.NotEqual("", await api.Refusal(Call, $$"""{ "block": {{TwoByOne}}, {{rule}} }""", field));

    [Fact]
    public async Task UnknownKind_IsRefused_NamingTheUnit()
    {
        var json = $$"""{ "block": {{TwoByOne.Replace("\"plain\"", "\"pinwheel\"", StringComparison.Ordinal)}} }""";
        Assert.Contains("half-square-triangle", await api.Refusal(Call, json, "block.units[0].kind"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task UncoveredCell_IsRefused_NamingTheCell()
    {
        var block = JsonNode.Parse(TwoByOne)!;
        block["units"]!.AsArray().RemoveAt(1);
        var (status, problem) = await api.Post(Call, $$"""{ "block": {{block.ToJsonString()}} }""");

        Assert.Equal(HttpStatusCode.BadRequest, status);
        var errors = problem["errors"]!.AsObject();
        Assert.All(errors, error => Assert.StartsWith("block.", error.Key, StringComparison.Ordinal));
        Assert.Contains("column 2", errors.ToJsonString(), StringComparison.OrdinalIgnoreCase);
    }
}
