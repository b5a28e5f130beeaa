using System.Net;
using KittingBee.Web.Sharing;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>A guild that is not shared: open at the machine, and to nobody else.</summary>
public sealed class AloneTests : IAsyncLifetime
{
    private readonly SharedHost guild = new() { StaysAlone = true };

    public ValueTask InitializeAsync() => guild.InitializeAsync();

    public ValueTask DisposeAsync() => guild.DisposeAsync();

    [Theory]
    [InlineData("127.0.0.1", HttpStatusCode.OK)]
    [InlineData("::1", HttpStatusCode.OK)]
    [InlineData("192.168.7.20", HttpStatusCode.Forbidden)]
    [InlineData("203.0.113.9", HttpStatusCode.Forbidden)]
    public async Task Pages_AnswerThisMachineAlone(string from, HttpStatusCode expected)
    {
        using var client = guild.Stranger(from);
        foreach (var address in new[] { "/", "/classes", "/settings/sharing", $"/classes/{guild.ClassId}/pack" })
        {
            using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal(expected, answer.StatusCode);
        }
    }

    [Fact]
    public async Task SharingFromThePage_TakesAGoodPassword_AndSignsThisBrowserIn()
    {
        using var client = guild.Stranger("127.0.0.1");
        var pages = new FormClient(client);
        var (refused, html) = await pages.Post("/settings/sharing", "/settings/sharing?handler=Start", new Dictionary<string, string> { ["Password"] = "password1" });
        Assert.Equal(HttpStatusCode.BadRequest, refused);
        Assert.Contains("tried first", html, StringComparison.Ordinal);
        Assert.False(guild.Get<SharingState>().IsShared);

        var (started, _) = await pages.Post("/settings/sharing", "/settings/sharing?handler=Start", new Dictionary<string, string> { ["Password"] = SharedHost.Password });
        Assert.Equal(HttpStatusCode.Redirect, started);
        Assert.True(guild.Get<SharingState>().IsShared);
        var (status, page) = await pages.Get($"/settings/sharing?class={guild.ClassId}");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("this device", page, StringComparison.Ordinal);
        using var other = guild.Stranger("127.0.0.1");
        using var answer = await other.GetAsync(new Uri("/classes", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);

        // The code of the class is made on the page, and read there.
        await pages.Post("/settings/sharing", $"/settings/sharing?handler=Code&id={guild.ClassId}", new Dictionary<string, string> { ["hours"] = "3" });
        var join = Assert.Single(guild.Get<ShareStore>().Joins());
        Assert.Contains(Secrets.Shown(join.Code), (await pages.Get("/settings/sharing")).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ForgottenPassword_IsSetAnewAtTheMachine()
    {
        await guild.Get<TeacherPassword>().Set("the forgotten one");
        using var client = guild.Stranger("127.0.0.1");
        var (status, _) = await new FormClient(client).Post("/settings/sharing", "/settings/sharing?handler=Password", new Dictionary<string, string> { ["Password"] = "written down now" });
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.True(await guild.Get<TeacherPassword>().IsRight("written down now"));
    }

    [Fact]
    public async Task AskedToShareWithoutAPassword_AsksAtTheMachine_AndLetsNobodyElseIn()
    {
        await guild.Get<SharingDesk>().StartAsAsked(new(false, null, "") { Share = true });
        using var machine = guild.Stranger("127.0.0.1");
        using var page = await machine.GetAsync(new Uri("/classes", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal("/settings/sharing", page.Headers.Location?.ToString());
        using var phone = guild.Stranger();
        using var refused = await phone.GetAsync(new Uri("/settings/sharing", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        await new FormClient(machine).Post("/settings/sharing", "/settings/sharing?handler=Start", new Dictionary<string, string> { ["Password"] = SharedHost.Password });
        Assert.True(guild.Get<SharingState>().IsShared);
        using var after = await machine.GetAsync(new Uri("/classes", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, after.StatusCode);
    }
}
