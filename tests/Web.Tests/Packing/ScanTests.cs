using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Packing;

/// <summary>
/// The camera on the page that opens a bag. The browser's moving test picture stands for the camera, and a detector of the
/// browser's own shape for the one that headless browsers lack; it answers only to a picture that has really come in.
/// </summary>
public sealed class ScanTests(GuildHost guild, Browser browser) : IClassFixture<GuildHost>, IClassFixture<Browser>
{
    private readonly Uri address = guild.Listen();

    private const string Instead = "Type the code, or point the phone’s own camera at the label: it opens the bag’s page.";

    [Fact]
    public async Task Scan_ALabelInFrontOfTheCamera_OpensItsBag()
    {
        var (page, code) = await Page(camera: true);
        await page.AddInitScriptAsync(Detector($"['https://elsewhere.example/about', 'http://guild.example/bag/{code}']"));
        await page.GotoAsync($"{address}bag");
        await page.ClickAsync("#scan-start");
        await Assertions.Expect(page.Locator("#scan-says")).ToHaveTextAsync("That is no bag’s label.");
        await page.WaitForURLAsync($"**/bag/{code}");
        await Assertions.Expect(page.Locator("b.code")).ToHaveTextAsync(code);
    }

    [Fact]
    public async Task Scan_Stopped_LetsTheCameraGoAndOffersItAgain()
    {
        var (page, _) = await Page(camera: true);
        await page.AddInitScriptAsync(Detector("[]"));
        await page.GotoAsync($"{address}bag");
        await page.ClickAsync("#scan-start");
        await Assertions.Expect(page.Locator("#scan-says")).ToHaveTextAsync("Hold the label in front of the camera.");
        Assert.Empty(await page.FaultsThatAxeFinds());
        await page.EvaluateAsync("() => { globalThis.track = document.getElementById('scan-view').srcObject.getTracks()[0] }");
        await page.ClickAsync("#scan-stop");
        Assert.Equal("ended", await page.EvaluateAsync<string>("() => globalThis.track.readyState"));
        await Assertions.Expect(page.Locator("#scan-start")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("#scan-view")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Scan_CameraRefused_SaysWhereToAllowItAndTypingWorks()
    {
        var (page, code) = await Page(camera: false);
        await page.AddInitScriptAsync(Detector("[]"));
        await page.GotoAsync($"{address}bag");
        await page.ClickAsync("#scan-start");
        await Assertions.Expect(page.Locator("#scan-says")).ToHaveTextAsync($"The camera was refused. To use it, allow it for this page in the browser’s settings. {Instead}");
        await Type(page, code);
    }

    [Theory]
    [InlineData("delete globalThis.BarcodeDetector", "This browser cannot read labels by itself.")]
    [InlineData("Object.defineProperty(globalThis, 'isSecureContext', { value: false })", "Browsers open the camera only for pages that came over https or from this machine itself, and this one came another way.")]
    public async Task Scan_WhereItCannotBe_SaysWhyAndTypingWorks(string browserLacks, string why)
    {
        var (page, code) = await Page(camera: true);
        await page.AddInitScriptAsync(browserLacks);
        await page.GotoAsync($"{address}bag");
        await Assertions.Expect(page.Locator("#scan-says")).ToHaveTextAsync($"{why} {Instead}");
        await Assertions.Expect(page.Locator("#scan-start")).ToBeHiddenAsync();
        await Type(page, code);
    }

    [Fact]
    public async Task Policy_AllowsTheCameraToOurOwnPagesAndNothingElse()
    {
        using var client = guild.CreateClient();
        using var answer = await client.GetAsync(new Uri("/bag", UriKind.Relative), TestContext.Current.CancellationToken);
        var policy = Assert.Single(answer.Headers.GetValues("Permissions-Policy"));
        Assert.Contains("camera=self", policy, StringComparison.Ordinal);
        Assert.Contains("microphone=()", policy, StringComparison.Ordinal);
    }

    private static async Task Type(IPage page, string code)
    {
        await page.FillAsync("#Code", $"{code[..3].ToLowerInvariant()} {code[3..]}");
        await page.PressAsync("#Code", "Enter");
        await page.WaitForURLAsync($"**/bag/{code}");
    }

    /// <summary>Gives these texts one look after another, once the video shows a picture.</summary>
    private static string Detector(string texts) => $$"""
        globalThis.BarcodeDetector = class {
          constructor(options) { if (options.formats.join() !== "qr_code") throw new TypeError("other formats"); this.texts = {{texts}}; }
          async detect(video) { return video.videoWidth > 0 && this.texts.length > 0 ? [{ rawValue: this.texts.shift() }] : []; }
        };
        """;

    private async Task<(IPage Page, string Code)> Page(bool camera)
    {
        var id = await ExampleClass.Store(guild, 1);
        var page = await browser.NewPage(390, 844);
        if (camera)
        {
            await page.Context.GrantPermissionsAsync(["camera"]);
        }

        return (page, guild.Get<KitStore>().ForClass(id)[0].Code);
    }
}
