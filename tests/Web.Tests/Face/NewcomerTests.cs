using Microsoft.Playwright;
using UglyToad.PdfPig;

namespace KittingBee.Web.Tests.Face;

/// <summary>
/// Somebody who has never seen the program goes from its first page to printed handouts, in a real browser and by what the
/// pages show alone. Every click and key is counted: DEVELOPERS.md has the counts.
/// </summary>
public sealed class NewcomerTests(Browser browser) : IClassFixture<Browser>, IDisposable
{
    private readonly GuildHost guild = new();

    [Fact]
    public async Task FirstRun_ToPrintedHandouts_TakesFewClicksAndKeys()
    {
        var page = await browser.NewPage();
        var hand = new Hand(page);
        await page.GotoAsync(guild.Listen().ToString());

        await hand.Type("Name of the guild", "Millpond Piecers");
        await hand.Click("Start our guild");
        await hand.Click("New block");
        await hand.Click("Start from this: Nine Patch");
        await hand.Click("Save block");
        await page.WaitForURLAsync("**/blocks/1");

        await hand.Click("New class");
        await hand.Click("Start the class");
        await hand.Click("Go to Roster");
        await hand.Paste("One student a line", "Ada Finch\nBea Rowan\nCleo Marsh");
        await hand.Click("Add them all");

        await page.Locator("nav.job a", new() { HasTextString = "Fabrics" }).ClickAsync();
        hand.Clicks++;
        await hand.Type("A: Price a yard, USD", "11");
        await hand.Type("B: Price a yard, USD", "12.50");
        await hand.Click("Save");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("3 students without one have it");

        await page.Locator("nav.job a", new() { HasTextString = "Print" }).ClickAsync();
        hand.Clicks++;
        await hand.Click("Open the handouts");
        await page.WaitForLoadStateAsync();

        using var printed = PdfDocument.Open(await page.PdfAsync(new() { PreferCSSPageSize = true }));
        var text = string.Join(' ', printed.GetPages().Select(sheet => sheet.Text));
        Assert.All(["Ada Finch", "Bea Rowan", "Cleo Marsh"], name => Assert.Contains(name, text, StringComparison.Ordinal));
        Assert.True(hand.Clicks <= 13 && hand.Keys <= 25, $"{hand.Clicks} clicks and {hand.Keys} keys: more than before. Bring them down, or write the new counts here and into DEVELOPERS.md.");
    }

    public void Dispose() => guild.Dispose();

    /// <summary>A hand at mouse and keyboard that counts what it does.</summary>
    private sealed class Hand(IPage page)
    {
        public int Clicks { get; set; }

        public int Keys { get; private set; }

        /// <summary>Clicks the button or link with one of these names.</summary>
        public async Task Click(params string[] names)
        {
            var wanted = new System.Text.RegularExpressions.Regex("^(" + string.Join('|', names.Select(name => System.Text.RegularExpressions.Regex.Escape(name).Replace(":", @"\s?:", StringComparison.Ordinal))) + ")$");
            var main = page.Locator("main");
            await main.GetByRole(AriaRole.Button, new() { NameRegex = wanted }).Or(main.GetByRole(AriaRole.Link, new() { NameRegex = wanted })).First.ClickAsync();
            Clicks++;
        }

        /// <summary>Clicks into a field, unless it has the focus already, and types.</summary>
        public async Task Type(string label, string text)
        {
            await Fill(label, text);
            Keys += text.Length;
        }

        /// <summary>Clicks into a field and pastes what was copied elsewhere: Ctrl and V.</summary>
        public async Task Paste(string label, string text)
        {
            await Fill(label, text);
            Keys += 2;
        }

        private async Task Fill(string label, string text)
        {
            var field = page.Locator("main").GetByLabel(label, new() { Exact = true });
            Clicks += await field.EvaluateAsync<bool>("field => document.activeElement === field") ? 0 : 1;
            await field.FillAsync(text);
        }
    }
}
