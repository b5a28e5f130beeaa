using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Face;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Languages;

/// <summary>German has the longer words: no page is wider for them than a narrow phone, nor any button than its place.</summary>
public sealed class GermanWidthTests(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    private const string TooWide =
        """
        () => [...document.querySelectorAll("main *")].filter(e => e.checkVisibility() && !e.closest(".sr, .scroll, .drawing, [tabindex='0'], .jobline, .board"))
          .filter(e => e.getBoundingClientRect().right > innerWidth + 1 || (e.matches("button, .button") && e.scrollWidth > e.clientWidth + 1)).map(e => e.outerHTML.slice(0, 160)).slice(0, 3)
        """;

    [Fact]
    public async Task Pages_AreNoWiderThanAPhone()
    {
        var settings = guild.Get<GuildStore>();
        await settings.Save(settings.Read() with { Language = "de" });
        var page = await browser.NewPage(360, 800); // The same for all pages: a new one for each takes longer than the page.
        var wide = new List<string>();
        foreach (var address in FaceTests.Pages.Select(row => row.Data))
        {
            await page.GotoAsync(guild.At(address), new() { WaitUntil = WaitUntilState.DOMContentLoaded });
            Assert.Equal("de", await page.GetAttributeAsync("html", "lang"));
            var width = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
            if (width > 360)
            {
                wide.Add($"{address} is {width} px wide in German: {string.Join(" | ", await page.EvaluateAsync<string[]>(TooWide))}");
            }
        }

        Assert.Empty(wide);
    }
}
