using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace KittingBee.Web.Tests.Api;

/// <summary>Every value of a good request put wrong in every way that comes to mind: always an answer or a refusal, never a failure.</summary>
public sealed class OddBodiesTests(ApiHost api) : IClassFixture<ApiHost>
{
    private static readonly string[] OddValues =
    [
        "null", "true", "\"\"", "\" \"", "\"x\"", "\"4 1/0\"", "\"-3\"", "\"=1+1\"", "\"\\u0000\"", "-1", "0", "0.0000001", "1e400", "-1e400", "1e27", "99999999999999999999", "2147483648",
        "[]", "[[]]", "[null]", "{}", "{\"a\":1}", "360000", "1e-400",
    ];

    [Theory]
    [InlineData("/api/cutting-plan", """
        { "stock": { "bolt": { "usableWidth": 42, "increment": 4.5, "minimum": 4.5, "pricePerYard": 12 },
          "sheets": [ { "name": "fat quarter", "width": 18, "length": 21, "available": 3, "price": 0 } ] },
          "directional": false, "layers": 4, "longestStrip": 24, "objective": "least-work",
          "pieces": [ { "name": "a", "width": 4.5, "height": 4.5, "count": 6 }, { "name": "b", "width": 2.5, "height": 4.5, "count": 4 } ] }
        """)]
    [InlineData("/api/kit-formats", """
        { "pieces": [ { "name": "a", "width": 4.5, "height": 2.5, "count": 2 } ], "kits": 3, "formats": [ "squares-5", "yardage" ] }
        """)]
    [InlineData("/api/cut-list", """
        { "block": { "name": "Pair", "columns": [4, 4], "rows": [4],
            "fabrics": [ { "letter": "A", "name": "ground" }, { "letter": "B", "name": "star" } ],
            "units": [ { "row": 0, "column": 0, "kind": "plain", "fabrics": ["A"] },
                       { "row": 0, "column": 1, "kind": "half-square-triangle", "fabrics": ["A", "B"], "turn": 90 } ] },
          "blocksPerKit": 2, "seamAllowance": 0.25, "cuttingStep": 0.125, "methods": { "half-square-triangle": "two-at-a-time", "trim": "exact" } }
        """)]
    public async Task EveryValuePutWrong_IsAnsweredOrRefused(string call, string good)
    {
        var (status, _) = await api.Post(call, good);
        Assert.Equal(HttpStatusCode.OK, status);

        var failures = new List<string>();
        foreach (var path in PathsOf(JsonNode.Parse(good)!))
        {
            foreach (var odd in OddValues)
            {
                var body = With(good, path, odd);
                using var content = new StringContent(body, Encoding.UTF8, "application/json");
                using var response = await api.Client.PostAsync(new Uri(call, UriKind.Relative), content, TestContext.Current.CancellationToken);
                if (response.StatusCode is not (HttpStatusCode.OK or HttpStatusCode.BadRequest))
                {
                    failures.Add($"{(int)response.StatusCode} for {path} = {odd}");
                }
            }
        }

        Assert.Empty(failures);
    }

    [Fact]
    public async Task HalfACharacter_InsideAText_IsRefused()
    {
        // RFC 8259, section 8.1: JSON exchanged between systems is UTF-8. 0xE9 alone is é in Latin-1.
        var body = Encoding.Latin1.GetBytes("""{ "block": { "name": "Carré", "columns": [4], "rows": [4], "fabrics": [ { "letter": "A", "name": "é" } ], "units": [ { "row": 0, "column": 0, "kind": "plain", "fabrics": ["A"] } ] } }""");
        using var content = new ByteArrayContent(body);
        content.Headers.ContentType = new("application/json");
        using var response = await api.Client.PostAsync(new Uri("/api/cut-list", UriKind.Relative), content, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Contains("UTF-8", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    /// <summary>The path of every value, objects and lists too.</summary>
    private static IEnumerable<string> PathsOf(JsonNode node) => node switch
    {
        JsonObject members => members.SelectMany(member => PathsOf(member.Value!).Prepend(member.Value!.GetPath())),
        JsonArray items => items.SelectMany(item => PathsOf(item!).Prepend(item!.GetPath())),
        _ => [],
    };

    // As text, because a JSON library would refuse to hold numbers such as 1e400.
    private static string With(string good, string path, string odd)
    {
        const string mark = "\"the place to put it\"";
        var root = JsonNode.Parse(good)!;
        Find(root, path)!.ReplaceWith("the place to put it");
        return root.ToJsonString().Replace(mark, odd, StringComparison.Ordinal);
    }

    private static JsonNode? Find(JsonNode node, string path) => node.GetPath() == path
        ? node
        : node switch
        {
            JsonObject members => members.Select(member => Find(member.Value!, path)).FirstOrDefault(found => found is not null),
            JsonArray items => items.Select(item => Find(item!, path)).FirstOrDefault(found => found is not null),
            _ => null,
        };
}
