using KittingBee.Web.Packing;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Packing;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>Packing night in real browsers: the teacher shares and makes a code, a helper joins by it, marks, and is cut off.</summary>
public sealed class HelperPhoneTests(Browser browser) : IClassFixture<Browser>
{
    private static readonly LocatorAssertionsToContainTextOptions Soon = new() { Timeout = 20_000 };

    [Fact]
    public async Task Helper_JoinsByCode_Marks_IsCutOff_AndKeepsWhatWaits()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 2);

        // The teacher, from the class's Pack page.
        var teacher = await browser.NewPage();
        await teacher.GotoAsync($"{address}classes/{id}/pack");
        await teacher.ClickAsync("a:has-text('Let helpers in')");
        await Look(teacher);
        await teacher.FillAsync("input[name=Password]", SharedHost.Password);
        await teacher.ClickAsync("button:has-text('Let helpers in')");
        await teacher.ClickAsync($"#class-{id} button");
        var code = (await teacher.Locator("[data-code]").TextContentAsync())!;
        await Look(teacher);

        // The helper, on a phone.
        var phone = await browser.NewPage(390, 844, touch: true);
        await phone.GotoAsync(address.ToString());
        await Look(phone);
        await phone.FillAsync("input[name=Code]", code);
        await phone.FillAsync("input[name=Name]", "Tove");
        await phone.ClickAsync("button:has-text('Join the packing')");
        await Assertions.Expect(phone.Locator("[data-live]")).ToContainTextAsync("Everyone’s ticks show here", Soon);
        await Look(phone);
        var kit = guild.Get<KitStore>().ForClass(id)[0];
        var tick = phone.Locator($"#kit-{kit.Id} .tick").First;
        await tick.ClickAsync();
        await Assertions.Expect(tick).Not.ToHaveClassAsync(new System.Text.RegularExpressions.Regex("pending"), new() { Timeout = 20_000 });
        var mark = Assert.Single(guild.Get<PackingStore>().MarksAfter(id, 0));
        Assert.Equal(("Tove", KitState.Bagged), (mark.Who, mark.State));

        // The teacher cuts the phone off; it says so, and keeps what is ticked from then on.
        await teacher.ReloadAsync();
        await teacher.Locator("tr", new() { HasText = "Tove" }).Locator("button").ClickAsync();
        await Assertions.Expect(phone.Locator("[data-live]")).ToContainTextAsync("This device is signed out", Soon);
        await phone.Locator($"#kit-{kit.Id} .tick").Nth(1).ClickAsync();
        await phone.ReloadAsync();
        await Assertions.Expect(phone.Locator("h1")).ToHaveTextAsync("Come in");
        Assert.Single(guild.Get<PackingStore>().MarksAfter(id, 0));

        // Back by the same code, which still opens: what waited on the phone is sent.
        await phone.FillAsync("input[name=Code]", code);
        await phone.ClickAsync("button:has-text('Join the packing')");
        await Assertions.Expect(phone.Locator("[data-live]")).ToContainTextAsync("Everyone’s ticks show here", Soon);
        await Assertions.Expect(phone.Locator($"#kit-{kit.Id} .tick").Nth(1)).Not.ToHaveClassAsync(new System.Text.RegularExpressions.Regex("pending"), new() { Timeout = 20_000 });
        Assert.Equal(2, guild.Get<PackingStore>().MarksAfter(id, 0).Count);
    }

    private static async Task Look(IPage page)
    {
        Assert.Empty(await page.FaultsThatAxeFinds());
        Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"), $"{page.Url} is wider than its screen.");
    }
}
