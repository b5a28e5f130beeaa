using KittingBee.Web.Storage;
using UglyToad.PdfPig;

namespace KittingBee.Web.Tests.Face;

/// <summary>The guide stays two pages on paper, whatever the language and the paper.</summary>
public sealed class GuideTests(Browser browser) : IClassFixture<Browser>
{
    [Theory]
    [InlineData("en-GB", "Letter")]
    [InlineData("en-GB", "A4")]
    [InlineData("de", "Letter")]
    [InlineData("de", "A4")]
    public async Task Guide_FillsTwoPages(string language, string paper)
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var store = guild.Get<GuildStore>();
        await store.Save(store.Read() with { Name = "Millpond Piecers", Language = language });
        var page = await browser.NewPage();
        await page.GotoAsync(new Uri(address, "/help").ToString());
        using var printed = PdfDocument.Open(await page.PdfAsync(new() { Format = paper, PrintBackground = true }));
        Assert.Equal(2, printed.NumberOfPages);

        // The last part of all, the iron's caution, is on the second; and neither page is left half empty.
        Assert.All(printed.GetPages(), sheet => Assert.True(sheet.GetWords().Min(word => word.BoundingBox.Bottom) < sheet.Height * 0.45));
        await page.CloseAsync();
    }
}
