using KittingBee.Web.Classes;
using KittingBee.Web.Sharing;
using KittingBee.Web.Showing;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace KittingBee.Web.Tests.Papers;

/// <summary>The codes as a browser paints them, read by another library than the one that made them.</summary>
public sealed class QrCodeTests(Browser browser) : IClassFixture<Browser>
{
    private const string Paint = """
        async svg => {
          const picture = new Image();
          picture.src = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(new XMLSerializer().serializeToString(svg));
          await picture.decode();
          const side = 400, canvas = document.createElement("canvas");
          canvas.width = canvas.height = side;
          const pen = canvas.getContext("2d");
          pen.fillStyle = "#fff";
          pen.fillRect(0, 0, side, side);
          pen.drawImage(picture, 0, 0, side, side);
          return Array.from(pen.getImageData(0, 0, side, side).data);
        }
        """;

    [Fact]
    public async Task CodeOnAHandout_LeadsToThatStudentsOwnPage()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild);
        var kit = (await guild.Get<ClassPlanning>().Plan(id))!.Kits[2];
        var page = await browser.NewPage();
        await page.GotoAsync(new Uri(address, $"/classes/{id}/print/handouts?kit={kit.Number}").ToString());

        Assert.Equal(new Uri(address, PageAddresses.Own((await guild.Get<KitLinks>().Of(id))[kit.KitId])).ToString(), await Read(page.Locator("svg.code")));
    }

    [Fact]
    public async Task CodeOnALabel_LeadsToThatBagsPage()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild);
        var kit = (await guild.Get<ClassPlanning>().Plan(id))!.Kits[2];
        var page = await browser.NewPage();
        await page.GotoAsync(new Uri(address, $"/classes/{id}/print/labels?sheet=letter-3x10").ToString());

        // The code of the third label by itself, with the quiet zone that it has there.
        await page.Locator("svg > svg").Nth(2).EvaluateAsync("""
            label => {
              const code = label.querySelector('path[fill="#000"]');
              const side = code.parentNode.querySelector("rect").getAttribute("width");
              const alone = document.createElementNS("http://www.w3.org/2000/svg", "svg");
              alone.id = "alone";
              alone.setAttribute("viewBox", `0 0 ${side} ${side}`);
              alone.setAttribute("width", "400");
              alone.setAttribute("height", "400");
              alone.append(code.cloneNode());
              document.body.append(alone);
            }
            """);
        Assert.Equal(new Uri(address, PageAddresses.Bag(kit.Code)).ToString(), await Read(page.Locator("#alone")));
    }

    private static async Task<string> Read(Microsoft.Playwright.ILocator code)
    {
        await code.EvaluateAsync("svg => svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg')");
        var pixels = await code.EvaluateAsync<int[]>(Paint);
        var source = new RGBLuminanceSource([.. pixels.Select(value => (byte)value)], 400, 400, RGBLuminanceSource.BitmapFormat.RGBA32);
        return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source))).Text;
    }
}
