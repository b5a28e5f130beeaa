using Microsoft.Playwright;

namespace KittingBee.Web.Tests;

/// <summary>A real browser; tests that need one skip, with the reason, where there is none.</summary>
public sealed class Browser : IAsyncLifetime
{
    private const string Chromium = "/usr/bin/chromium";
    private IPlaywright? playwright;

    private IBrowser? browser;

    /// <summary>A page of a new browser session.</summary>
    public async Task<IPage> NewPage(int width = 1280, int height = 900, bool touch = false, bool scripts = true)
    {
        Assert.SkipUnless(File.Exists(Chromium), $"There is no browser at {Chromium}; tests/run installs one where Debian's packages can give it.");
        playwright ??= await Playwright.CreateAsync();
        browser ??= await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Chromium,
            Args = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--use-fake-device-for-media-stream"],
        });
        var session = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, HasTouch = touch, JavaScriptEnabled = scripts });
        return await session.NewPageAsync();
    }

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.DisposeAsync();
        }

        playwright?.Dispose();
    }
}
