using System.Net;
using System.Text.RegularExpressions;
using KittingBee.Planning.Measures;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Packing;

/// <summary>The pages as a browser without JavaScript uses them: forms and links only.</summary>
public sealed partial class PlainPagesTests(GuildHost guild) : IClassFixture<GuildHost>
{
    [Fact]
    public async Task Pack_TickedDealtAndTakenBack_StandsAsMarked()
    {
        var (id, client) = await NewClass(3);
        var table = guild.Get<MarkDesk>().Table(id);
        var kits = guild.Get<KitStore>().ForClass(id);

        var page = await Get(client, $"/classes/{id}/pack");
        var tick = Regex.Match(page, $"value=\"(bagged {kits[0].Id} A-[^\"]+)\"").Groups[1].Value;
        await Post(client, page, $"/classes/{id}/pack?handler=Mark", ("mark", tick));
        Assert.Equal(KitState.Bagged, table.Standing(kits[0].Id, tick.Split(' ')[2])?.State);

        var deal = Regex.Match(page, "value=\"(bagged deal [0-9]+)\"").Groups[1].Value;
        var dealt = await Post(client, page, $"/classes/{id}/pack?handler=Mark", ("mark", deal));
        var standing = table.Snapshot().Standing;
        Assert.Equal(6, standing.Count); // Two lines of the fabric in each of three bags; the first line was ticked already.

        var notice = await dealt.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("Oat bagged for 3 bags.", notice, StringComparison.Ordinal);
        var undo = WebUtility.HtmlDecode(Regex.Match(notice, "action=\"([^\"]*handler=Undo[^\"]*)\"").Groups[1].Value);
        await Post(client, notice, undo);
        Assert.Equal(tick.Split(' ')[2], Assert.Single(table.Snapshot().Standing).Key.Line);
    }

    [Fact]
    public async Task Bag_ShortReportedAndMended_IsOnTheBagAndOnTheTable()
    {
        var (id, client) = await NewClass(2);
        var kit = guild.Get<KitStore>().ForClass(id)[1];
        var page = await Get(client, $"/bag/{kit.Code.ToLowerInvariant()}");
        var line = Regex.Match(page, "<option value=\"(B-[^\"]+)\"").Groups[1].Value;

        var refused = await Post(client, page, $"/bag/{kit.Code}?handler=Short", ("Form.Line", line), ("Form.Count", "99"), ("Form.Reason", "missing"), ("Form.Note", "under the table?"));
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        var again = await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("“99”: type a whole number from 1 to 1.", WebUtility.HtmlDecode(again), StringComparison.Ordinal);
        Assert.Contains("value=\"under the table?\"", again, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ShortageStore>().ForClass(id));

        await Post(client, page, $"/bag/{kit.Code}?handler=Short", ("Form.Line", line), ("Form.Count", "1"), ("Form.Reason", "spoiled"));
        var shortage = Assert.Single(guild.Get<ShortageStore>().ForClass(id));
        Assert.Equal(("B", "spoiled", null), (shortage.Letter, shortage.Reason, shortage.MendedAt));
        Assert.Contains("short (1)", await Get(client, $"/classes/{id}/pack?show=short"), StringComparison.Ordinal);

        await Post(client, page, $"/bag/{kit.Code}?handler=Mend&id={shortage.Id}", ("from", "spare"));
        Assert.Equal("spare", Assert.Single(guild.Get<ShortageStore>().ForClass(id)).MendedFrom);
    }

