using System.Net;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>A student's own page, opened by its link.</summary>
public sealed class OwnPageTests : IAsyncLifetime
{
    private readonly SharedHost guild = new();

    private long classId;

    public async ValueTask InitializeAsync()
    {
        await guild.InitializeAsync();
        classId = await SampleGuild.Fill(guild);
    }

    public ValueTask DisposeAsync() => guild.DisposeAsync();

    [Fact]
    public async Task Link_ShowsOneKit_AndNobodyElse()
    {
        var kits = guild.Get<KitStore>().ForClass(classId);
        var links = await guild.Get<KitLinks>().Of(classId);
        Assert.Equal(kits.Count, links.Values.Distinct().Count());
        Assert.All(links.Values, link => Assert.True(link.Length * 6 >= 128, "Six bits a letter."));
        using var student = guild.Stranger();
        foreach (var page in new[] { "", "/handout" })
        {
            using var answer = await student.GetAsync(new Uri($"/own/{links[kits[0].Id]}{page}", UriKind.Relative), TestContext.Current.CancellationToken);
            var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
            Assert.Contains("no-store", answer.Headers.CacheControl?.ToString(), StringComparison.Ordinal);
            Assert.Contains(SampleGuild.Names[0], html, StringComparison.Ordinal);
            Assert.All(SampleGuild.Names.Skip(1), other => Assert.DoesNotContain(other, html, StringComparison.Ordinal));
            Assert.All(links.Where(link => link.Key != kits[0].Id), other => Assert.DoesNotContain(other.Value, html, StringComparison.Ordinal));
            Assert.DoesNotContain("href=\"/classes", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Link_WithdrawnOrRenewedByTheTeacher_OpensNothing()
    {
        var kits = guild.Get<KitStore>().ForClass(classId);
        var before = await guild.Get<KitLinks>().Of(classId);
        using var teacher = await guild.Teacher();
        var pages = new FormClient(teacher);
        var address = $"/classes/{classId}/print/links";
        Assert.Equal(HttpStatusCode.Redirect, (await pages.Post(address, $"{address}?handler=Withdraw&kit={kits[0].Id}", new Dictionary<string, string>())).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await pages.Post(address, $"{address}?handler=Renew&kit={kits[1].Id}", new Dictionary<string, string>())).Status);
        var after = await guild.Get<KitLinks>().Of(classId);
        Assert.False(after.ContainsKey(kits[0].Id));
        Assert.NotEqual(before[kits[1].Id], after[kits[1].Id]);
        Assert.Equal(before[kits[2].Id], after[kits[2].Id]);
        Assert.Equal(HttpStatusCode.NotFound, await Status($"/own/{before[kits[0].Id]}"));
        Assert.Equal(HttpStatusCode.NotFound, await Status($"/own/{before[kits[1].Id]}/handout"));
        Assert.Equal(HttpStatusCode.OK, await Status($"/own/{after[kits[1].Id]}/handout"));

        // A kit of another class cannot be changed from this class's page.
        var other = guild.Get<KitStore>().ForClass(guild.ClassId)[0];
        Assert.Equal(HttpStatusCode.NotFound, (await pages.Post(address, $"{address}?handler=Withdraw&kit={other.Id}", new Dictionary<string, string>())).Status);
    }

    [Fact]
    public async Task Link_OfAStudentTakenOffTheRoster_OpensNothing()
    {
        var student = guild.Get<RosterStore>().ForClass(classId)[0];
        var kit = guild.Get<KitStore>().ForClass(classId).Single(kit => kit.StudentId == student.Id);
        var link = (await guild.Get<KitLinks>().Of(classId))[kit.Id];
        Assert.Equal(HttpStatusCode.OK, await Status($"/own/{link}"));
        using var teacher = await guild.Teacher();
        await new FormClient(teacher).Post($"/classes/{classId}/roster/{student.Id}", $"/classes/{classId}/roster/{student.Id}?handler=Remove", new Dictionary<string, string>());
        Assert.Equal(HttpStatusCode.NotFound, await Status($"/own/{link}"));
    }

    private async Task<HttpStatusCode> Status(string address)
    {
        using var client = guild.Stranger();
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }
}
