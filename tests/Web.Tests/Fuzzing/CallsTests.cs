using System.Net;
using System.Net.Http.Headers;
using System.Text;

namespace KittingBee.Web.Tests.Fuzzing;

/// <summary>Spoiled bodies of every call for programs get an answer or a refusal, never a failure.</summary>
public sealed class CallsTests(GuildHost program) : IClassFixture<GuildHost>
{
    [Theory]
    [InlineData("/api/cutting-plan", 0.02, """
        { "stock": { "bolt": { "usableWidth": 42, "increment": 4.5, "minimum": 4.5, "pricePerYard": 12 },
          "sheets": [ { "name": "fat quarter", "width": 18, "length": 21, "available": 3, "price": 0 } ] },
          "directional": false, "layers": 4, "longestStrip": 24, "objective": "least-work",
          "pieces": [ { "name": "a", "width": 4.5, "height": 4.5, "count": 6 }, { "name": "b", "width": "2 1/2", "height": 4.5, "count": 4 } ] }
        """)]
    [InlineData("/api/kit-formats", 0.02, """{ "pieces": [ { "name": "a", "width": 4.5, "height": 2.5, "count": 2 } ], "kits": 3, "formats": [ "squares-5", "yardage" ] }""")]
    [InlineData("/api/cut-list", 0.06, """
        { "block": { "name": "Pair", "columns": [4, 4], "rows": [4],
            "fabrics": [ { "letter": "A", "name": "ground" }, { "letter": "B", "name": "star" } ],
            "units": [ { "row": 0, "column": 0, "kind": "plain", "fabrics": ["A"] },
                       { "row": 0, "column": 1, "kind": "half-square-triangle", "fabrics": ["A", "B"], "turn": 90 } ] },
          "blocksPerKit": 2, "seamAllowance": 0.25, "cuttingStep": 0.125, "methods": { "half-square-triangle": "two-at-a-time", "trim": "exact" } }
        """)]
    public async Task SpoiledBodies_AreAnsweredOrRefused(string call, double share, string good)
    {
        // Over the network's own server: sizes and broken bodies are refused there too.
        using var client = new HttpClient { BaseAddress = program.Listen(), Timeout = TimeSpan.FromMinutes(2) };
        using (var whole = new StringContent(good, Encoding.UTF8, "application/json"))
        using (var answer = await client.PostAsync(new Uri(call, UriKind.Relative), whole, TestContext.Current.CancellationToken))
        {
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }

        await FuzzRun.Over(call, FuzzRun.Inputs(share), [Encoding.UTF8.GetBytes(good)], async bytes =>
        {
            using var body = new ByteArrayContent(bytes);
            body.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            using var response = await client.PostAsync(new Uri(call, UriKind.Relative), body);
            Assert.True(response.StatusCode is HttpStatusCode.OK or HttpStatusCode.BadRequest or HttpStatusCode.RequestEntityTooLarge, $"answered {(int)response.StatusCode}");
        });
    }
}
