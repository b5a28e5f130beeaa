using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Face;

namespace KittingBee.Web.Tests.Languages;

/// <summary>German has the longer words: no page is wider for them than a narrow phone, nor any button than its place.</summary>
public sealed class GermanWidthTests(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    private const string TooWide =
        """
        () => [...document.querySelectorAll("main *")].filter(e => e.checkVisibility() && !e.closest(".sr, .scroll, .drawing, [tabindex='0'], .jobline, .board"))
          .filter(e => e.getBoundingClientRect().right > innerWidth + 1 || (e.matches("button, .button") && e.scrollWidth > e.clientWidth + 1)).map(e => e.outerHTML.slice(0, 160)).slice(0, 3)
        """;

    public static TheoryData<string> Pages => FaceTests.Pages;

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_IsNoWiderThanAPhone(string address)
    {
        var settings = guild.Get<GuildStore>();
        await settings.Save(settings.Read() with { Language = "de" });
        var page = await browser.NewPage(360, 800);
        try
        {
            await page.GotoAsync(guild.At(address));
            Assert.Equal("de", await page.GetAttributeAsync("html", "lang"));
            var wide = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
            Assert.True(wide <= 360, $"{address} is {wide} px wide in German: {string.Join(" | ", await page.EvaluateAsync<string[]>(TooWide))}");
        }
        finally
        {
            await page.CloseAsync();
        }
    }
}
