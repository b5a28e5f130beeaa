using Deque.AxeCore.Playwright;
using KittingBee.Web.Demonstration;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Face;

/// <summary>The demonstration guild, listening for a browser.</summary>
public sealed class DemonstrationHost : GuildHost, IAsyncLifetime
{
    public Uri Address { get; private set; } = new("about:blank");

    public async ValueTask InitializeAsync()
    {
        Address = Listen();
        await Get<DemonstrationGuild>().Load();
    }
}

/// <summary>
/// Every page is looked at by a machine: no fault that axe finds in light at a desk or in dark on a phone,
/// and nothing wider than a phone of 360 px.
/// </summary>
public sealed class FaceTests(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    private const string WidestElement = "[...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > 361).map(e => e.outerHTML.slice(0, 120)).slice(0, 3).join(' | ')";

    public static TheoryData<string> Pages =>
    [
        "/", "/classes", "/classes/new", "/classes/2", "/classes/2/change", "/classes/2/roster", "/classes/2/roster/8", "/classes/2/fabrics", "/classes/2/fabrics/3",
        "/classes/2/fabrics/new", "/classes/1", "/classes/4", "/shelf", "/shelf/fabrics/1", "/shelf/fabrics/new", "/shelf/pieces/1", "/shelf/pieces/new?fabric=2", "/settings", "/settings/sharing", "/settings/backups", "/settings/taken-out", "/settings/files", "/classes/2/print/links", "/no-such-page",
        "/classes/2/cut", "/classes/2/price", "/classes/2/print", "/classes/2/pack", "/classes/1/pack", "/classes/1/settle", "/blocks", "/blocks/1", "/blocks/new", "/blocks/typed", "/classes/2/recut", "/classes/1/pack/history",
        "/bag", "/classes/2/pack?do=check", "/classes/1/settle?makes=true", "/classes/1/settle/workbook",
        "/find", "/find?q=star", "/glossary", "/help", "/classes/2/copy", "/classes/2/supply", "/classes/2/shopping", "/shopping",
    ];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_HasNoFaultThatAxeFinds(string address)
    {
        var page = await browser.NewPage(1280, 1000);
        try
        {
            await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
            await page.GotoAsync(new Uri(guild.Address, address).ToString());
            await Look(page, address, "1280-light");
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark, ReducedMotion = ReducedMotion.Reduce });
            await page.SetViewportSizeAsync(360, 800);
            await Look(page, address, "360-dark");
            var wide = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
            Assert.True(wide <= 360, $"{address} is {wide} px wide on a phone of 360 px: {await page.EvaluateAsync<string>(WidestElement)}");
        }
        finally
        {
            await page.CloseAsync();
        }
    }

    private static async Task Look(IPage page, string address, string how)
    {
        var result = await page.RunAxe();
        Assert.True(result.Violations.Length == 0, string.Join("\n", result.Violations.Select(fault =>
            $"{address} {how}: {fault.Id}: {fault.Help}: {string.Join(" | ", fault.Nodes.Take(3).Select(node => node.Html))}")));
    }
}
