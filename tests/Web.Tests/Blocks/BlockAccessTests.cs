using KittingBee.Planning.Blocks;
using KittingBee.Web.Blocks;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Blocks;

/// <summary>Pages of blocks for everyone: axe's rules, and no page wider than its window.</summary>
public sealed class BlockAccessTests(Browser browser, GuildHost guild) : IClassFixture<Browser>, IClassFixture<GuildHost>
{
    public static TheoryData<string, int> Pages =>
    [
        ("/blocks", 1280), ("/blocks", 360), ("/blocks/new", 1280), ("/blocks/new", 360), ("/blocks/{block}", 1280), ("/blocks/{block}", 360),
        ("/blocks/drafts/{draft}", 1280), ("/blocks/drafts/{draft}", 360), ("/blocks/{block}/project", 1280), ("/blocks/{block}/project", 360), ("/blocks/{typed}/typed", 1280), ("/blocks/{typed}/typed", 360),
    ];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_HasNothingThatAxeFinds_AndFitsItsWindow(string address, int width)
    {
        var page = await browser.NewPage(width, 900);

        // The two widths take a colour scheme each.
        await page.EmulateMediaAsync(new() { ColorScheme = width > 400 ? Microsoft.Playwright.ColorScheme.Dark : Microsoft.Playwright.ColorScheme.Light, ReducedMotion = Microsoft.Playwright.ReducedMotion.Reduce });
        var home = guild.Listen();
        await page.GotoAsync(new Uri(home, await Filled(address)).ToString());
        if (address.Contains("drafts", StringComparison.Ordinal))
        {
            await page.Locator("[role=gridcell]").First.WaitForAsync();
        }

        Assert.Empty(await page.FaultsThatAxeFinds());
        var wide = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
        Assert.True(wide <= width, $"{address} is {wide} px wide in a window of {width} px.");
    }

    private async Task<string> Filled(string address)
    {
        var block = Starters.Find("ribbon-star")!.Block;
        var json = BlockJson.Write(block);
        var blocks = guild.Get<BlockStore>();
        var id = await blocks.Add(new StoredBlock { Name = block.Name, Json = json });
        var typed = await blocks.Add(new StoredBlock { Name = "Typed", TypedLines = "A 4 squares 4 1/2\nB 2 @ 2 x 14½" });
        var sketch = BlockSketch.Of(block, new(Metric: false, PaperA4: false, "USD"));
        sketch.Units.RemoveAt(3);
        var draft = await guild.Get<DraftStore>().Begin(new BlockDraft { SketchJson = sketch.ToJson() });
        return address
            .Replace("{block}", $"{id}", StringComparison.Ordinal)
            .Replace("{draft}", $"{draft}", StringComparison.Ordinal)
            .Replace("{typed}", $"{typed}", StringComparison.Ordinal);
    }
}
