using System.Net;
using KittingBee.Web.Backups;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Packing;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>Guests who wear the host out, or who outstay the class they came for.</summary>
public sealed class GuestsTests : IAsyncLifetime
{
    private readonly SharedHost guild = new();

    public ValueTask InitializeAsync() => guild.InitializeAsync();

    public ValueTask DisposeAsync() => guild.DisposeAsync();

    [Fact]
    public async Task Helper_WhoseClassIsGoneWithARestore_DoesNotReachTheNextOneOfItsNumber()
    {
        var before = guild.Get<BackupBook>().Make(BackupReason.ByHand);
        var late = await ExampleClass.Store(guild, 2);
        using var helper = await guild.Helper(late);
        using var teacher = await guild.Teacher();
        Assert.Equal(HttpStatusCode.OK, await Status(helper, $"/classes/{late}/pack"));

        await guild.Get<Restoring>().Restore(before);
        Assert.Equal(late, await ExampleClass.Store(guild, 2)); // The number is used again, or this test tells nothing.
        Assert.Equal(HttpStatusCode.Redirect, await Status(helper, $"/classes/{late}/pack"));
        Assert.Equal(HttpStatusCode.OK, await Status(teacher, $"/classes/{late}/pack"));
    }

    [Fact]
    public async Task Helpers_AreCutOff_WhenTheDemonstrationIsEmptied_AndTheTeacherStays()
    {
        await guild.Get<Database>().Write(session => session.Run("UPDATE guild SET demonstration = 1"));
        using var helper = await guild.Helper(guild.ClassId);
        using var teacher = await guild.Teacher();
        var (status, _) = await new FormClient(teacher).Post("/settings", "/settings?handler=Empty", new Dictionary<string, string>());
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Empty(guild.Get<ClassStore>().All());
        Assert.Equal(HttpStatusCode.Redirect, await Status(helper, $"/classes/{guild.ClassId}/pack"));
        Assert.Equal(HttpStatusCode.OK, await Status(teacher, "/classes"));
        Assert.Single(guild.Get<ShareStore>().Devices(), device => device.Role == Role.Teacher);
    }

    [Fact]
    public async Task Devices_OfAClass_AreNotEndless()
    {
        var devices = guild.Get<Devices>();
        for (var device = 0; device < SharingDesk.MostHelpers; device++)
        {
            await devices.SignIn(Role.Helper, guild.ClassId, "Tove");
        }

        var join = await guild.JoinCode(guild.ClassId);
        using var next = guild.Stranger();
        var (byCode, html) = await new FormClient(next).Post("/sign-in", "/sign-in?handler=Helper", new Dictionary<string, string> { ["Code"] = join.Code, ["Name"] = "Runa" });
        Assert.Equal(HttpStatusCode.BadRequest, byCode);
        Assert.Contains("no more are let in", html, StringComparison.Ordinal);
        var (byLink, _) = await new FormClient(next).Post($"/join/{join.Link}", $"/join/{join.Link}", new Dictionary<string, string> { ["Name"] = "Runa" });
        Assert.Equal(HttpStatusCode.BadRequest, byLink);
        using var elsewhere = await guild.Helper(guild.OtherClassId);
        Assert.Equal(SharingDesk.MostHelpers + 1, devices.All.Count);
    }

    [Fact]
    public async Task OpenStreams_OfOneDevice_AreNotEndless_AndLeaveRoomForOthers()
    {
        var table = $"/api/classes/{guild.ClassId}/table";
        using var greedy = await guild.Helper(guild.ClassId);
        var answers = new List<HttpResponseMessage>();
        for (var stream = 0; stream < 30; stream++)
        {
            answers.Add(await greedy.GetAsync(new Uri(table, UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken));
        }

        Assert.Equal(HttpStatusCode.OK, answers[0].StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, answers[^1].StatusCode);
        using var other = await guild.Helper(guild.ClassId, "Runa", "192.168.7.31");
        using var open = await other.GetAsync(new Uri(table, UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, open.StatusCode);
        answers.ForEach(answer => answer.Dispose());
    }

    [Theory]
    [InlineData("PUT")]
    [InlineData("DELETE")]
    [InlineData("PATCH")]
    [InlineData("TRACE")]
    [InlineData("PROPFIND")]
    public async Task Pages_AnswerOnlyTheCallsThatTheyHave(string method)
    {
        var kit = guild.Get<KitStore>().ForClass(guild.ClassId)[0];
        var link = (await guild.Get<KitLinks>().Of(guild.ClassId))[kit.Id];
        using var helper = await guild.Helper(guild.ClassId);
        var (_, html) = await new FormClient(helper).Get($"/classes/{guild.ClassId}/pack");
        var token = html.Split("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"")[1].Split('"')[0];
        foreach (var address in new[] { "/sign-in", $"/own/{link}", $"/own/{link}/handout", $"/classes/{guild.ClassId}/pack", $"/bag/{kit.Code}", "/join/none", "/bag" })
        {
            using var request = new HttpRequestMessage(new HttpMethod(method), new Uri(address, UriKind.Relative));
            request.Headers.Add("RequestVerificationToken", token);
            using var answer = await helper.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.Equal((address, HttpStatusCode.MethodNotAllowed), (address, answer.StatusCode));
        }

        var (button, _) = await new FormClient(helper).Post($"/classes/{guild.ClassId}/pack", $"/classes/{guild.ClassId}/pack?handler=Bogus", new Dictionary<string, string>());
        Assert.Equal(HttpStatusCode.MethodNotAllowed, button);
    }

    [Fact]
    public async Task Helper_SeesAStudentsName_ButNotWhatIsNotedOfThem()
    {
        var classes = guild.Get<ClassStore>();
        await classes.Save(classes.Find(guild.ClassId)! with { KitsOnly = null, Places = 4 });
        await guild.Get<RosterStore>().Add(guild.ClassId, [new Student { ClassId = guild.ClassId, Name = "Sunniva Hale", Contact = "sunniva@example.org", Note = "asked to sit apart" }]);
        using var helper = await guild.Helper(guild.ClassId);
        var seen = "";
        foreach (var page in guild.Get<KitStore>().ForClass(guild.ClassId).Select(kit => $"/bag/{kit.Code}").Append($"/classes/{guild.ClassId}/pack").Append($"/classes/{guild.ClassId}/recut"))
        {
            seen += (await new FormClient(helper).Get(page)).Html;
        }

        Assert.Contains("Sunniva Hale", seen, StringComparison.Ordinal);
        Assert.DoesNotContain("sunniva@example.org", seen, StringComparison.Ordinal);
        Assert.DoesNotContain("asked to sit apart", seen, StringComparison.Ordinal);
    }

    private static async Task<HttpStatusCode> Status(HttpClient client, string address)
    {
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }
}
