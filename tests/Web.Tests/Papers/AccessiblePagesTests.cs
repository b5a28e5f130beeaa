namespace KittingBee.Web.Tests.Papers;

public sealed class AccessiblePagesTests(Browser browser) : IClassFixture<Browser>
{
    [Theory]
    [InlineData(1280)]
    [InlineData(360)] // WCAG 2.2, 1.4.10 Reflow asks for 320 CSS pixels; 360 is the narrowest phone that the guild has.
    public async Task PagesOfTheTable_HaveNoViolation_AndDoNotScrollSideways(int width)
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild);
        foreach (var what in new[] { "formats", "cut", "price?curve=true", "print", "print/handouts?kit=3", "print/handouts?kit=1&large=true", "print/tickets", "print/labels?test=true" })
        {
            var page = await browser.NewPage(width);
            await page.GotoAsync(new Uri(address, $"/classes/{id}/{what}").ToString());

            Assert.Empty(await page.FaultsThatAxeFinds());
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width, $"{what} is wider than {width} pixels.");
            await page.CloseAsync();
        }
    }
}
