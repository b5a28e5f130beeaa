using System.Text.Json.Nodes;

namespace KittingBee.Web.Tests.Api;

public sealed class OpenApiTests(ApiHost api) : IClassFixture<ApiHost>
{
    [Theory]
    [InlineData("/api/cut-list", "CutListCall", "block blocksPerKit seamAllowance cuttingStep methods")]
    [InlineData("/api/cutting-plan", "CuttingPlanCall", "stock directional layers longestStrip objective pieces")]
    [InlineData("/api/kit-formats", "KitFormatsCall", "pieces kits formats bolt precuts directional layers")]
    public async Task Document_DescribesTheCall(string path, string shape, string fields)
    {
        var document = await Document();
        var post = document["paths"]![path]!["post"]!;

        Assert.Equal("#/components/schemas/" + shape, post["requestBody"]!["content"]!["application/json"]!["schema"]!["$ref"]!.GetValue<string>());
        Assert.Equal(fields, ApiHost.Names(Schema(document, shape)["properties"]));
        Assert.NotNull(post["responses"]!["200"]!["content"]!["application/json"]!["schema"]);
        Assert.NotNull(post["responses"]!["400"]!["content"]!["application/problem+json"]!["schema"]);
    }

    [Fact]
    public async Task Lengths_AreNumbersInAnswers_AndNumbersOrTextsInRequests()
    {
        var document = await Document();

        Assert.Equal("""["number","string"]""", Schema(document, "PieceCall")["properties"]!["width"]!["type"]!.ToJsonString());
        Assert.Equal("""["number","string"]""", Schema(document, "Unit")["properties"]!["cutWidth"]!["type"]!.ToJsonString());
        Assert.Equal("\"number\"", Schema(document, "ColumnAnswer")["properties"]!["width"]!["type"]!.ToJsonString());
        Assert.Equal("""["number","string"]""", Schema(document, "Block")["properties"]!["columns"]!["items"]!["type"]!.ToJsonString());
    }

    [Fact]
    public async Task Choices_AreListedByTheirWords()
    {
        var document = await Document();

        Assert.Equal("""["least-work","least-length"]""", Schema(document, "CuttingPlanCall")["properties"]!["objective"]!["enum"]!.ToJsonString());
        Assert.Contains("\"half-square-triangle\"", Schema(document, "Unit")["properties"]!["kind"]!["enum"]!.ToJsonString(), StringComparison.Ordinal);
    }

    private async Task<JsonNode> Document() => JsonNode.Parse(await api.Client.GetStringAsync(new Uri("/openapi/v1.json", UriKind.Relative)))!;

    private static JsonNode Schema(JsonNode document, string name) => document["components"]!["schemas"]![name]!;
}
