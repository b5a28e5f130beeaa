using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Packing night in real browsers: a laptop with the table, two phones with bags, one of them losing its line.</summary>
public sealed class TwoPhonesAndALaptopTests(Browser browser) : IClassFixture<Browser>
{
    // "Everyone within a second", with room for a busy test machine.
    private static readonly LocatorAssertionsToHaveAttributeOptions Soon = new() { Timeout = 10_000 };

    [Fact]
    public async Task Pack_OnePhoneOfflineAndBack_EveryoneSeesEveryMarkOnce()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 3);
        var kits = guild.Get<KitStore>().ForClass(id);

        var laptop = await browser.NewPage();
        var phone = await browser.NewPage(390, 844);
        var other = await browser.NewPage(390, 844);
        await laptop.GotoAsync($"{address}classes/{id}/pack");
        await Name(phone, $"{address}bag/{kits[0].Code}", "Tove");
        await Name(other, $"{address}bag/{kits[1].Code}", "Runa");
        await Assertions.Expect(laptop.Locator("[data-here]")).ToHaveTextAsync("Here now: Runa, Tove", new() { Timeout = 10_000 });

        // One phone ticks a line: the laptop shows it without loading.
        await Tick(phone, 0).ClickAsync();
        await Assertions.Expect(Tick(laptop, kits[0], 0)).ToHaveAttributeAsync("aria-pressed", "true", Soon);

        // The other loses its line, goes on ticking, and says so.
        await other.Context.SetOfflineAsync(true);
        await Tick(other, 0).ClickAsync();
        await Tick(other, 1).ClickAsync();
        await Tick(other, 1).ClickAsync();
        await Tick(other, 2).ClickAsync();
        await Assertions.Expect(other.Locator("[data-live]")).ToContainTextAsync("Not connected. 4 marks wait on this device", new() { Timeout = 10_000 });
        await Assertions.Expect(Tick(other, 0)).ToHaveAttributeAsync("aria-pressed", "true");
        await Assertions.Expect(Tick(laptop, kits[1], 0)).ToHaveAttributeAsync("aria-pressed", "false");

        // Meanwhile the laptop marks one of the same lines and deals a fabric into all bags.
        await Tick(laptop, kits[1], 2).ClickAsync();
        await laptop.Locator("button[data-deal]").First.ClickAsync();
        await Assertions.Expect(laptop.Locator(".saying")).ToContainTextAsync("Oat bagged for 3 bags.");

        // Back again: everything is sent, once, in order, and all three say the same.
        await other.Context.SetOfflineAsync(false);
        await Assertions.Expect(other.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 20_000 });
        await Assertions.Expect(Tick(laptop, kits[1], 2)).ToHaveAttributeAsync("aria-pressed", "true", Soon);
        await Assertions.Expect(Tick(phone, 1)).ToHaveAttributeAsync("aria-pressed", "true", Soon);
        var table = guild.Get<MarkDesk>().Table(id);
        foreach (var kit in kits)
        {
            foreach (var at in Enumerable.Range(0, 4))
            {
                var tick = Tick(laptop, kit, at);
                var state = table.Standing(kit.Id, (await tick.GetAttributeAsync("data-line"))!)?.State;
                await Assertions.Expect(tick).ToHaveAttributeAsync("aria-pressed", state == KitState.Bagged ? "true" : "false", Soon);
            }
        }

        var marks = guild.Get<PackingStore>().MarksAfter(id, 0);
        Assert.All(marks.GroupBy(mark => (mark.KitId, mark.Line)), line => Assert.Distinct(KitMarks.NotUndone([.. line]).Select(mark => mark.State)));
        Assert.Contains(marks, mark => mark.Who == "Tove");
        Assert.Contains(marks, mark => mark.Who == "Runa");

        // Nothing is left on the phone, and after loading anew it looks the same.
        Assert.Equal(0, await other.EvaluateAsync<int>("() => Object.keys(localStorage).filter(key => key.startsWith('kitting-bee mark')).length"));
        await other.ReloadAsync();
        await Assertions.Expect(Tick(other, 0)).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Fact]
    public async Task Pack_MarksMadeOfflineThenThePageLoadedAnew_AreKeptAndSent()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 1);
        var kit = guild.Get<KitStore>().ForClass(id)[0];
        var phone = await browser.NewPage(360, 740);
        await phone.GotoAsync($"{address}bag/{kit.Code}");
        await phone.RouteAsync("**/marks", route => route.AbortAsync());
        await Tick(phone, 0).ClickAsync();
        await Assertions.Expect(phone.Locator("[data-live]")).ToContainTextAsync("1 mark waits", new() { Timeout = 10_000 });
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(id, 0));
        await phone.UnrouteAsync("**/marks");
        await phone.ReloadAsync();
        await Assertions.Expect(Tick(phone, 0)).ToHaveAttributeAsync("aria-pressed", "true");
        await Assertions.Expect(phone.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 10_000 });
        Assert.Single(guild.Get<PackingStore>().MarksAfter(id, 0));
        Assert.True(await phone.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= 360"), "The page is wider than a 360 px screen.");
    }

    [Fact]
    public async Task Bag_ShortAndMarked_HasNoFaultThatAxeFinds()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 2);
        var phone = await browser.NewPage(360, 740);
        await Name(phone, $"{address}bag/{guild.Get<KitStore>().ForClass(id)[0].Code}", "Tove");
        await Tick(phone, 0).ClickAsync();
        await phone.Locator("#shortages summary").ClickAsync();
        await phone.SelectOptionAsync("#Form_Line", new SelectOptionValue { Index = 1 });
        await phone.SelectOptionAsync("#Form_Reason", "spoiled");
        await phone.Locator("#short button").ClickAsync();
        await Assertions.Expect(phone.Locator("#shortages .warn")).ToContainTextAsync("spoiled, says Tove");
        await phone.Locator("summary", new() { HasText = "trail" }).ClickAsync();
        await Assertions.Expect(phone.Locator(".marks").First).ToContainTextAsync("Tove");
        Assert.Empty(await phone.FaultsThatAxeFinds());
    }

    private static async Task Name(IPage page, string address, string name)
    {
        await page.GotoAsync(address);
        await page.FillAsync("#who", name);
        await page.PressAsync("#who", "Enter");
        await Assertions.Expect(page.Locator("#who")).ToHaveValueAsync(name);
        await Assertions.Expect(page.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 10_000 });
    }

    [Fact]
    public async Task Pack_InGerman_CountsAndSaysStagesInGermanAsMarksComeIn()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 3);
        var kits = guild.Get<KitStore>().ForClass(id);
        Assert.Equal(Saved.Done, await guild.Get<GuildStore>().Save(guild.Get<GuildStore>().Read() with { Language = "de" }));
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        await guild.Get<MarkDesk>().Mark(id, [.. PackLine.Of(plan.CutList).Select(line => new NewMark(Guid.NewGuid(), kits[0].Id, line.Key, KitState.Bagged, "Tove"))]);

        // One kit was bagged before the page was there; the second is bagged on it.
        var laptop = await browser.NewPage();
        await laptop.GotoAsync($"{address}classes/{id}/pack");
        await laptop.Locator($"#kit-{kits[1].Id} button[data-all]").ClickAsync();
        await Assertions.Expect(laptop.Locator($"#kit-{kits[1].Id} [data-stage]")).ToHaveTextAsync("eingetütet");
        await Assertions.Expect(laptop.Locator("[data-progress='2'] b")).ToHaveTextAsync("2");
    }

    private static ILocator Tick(IPage bag, int line) => bag.Locator(".lines .tick").Nth(line);

    private static ILocator Tick(IPage table, Kit kit, int line) => table.Locator($"#kit-{kit.Id} .tick").Nth(line);
}
