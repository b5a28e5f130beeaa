using System.Net;
using System.Net.Http.Json;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Packing;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>What every answer carries, and what is refused from elsewhere.</summary>
public sealed class HygieneTests(SharedHost guild) : IClassFixture<SharedHost>
{
    [Theory]
    [InlineData("/sign-in")]
    [InlineData("/classes")]
    [InlineData("/classes/1/print/workbook")]
    [InlineData("/classes/1/roster")]
    [InlineData("/api/classes/1/marks")]
    [InlineData("/no-such-page")]
    public async Task Pages_AreNotKept_AndTellNobodyWhereTheyWere(string address)
    {
        using var teacher = await guild.Teacher();
        using var answer = await teacher.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains("no-store", answer.Headers.CacheControl?.ToString(), StringComparison.Ordinal);
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        Assert.Contains("base-uri 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.Contains("object-src 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Theory]
    [InlineData("cross-site", null)]
    [InlineData("same-site", null)]
    [InlineData(null, "http://elsewhere.example")]
    [InlineData(null, "http://localhost:9999")]
    [InlineData(null, "null")]
    public async Task Calls_FromAnotherSitesPage_AreRefused_WhoeverIsSignedIn(string? site, string? origin)
    {
        using var teacher = await guild.Teacher();
        foreach (var address in new[] { "/api/cut-list", "/blocks/check", $"/api/classes/{guild.ClassId}/marks", "/settings" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(address, UriKind.Relative)) { Content = JsonContent.Create(new { }) };
            Put(request, "Sec-Fetch-Site", site);
            Put(request, "Origin", origin);
            using var answer = await teacher.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
            Assert.StartsWith("Another site", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("navigate", "document", HttpStatusCode.OK)]
    [InlineData("no-cors", "image", HttpStatusCode.Forbidden)]
    [InlineData("navigate", "iframe", HttpStatusCode.Forbidden)]
    [InlineData("cors", "empty", HttpStatusCode.Forbidden)]
    public async Task Reading_FromAnotherSite_OnlyAsALinkThatIsFollowed(string mode, string destination, HttpStatusCode expected)
    {
        using var teacher = await guild.Teacher();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/classes", UriKind.Relative));
        Put(request, "Sec-Fetch-Site", "cross-site");
        Put(request, "Sec-Fetch-Mode", mode);
        Put(request, "Sec-Fetch-Dest", destination);
        using var answer = await teacher.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(expected, answer.StatusCode);
    }

    [Theory]
    [InlineData(15_000, HttpStatusCode.BadRequest)]
    [InlineData(25_000, HttpStatusCode.RequestEntityTooLarge)]
    public async Task Door_TakesOnlyTheBytesThatACodeNeeds(int length, HttpStatusCode expected)
    {
        using var stranger = guild.Stranger();
        using var form = new FormUrlEncodedContent([new("Code", new string('A', length))]);
        using var answer = await stranger.PostAsync(new Uri("/sign-in?handler=Helper", UriKind.Relative), form, TestContext.Current.CancellationToken);
        Assert.Equal(expected, answer.StatusCode);
    }

    [Fact]
    public async Task Marks_WithoutThePagesToken_AreRefused()
    {
        using var helper = await guild.Helper(guild.ClassId);
        var kit = guild.Get<KitStore>().ForClass(guild.ClassId)[0];
        using var answer = await helper.PostAsJsonAsync($"/api/classes/{guild.ClassId}/marks", new { marks = new[] { Phone.Mark(Guid.NewGuid(), kit.Id, "kit", "checked") } }, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(guild.ClassId, 0));
    }

    [Fact]
    public async Task Cookies_OverHttps_AreForThisHostAndHttpsAlone_AndPlainOnesCountForNothing()
    {
        using var client = guild.CreateClient(new() { AllowAutoRedirect = false, BaseAddress = new Uri("https://localhost"), HandleCookies = false });
        using var page = await client.GetAsync(new Uri("/sign-in", UriKind.Relative), TestContext.Current.CancellationToken);
        var form = Assert.Single(page.Headers.GetValues("Set-Cookie"), cookie => cookie.StartsWith("__Host-kitting-bee-form=", StringComparison.Ordinal));
        Assert.All(page.Headers.GetValues("Set-Cookie"), cookie => Assert.StartsWith("__Host-", cookie, StringComparison.Ordinal));
        Assert.Contains("; path=/", form, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("; secure", form, StringComparison.OrdinalIgnoreCase);
        Assert.False(page.Headers.Contains("Strict-Transport-Security"));

        var token = await guild.Get<Devices>().SignIn(Role.Teacher, null, "");
        Assert.Equal(HttpStatusCode.OK, await WithCookie(client, $"__Host-kitting-bee-device={token}"));
        Assert.Equal(HttpStatusCode.Redirect, await WithCookie(client, $"kitting-bee-device={token}"));
    }

    [Fact]
    public async Task Planning_WhileShared_IsTheTeachers_AndRationed()
    {
        using var teacher = await guild.Teacher();
        using var helper = await guild.Helper(guild.ClassId);
        using var refused = await helper.PostAsJsonAsync("/api/kit-formats", new { }, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        var statuses = new List<HttpStatusCode>();
        for (var call = 0; call < 60; call++)
        {
            using var answer = await teacher.PostAsJsonAsync("/api/kit-formats", new { }, TestContext.Current.CancellationToken);
            statuses.Add(answer.StatusCode);
        }

        Assert.Equal(HttpStatusCode.BadRequest, statuses[0]); // Heard, and told what is missing.
        Assert.Contains(HttpStatusCode.TooManyRequests, statuses);
        using var page = await teacher.GetAsync(new Uri("/classes", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
    }

    private static async Task<HttpStatusCode> WithCookie(HttpClient client, string cookie)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/classes", UriKind.Relative));
        request.Headers.Add("Cookie", cookie);
        using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    private static void Put(HttpRequestMessage request, string header, string? value)
    {
        if (value is not null)
        {
            request.Headers.Add(header, value);
        }
    }
}
