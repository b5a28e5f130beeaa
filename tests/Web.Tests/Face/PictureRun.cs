using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Face;

/// <summary>Takes pictures of every page for people to look at, and those of the README. <c>tests/pictures</c> runs it.</summary>
public sealed class PictureRun(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    private static readonly (string Address, string File, int Height)[] Readme = [("/classes/2", "class", 900), ("/classes/2/cut#fabric-3", "cut", 700)];

    [Fact]
    public async Task EveryPage_IsTaken()
    {
        var folder = Environment.GetEnvironmentVariable("KITTING_BEE_PICTURES");
        Assert.SkipWhen(string.IsNullOrEmpty(folder), "Pictures are only taken when asked for: run tests/pictures.");
        Directory.CreateDirectory(folder);
        if (Environment.GetEnvironmentVariable("KITTING_BEE_LANGUAGE") is { Length: > 0 } language)
        {
            var settings = guild.Get<GuildStore>();
            await settings.Save(settings.Read() with { Language = language });
        }

        var page = await browser.NewPage();
        foreach (var address in FaceTests.Pages.Select(row => row.Data))
        {
            foreach (var (width, height) in new[] { (1280, 900), (390, 844) })
            {
                await page.SetViewportSizeAsync(width, height);
                foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
                {
                    await page.EmulateMediaAsync(new() { ColorScheme = scheme, ReducedMotion = ReducedMotion.Reduce });
                    await page.GotoAsync(guild.At(address));
                    var name = address.Trim('/').Replace('/', '-').Replace('?', '-').Replace('=', '-').Replace("{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal);

                    // What is out of sight is not drawn until somebody scrolls there; a picture of the whole page has to show it.
                    await page.EvaluateAsync("for (const e of document.querySelectorAll('.bags, .bag')) e.style.contentVisibility = 'visible'");
                    await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{(name.Length == 0 ? "home" : name)}-{width}-{scheme.ToString().ToLowerInvariant()}.png"), FullPage = true });
                }
            }
        }

        if (Environment.GetEnvironmentVariable("KITTING_BEE_README") is { Length: > 0 } readme)
        {
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light, ReducedMotion = ReducedMotion.Reduce });
            foreach (var (address, file, height) in Readme)
            {
                await page.SetViewportSizeAsync(1280, height);
                await page.GotoAsync(guild.At(address));
                await page.ScreenshotAsync(new() { Path = Path.Combine(readme, file + ".png") });
            }

            await page.GotoAsync(new Uri(guild.Address, "/help").ToString());
            await page.PdfAsync(new() { Path = Path.Combine(folder, "guide.pdf"), Format = "Letter", PrintBackground = true });
        }
    }
}
