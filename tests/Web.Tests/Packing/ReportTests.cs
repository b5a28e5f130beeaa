using System.Net;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Reports of short and spoiled pieces, from phones that may lose their line.</summary>
public sealed class ReportTests(GuildHost guild, Browser browser) : IClassFixture<GuildHost>, IClassFixture<Browser>
{
    private readonly Uri address = guild.Listen();

    [Fact]
    public async Task Report_MadeOffline_IsKeptOverAReloadAndSentOnceInItsPlaceAmongTheMarks()
    {
        var id = await ExampleClass.Store(guild, 2);
        var kit = guild.Get<KitStore>().ForClass(id)[0];
        var phone = await browser.NewPage(360, 740);
        await phone.GotoAsync($"{address}bag/{kit.Code}");
        await Assertions.Expect(phone.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 10_000 });

        // No line: a tick, a report, a report by mistake and its undo, another tick.
        await phone.RouteAsync("**/api/**", route => route.AbortAsync());
        await phone.Locator(".lines .tick").Nth(0).ClickAsync();
        await Report(phone, 1, "1", "spoiled", "cut on the wrong line");
        await Report(phone, 2, "1", "missing", "");
        await phone.Locator(".saying button").ClickAsync();
        await phone.Locator(".lines .tick").Nth(3).ClickAsync();
        await Assertions.Expect(phone.Locator("[data-live]")).ToContainTextAsync("2 marks and 3 reports wait on this device", new() { Timeout = 10_000 });
        await Assertions.Expect(phone.Locator("#waiting-reports p")).ToHaveCountAsync(1);
        await Assertions.Expect(phone.Locator("#waiting-reports")).ToContainTextAsync("spoiled: cut on the wrong line. Waits on this device.");
        Assert.True(await phone.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= 360"), "The page is wider than a 360 px screen.");
        Assert.Empty(guild.Get<ShortageStore>().ForClass(id));

        // The page is loaded anew when the line is back: all goes, oldest first.
        var sent = new List<string>();
        phone.Request += (_, request) => sent.AddRange(request.Method == "POST" ? [request.Url[(request.Url.LastIndexOf('/') + 1)..]] : Array.Empty<string>());
        await phone.UnrouteAsync("**/api/**");
        await phone.ReloadAsync();
        await Assertions.Expect(phone.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 10_000 });
        await Assertions.Expect(phone.Locator("#reports .warn")).ToContainTextAsync("spoiled, says somebody: cut on the wrong line.");
        await Assertions.Expect(phone.Locator("#waiting-reports")).ToHaveCountAsync(0);
        Assert.Equal(["marks", "shortages", "shortages", "shortages", "marks"], sent);
        var shortage = Assert.Single(guild.Get<ShortageStore>().ForClass(id));
        Assert.Equal(("spoiled", 1, "cut on the wrong line"), (shortage.Reason, shortage.Count, shortage.Note));
        Assert.Equal(2, guild.Get<PackingStore>().MarksAfter(id, 0).Count);
        Assert.Equal(0, await phone.EvaluateAsync<int>("() => localStorage.length"));
    }

    [Fact]
    public async Task Report_FromAPhone_ShowsOnTheLaptopsTableAndWhatIsWrongIsSaidInThePage()
    {
        var id = await ExampleClass.Store(guild, 2);
        var kit = guild.Get<KitStore>().ForClass(id)[0];
        var laptop = await browser.NewPage();
        await laptop.GotoAsync($"{address}classes/{id}/pack");
        var phone = await browser.NewPage(390, 844);
        await phone.GotoAsync($"{address}bag/{kit.Code}");
        await Assertions.Expect(phone.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 10_000 });
        await Report(phone, 1, "99", "missing", "");
        await Assertions.Expect(phone.Locator("#short .field-validation-error")).ToContainTextAsync("“99”: type a whole number from 1 to");
        await Assertions.Expect(phone.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 10_000 });
        await phone.FillAsync("#Form_Count", "1");
        await phone.Locator("#short button").ClickAsync();
        await Assertions.Expect(laptop.Locator($"#kit-{kit.Id} .short")).ToHaveTextAsync("short", new() { Timeout = 10_000 });
        await phone.Locator(".saying button").ClickAsync();
        await Assertions.Expect(laptop.Locator($"#kit-{kit.Id} .short")).ToHaveCountAsync(0, new() { Timeout = 10_000 });
    }

    [Fact]
    public async Task Report_SentTwiceAndLate_CountsOnceAndStaysTakenBack()
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 1);
        var report = await Any(id);
        using var phone = new Phone(address, id);
        await phone.Load(cancelled);
        Assert.Equal("stored", await Outcome(phone, report));
        Assert.Equal("known", await Outcome(phone, report));
        Assert.Equal(report.Id, Assert.Single(guild.Get<ShortageStore>().ForClass(id)).Id);

        var withdrawal = new { id = Guid.NewGuid(), withdraws = report.Id };
        Assert.Equal("stored", await Outcome(phone, withdrawal));
        Assert.Equal("known", await Outcome(phone, withdrawal));
        Assert.Equal("known", await Outcome(phone, report));
        Assert.Empty(guild.Get<ShortageStore>().ForClass(id));
        Assert.False(await guild.Get<ShortageStore>().Mend(id, report.Id, "recut"));
    }

    [Fact]
    public async Task Report_ThatCannotBe_IsRefusedWithTheReasonAndStoresNothing()
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 1);
        var other = await ExampleClass.Store(guild, 1);
        var report = await Any(id);
        using var phone = new Phone(address, id);
        await phone.Load(cancelled);
        Assert.Equal(HttpStatusCode.Forbidden, (await phone.Report(report, cancelled, forged: true)).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await phone.Report(new { kit = report.Kit }, cancelled)).Status);
        Assert.Equal("This kit is not in this class.", await Why(phone, report with { Kit = guild.Get<KitStore>().ForClass(other)[0].Id }));
        Assert.Contains("“99”: type a whole number from 1 to", await Why(phone, report with { Count = 99 }), StringComparison.Ordinal);
        Assert.Equal("Which piece is it? Choose one from the list.", await Why(phone, report with { Line = "Z-1x1" }));
        Assert.Equal("What happened: choose one from the list.", await Why(phone, report with { Reason = "eaten" }));
        Assert.Empty(guild.Get<ShortageStore>().ForClass(id));
        Assert.Empty(guild.Get<ShortageStore>().ForClass(other));
        using var nowhere = new Phone(address, 9_999);
        await nowhere.Load(cancelled);
        Assert.Equal(HttpStatusCode.NotFound, (await nowhere.Report(report, cancelled)).Status);
    }

    private static async Task Report(IPage phone, int piece, string count, string reason, string note)
    {
        await phone.Locator("#shortages summary").ClickAsync();
        await phone.SelectOptionAsync("#Form_Line", new SelectOptionValue { Index = piece });
        await phone.FillAsync("#Form_Count", count);
        await phone.SelectOptionAsync("#Form_Reason", reason);
        await phone.FillAsync("#Form_Note", note);
        await phone.Locator("#short button").ClickAsync();
    }

    private static async Task<string> Outcome(Phone phone, object report)
    {
        var (status, body) = await phone.Report(report, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, status);
        return body!["outcome"]!.GetValue<string>();
    }

    private static async Task<string> Why(Phone phone, object report)
    {
        var (_, body) = await phone.Report(report, TestContext.Current.CancellationToken);
        Assert.Equal("refused", body!["outcome"]!.GetValue<string>());
        return body["why"]!.GetValue<string>();
    }

    private async Task<ReportCall> Any(long id)
    {
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        return new() { Id = Guid.NewGuid(), Kit = plan.Kits[0].KitId, Line = PackLine.Of(plan.CutList)[0].Key, Count = 1, Reason = "spoiled", Who = "Test" };
    }
}
