using KittingBee.Web.Classes;
using UglyToad.PdfPig;

namespace KittingBee.Web.Tests.Papers;

/// <summary>The whole class in one print.</summary>
public sealed class EverythingTests(Browser browser) : IClassFixture<Browser>
{
    [Fact]
    public async Task ThreeClicks_FromTheClass_PrintEverything()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild);
        var page = await browser.NewPage();
        await page.AddInitScriptAsync("window.print = () => { document.title = 'printed'; }");
        await page.GotoAsync(new Uri(address, $"/classes/{id}").ToString());

        await page.GetByRole(Microsoft.Playwright.AriaRole.Link, new() { Name = "Print", Exact = false }).First.ClickAsync();
        await page.GetByRole(Microsoft.Playwright.AriaRole.Link, new() { Name = "Open everything in one print" }).ClickAsync();
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Print", Exact = true }).ClickAsync();

        Assert.Equal("printed", await page.TitleAsync());
        Assert.EndsWith($"/classes/{id}/print/all", page.Url, StringComparison.Ordinal);
        await page.CloseAsync();
    }

    [Theory]
    [InlineData(false, "0.65 0.6")] // Inches from the edges: the margins of the Letter pages, and no scaling.
    [InlineData(true, "0.63 0.591")] // 16 and 15 mm, the margins of the A4 pages.
    public async Task Everything_HasTicketsHandoutsAndLabels_EachOnPagesOfItsOwn(bool metric, string firstLabel)
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild, metric);
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        var page = await browser.NewPage();
        await page.GotoAsync(new Uri(address, $"/classes/{id}/print/all").ToString());
        using var pdf = PdfDocument.Open(await page.PdfAsync(new() { PreferCSSPageSize = true }));
        await page.CloseAsync();

        var texts = pdf.GetPages().Select(sheet => string.Join(' ', sheet.GetWords().Select(word => word.Text))).ToList();
        var kinds = texts.Select(text => text.Contains("page ", StringComparison.Ordinal) ? SampleGuild.Names.Any(name => text.Contains(name, StringComparison.Ordinal)) ? 'h' : 't' : 'l').ToArray();
        Assert.Matches("^t+h+l$", new string(kinds));
        Assert.All(plan.Kits, kit => Assert.Contains(kit.Code, texts[^1], StringComparison.Ordinal));

        var last = pdf.GetPage(texts.Count);
        var corner = last.Paths.Where(path => !path.IsClipping).Select(path => path.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>()
            .Where(box => box.Width > 200 && box.Width < 300).Select(box => (box.Left / 72, (last.Height - box.Top) / 72)).Order().First();
        var expected = firstLabel.Split(' ').Select(number => double.Parse(number, System.Globalization.CultureInfo.InvariantCulture)).ToArray();
        Assert.Equal(expected[0], corner.Item1, 0.01);
        Assert.Equal(expected[1], corner.Item2, 0.01);
    }
}
