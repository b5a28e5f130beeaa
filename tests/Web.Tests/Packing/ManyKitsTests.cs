using System.Diagnostics;
using System.Text;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Two thousand kits on one table. Times are written out, not asserted; what is asserted is the work that they come from.</summary>
public sealed class ManyKitsTests(GuildHost guild, Browser browser, ITestOutputHelper output) : IClassFixture<GuildHost>, IClassFixture<Browser>
{
    private const int Kits = 2000;

    // Scrolls by a quarter of a laptop's screen each frame, some 12,000 px a second: a hard flick.
    private const string Flick = """
        async () => {
          for (let frame = 0, at = 20000; frame < 120; frame++) {
            scrollTo(0, at += 200);
            await new Promise(requestAnimationFrame);
          }
        }
        """;

    private const string Laid = "() => [...document.querySelectorAll('.bags .tick')].filter(tick => tick.checkVisibility({ contentVisibilityAuto: true })).length";

    [Fact]
    public async Task Pack_TwoThousandKits_LaysOutOnlyWhatIsInSight()
    {
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, Kits);
        using var client = guild.CreateClient();
        var table = new Uri($"/classes/{id}/pack", UriKind.Relative);
        var html = await client.GetStringAsync(table, TestContext.Current.CancellationToken);
        var clock = Stopwatch.StartNew();
        await client.GetStringAsync(table, TestContext.Current.CancellationToken);
        output.WriteLine($"{Kits} kits of 4 lines: {Encoding.UTF8.GetByteCount(html) / 1000} kB, made and sent in {clock.ElapsedMilliseconds} ms");
        Assert.True(html.Length < 1500 * Kits, $"{html.Length} characters are more than 1,500 for each kit.");

        foreach (var (width, height) in new[] { (1280, 900), (390, 844) })
        {
            var page = await browser.NewPage(width, height);
            clock.Restart();
            await page.GotoAsync($"{address}classes/{id}/pack");
            await Assertions.Expect(page.Locator("[data-live]")).ToHaveTextAsync("Everyone’s ticks show here as they are made.", new() { Timeout = 60_000 });
            var ready = clock.ElapsedMilliseconds;
            var nodes = await page.EvaluateAsync<int>("() => document.querySelectorAll('*').length");
            await page.Locator(".bag").First.ScrollIntoViewIfNeededAsync();
            await page.WaitForFunctionAsync($"() => ({Laid})() > 0"); // The browser lays out with its next picture.
            var laid = await page.EvaluateAsync<int>(Laid);
            var work = await WorkOf(page, () => page.EvaluateAsync(Flick));
            output.WriteLine($"{width} px: live after {ready} ms, {nodes} elements, {laid} of {4 * Kits} ticks laid out; scrolling takes {1000 * work / 120:0.0} ms of work a frame");
            Assert.InRange(laid, 1, 400);
            Assert.True(nodes < 25 * Kits, $"{nodes} elements are more than 25 for each kit.");

            // A kit far down is found, ticked and counted.
            var kit = guild.Get<KitStore>().ForClass(id)[1234];
            await page.Locator($"#kit-{kit.Id} .tick").Nth(width > 1000 ? 0 : 1).ClickAsync();
            await Assertions.Expect(page.Locator(".saying")).ToContainTextAsync("bagged.");
            Assert.InRange(await page.EvaluateAsync<int>(Laid), 1, 800);
            await page.CloseAsync();
        }
    }

    /// <summary>Seconds that the page's own thread works meanwhile; unlike the clock this does not count the waiting on a busy machine.</summary>
    private static async Task<double> WorkOf(IPage page, Func<Task> act)
    {
        var session = await page.Context.NewCDPSessionAsync(page);
        await session.SendAsync("Performance.enable", new() { ["timeDomain"] = "threadTicks" });
        var before = await Work(session);
        await act();
        return await Work(session) - before;
    }

    private static async Task<double> Work(ICDPSession session) =>
        (await session.SendAsync("Performance.getMetrics"))!.Value.GetProperty("metrics").EnumerateArray()
            .Single(metric => metric.GetProperty("name").GetString() == "ThreadTime").GetProperty("value").GetDouble();
}