    [Fact]
    public async Task Reports_MendedOrTakenBack_StayInTheKitsTrailAndInTheClasssHistory()
    {
        var (id, client) = await NewClass(2);
        var kits = guild.Get<KitStore>().ForClass(id);
        var kit = kits[1];
        var page = await Get(client, $"/bag/{kit.Code}");
        var line = Regex.Match(page, "<option value=\"(B-[^\"]+)\"").Groups[1].Value;
        foreach (var (reason, note) in new[] { ("spoiled", "cut askew"), ("missing", "counted wrongly") })
        {
            await Post(client, page, $"/bag/{kit.Code}?handler=Short", ("Form.Line", line), ("Form.Count", "1"), ("Form.Reason", reason), ("Form.Note", note));
        }

        var reports = guild.Get<ShortageStore>().ForClass(id);
        await Post(client, page, $"/bag/{kit.Code}?handler=Mend&id={reports.Single(report => report.Reason == "spoiled").Id}", ("from", "spare"));
        await Post(client, page, $"/bag/{kit.Code}?handler=Withdraw&id={reports.Single(report => report.Reason == "missing").Id}");
        foreach (var address in new[] { $"/bag/{kit.Code}", $"/classes/{id}/pack/history" })
        {
            var trail = WebUtility.HtmlDecode(await Get(client, address));
            trail = trail[trail.IndexOf("reporttrail", StringComparison.Ordinal)..];
            Assert.Matches("spoiled: cut askew(.|\n)*?in the bag from the spare pieces [0-9]+ [A-Z][a-z]+ [0-9]{4}, [0-9]{2}:[0-9]{2}", trail);
            Assert.Matches("missing: counted wrongly(.|\n)*?taken back [0-9]+ [A-Z][a-z]+ [0-9]{4}, [0-9]{2}:[0-9]{2}", trail);
        }

        Assert.DoesNotContain("cut askew", await Get(client, $"/bag/{kits[0].Code}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bag_UnknownCode_SaysWhereTheCodeIs()
    {
        using var client = guild.CreateClient();
        using var response = await client.GetAsync(new Uri("/bag/NOSUCH", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Contains("No bag has the code “NOSUCH”", WebUtility.HtmlDecode(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Settle_BoughtLeftClosedAndOpenedAgain_FreezesAndTraces()
    {
        var (id, client) = await NewClass(4);
        var page = await Get(client, $"/classes/{id}/settle");
        var fabric = Regex.Match(page, "<option value=\"([0-9]+)\"").Groups[1].Value;

        var refused = await Post(client, page, $"/classes/{id}/settle?handler=Bought", ("Form.FabricId", fabric), ("Form.Length", "a bit"), ("Form.Paid", "12"));
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Empty(guild.Get<SettlingStore>().Purchases(id));

        await Post(client, page, $"/classes/{id}/settle?handler=Bought", ("Form.FabricId", fabric), ("Form.Length", "1 yd"), ("Form.Paid", "12.00"));
        await Post(client, page, $"/classes/{id}/settle?handler=Left", ("Form.FabricId", fabric), ("Form.Length", "9"), ("Form.Width", "42"), ("Form.ToShelf", "true"));
        var remnant = Assert.Single(guild.Get<ShelfStore>().All(), piece => piece.FabricId == long.Parse(fabric, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(Length.FromInches(9), remnant.Length);

        page = await Get(client, $"/classes/{id}/settle");
        await Post(client, page, $"/classes/{id}/settle?handler=Close", ("version", Version(page)), ("forget", "true"));
        var closed = guild.Get<ClassStore>().Find(id)!;
        Assert.True(closed.IsClosed);
        Assert.NotNull(closed.FrozenJson);

        // A closed class takes no marks and no entries.
        await Post(client, page, $"/classes/{id}/settle?handler=Bought", ("Form.FabricId", fabric), ("Form.Length", "1 yd"), ("Form.Paid", "1"));
        Assert.Single(guild.Get<SettlingStore>().Purchases(id));

        page = await Get(client, $"/classes/{id}/settle");
        Assert.Contains("names, contacts and notes forgotten", page, StringComparison.Ordinal);
        await Post(client, page, $"/classes/{id}/settle?handler=Reopen", ("version", Version(page)));
        Assert.False(guild.Get<ClassStore>().Find(id)!.IsClosed);
        Assert.Equal(["closed", "names, contacts and notes forgotten", "opened again"], guild.Get<ClosingStore>().Traces(id).Select(trace => trace.What));
    }

    private static string Version(string page) => Regex.Match(page, "name=\"version\" value=\"([0-9]+)\"").Groups[1].Value;

    private async Task<(long Id, HttpClient Client)> NewClass(int kits) => (await ExampleClass.Store(guild, kits), guild.CreateClient());

    private static Task<string> Get(HttpClient client, string address) => client.GetStringAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);

    private static async Task<HttpResponseMessage> Post(HttpClient client, string page, string address, params (string Name, string Value)[] fields)
    {
        var token = Token().Match(page).Groups[1].Value;
        using var content = new FormUrlEncodedContent([new("__RequestVerificationToken", token), .. fields.Select(field => new KeyValuePair<string, string>(field.Name, field.Value))]);
        return await client.PostAsync(new Uri(address, UriKind.Relative), content, TestContext.Current.CancellationToken);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
