namespace KittingBee.Web.Tests;

public sealed class AxeFaultsTests(Browser browser) : IClassFixture<Browser>
{
    /// <summary>Two failures of WCAG 2.2 in one page: a picture without a text (1.1.1) and a page without a language (3.1.1).</summary>
    [Fact]
    public async Task FaultsThatAxeFinds_PageWithTwo_NamesBothAndTheElement()
    {
        var page = await browser.NewPage();
        await page.SetContentAsync("<!doctype html><html><head><title>Bad</title></head><body><main><h1>Bad</h1><img src='a.png'></main></body></html>");
        var faults = await page.FaultsThatAxeFinds();
        Assert.Contains(faults, fault => fault.Contains("image-alt", StringComparison.Ordinal) && fault.Contains("a.png", StringComparison.Ordinal));
        Assert.Contains(faults, fault => fault.Contains("html-has-lang", StringComparison.Ordinal));
    }
}
