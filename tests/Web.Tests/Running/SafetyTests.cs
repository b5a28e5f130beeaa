using System.Net;

namespace KittingBee.Web.Tests.Running;

public sealed class SafetyTests : IClassFixture<GuildHost>
{
    private readonly GuildHost guild;

    public SafetyTests(GuildHost guild) => this.guild = guild;

    [Theory]
    [InlineData("localhost", HttpStatusCode.OK)]
    [InlineData("127.0.0.1:5210", HttpStatusCode.OK)]
    [InlineData("guild.example", HttpStatusCode.BadRequest)]
    [InlineData("192.0.2.7", HttpStatusCode.BadRequest)]
    public async Task Host_ThatIsNotThisMachine_IsRefused(string host, HttpStatusCode expected)
    {
        using var client = guild.CreateClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/", UriKind.Relative));
        request.Headers.Host = host;
        using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(expected, answer.StatusCode);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/no-such-page")]
    [InlineData("/site.css")]
    public async Task Answers_CarryAPolicyWithoutInlineCode(string address)
    {
        using var client = guild.CreateClient();
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'self'", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
    }

    [Theory]
    [InlineData("/site.css", "text/css", "--indigo")]
    [InlineData("/bee.svg", "image/svg+xml", "<svg")]
    public async Task OwnFiles_ComeWithTheirContent(string address, string type, string part)
    {
        using var client = guild.CreateClient();
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(type, answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains(part, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Fault_InsideTheProgram_ShowsAReferenceAndNothingInternal()
    {
        using var broken = new GuildHost();
        await broken.Get<KittingBee.Web.Storage.Database>().Write(session => session.Run("DROP TABLE shelf_piece"));
        using var client = broken.CreateClient();
        using var answer = await client.GetAsync(new Uri("/shelf", UriKind.Relative), TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
        Assert.Matches("Reference <b>[0-9a-zA-Z]{8}</b>", text);
        Assert.DoesNotContain("shelf_piece", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Sqlite", text, StringComparison.Ordinal);
    }
}
