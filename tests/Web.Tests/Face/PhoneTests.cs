using System.Text.RegularExpressions;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Face;

/// <summary>What somebody sees who holds a phone at the cutting table, without scripts.</summary>
public sealed class PhoneTests(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    // As large on the screen as it is drawn: the size in the drawing times what the drawing is shrunk by.
    private const string SmallWords = """
        () => [...document.querySelectorAll('.drawing text')].filter(e => e.getBoundingClientRect().width > 0)
          .map(e => [e.textContent, parseFloat(e.getAttribute('font-size')) * e.getScreenCTM().a]).filter(e => e[1] < 11).map(e => e.join(': '))
        """;

    [Theory]
    [InlineData(360)]
    [InlineData(390)]
    [InlineData(768)]
    [InlineData(1280)]
    public async Task Recipes_FitAnyScreenInWordsThatCanBeRead(int width)
    {
        var page = await browser.NewPage(width, 800, scripts: false);
        await page.GotoAsync(guild.At("/classes/2/cut"));
        Assert.NotEqual(0, await page.Locator(".drawing text:visible").CountAsync());
        Assert.Empty(await page.EvaluateAsync<string[]>(SmallWords));
        Assert.Empty(await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('.drawing')].filter(e => e.scrollWidth > e.clientWidth + 1 || e.getBoundingClientRect().right > innerWidth).map(e => e.outerHTML.slice(0, 100))"));

        // A number in a small drawing is told below it; a large one tells it itself.
        var numbered = await page.EvaluateAsync<int[]>("""
            () => [...document.querySelectorAll('.drawing')].map(e => [...e.querySelectorAll('.largewords text')].filter(t => t.getBoundingClientRect().width > 0 && /^[0-9]+$/.test(t.textContent)).reduce((most, t) => Math.max(most, +t.textContent), 0))
            """);
        var told = await page.EvaluateAsync<int[]>("() => [...document.querySelectorAll('.drawing')].map(e => e.nextElementSibling?.matches('.runs') && e.nextElementSibling.checkVisibility() ? e.nextElementSibling.children.length : 0)");
        Assert.Equal(told, numbered);
        Assert.Equal(width < 640, numbered.Any(number => number > 0));
        await page.CloseAsync();
    }

    [Fact]
    public async Task WhatComesNext_IsWithinTheFirstScreen()
    {
        var page = await browser.NewPage(390, 844, scripts: false);
        foreach (var address in new[] { "/classes/2", "/classes/4" })
        {
            await page.GotoAsync(guild.At(address));
            var box = (await page.Locator(".next .button").BoundingBoxAsync())!;
            Assert.True(box.Y + box.Height <= 844, $"{address}: what comes next ends at {box.Y + box.Height} px.");
        }

        await page.CloseAsync();
    }

    [Fact]
    public async Task KitFormats_OfNineFabrics_AreFoldedBehindTheChosenOnes()
    {
        var page = await browser.NewPage(390, 844, scripts: false);
        await page.GotoAsync(guild.At("/classes/2/formats"));
        var folds = page.Locator("details.format");
        Assert.Equal(9, await folds.CountAsync());
        Assert.Equal(0, await page.Locator("details.format[open]").CountAsync());
        Assert.All(await folds.Locator("summary").First.AllInnerTextsAsync(), text => Assert.Matches(new Regex(@"Cut pieces · \$[0-9.]+ · [0-9]+ min", RegexOptions.None), text));
        var folded = await page.EvaluateAsync<int>("document.documentElement.scrollHeight");
        Assert.True(folded < 5_000, $"The page is {folded} px long.");

        // A choice comes back to the fabric that it was made for.
        var brick = folds.Filter(new() { HasText = "Brick" });
        await brick.Locator("summary").First.ClickAsync();
        await brick.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("fat quarters") }).ClickAsync();
        await page.WaitForURLAsync("**/formats?fabric=*");
        Assert.Equal(1, await page.Locator("details.format[open]").CountAsync());
        Assert.StartsWith("fat quarters, cut by you · ", await page.Locator("details.format[open] .now").InnerTextAsync(), StringComparison.Ordinal);
        await page.CloseAsync();
    }

    [Fact]
    public async Task Account_BeforeAnythingIsMeasured_CallsNothingMissing()
    {
        var page = await browser.NewPage(1280, 900, scripts: false);
        await page.GotoAsync(guild.At("/classes/1/settle"));
        Assert.Equal(0, await page.Locator(".accounts .off").CountAsync());
        Assert.Equal(4, await page.Locator(".accounts td", new() { HasText = "should be left, not measured yet" }).CountAsync());

        await page.GotoAsync(guild.At("/classes/2/settle"));
        Assert.Equal(0, await page.Locator(".accounts .off").CountAsync());

        // One is measured, and far too little of it: that one is told, the others still wait.
        var chalk = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Chalk");
        await guild.Get<SettlingStore>().AddLeftover(new() { ClassId = 1, FabricId = chalk.Id, Width = chalk.UsableWidth, Length = KittingBee.Planning.Measures.Length.FromInches(1), Count = 1 });
        await page.GotoAsync(guild.At("/classes/1/settle"));
        Assert.Contains("missing", await page.Locator(".accounts .off").InnerTextAsync(), StringComparison.Ordinal);
        Assert.Equal(3, await page.Locator(".accounts td", new() { HasText = "should be left, not measured yet" }).CountAsync());

        // Closed, there is nothing more to wait for.
        var classes = guild.Get<ClassStore>();
        await page.GetByRole(AriaRole.Button, new() { Name = "Close the class" }).ClickAsync();
        await page.GetByText("This class is closed since").WaitForAsync();
        Assert.True(classes.Find(1)!.IsClosed);
        Assert.Equal(4, await page.Locator(".accounts .off").CountAsync());
        await page.CloseAsync();
    }
}
