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

        var code = page.Locator("svg.code");
        await code.EvaluateAsync("svg => svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg')");
        var pixels = await code.EvaluateAsync<int[]>(Paint);
        var source = new RGBLuminanceSource([.. pixels.Select(value => (byte)value)], 400, 400, RGBLuminanceSource.BitmapFormat.RGBA32);
        var read = new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)));

        Assert.Equal(new Uri(address, PageAddresses.Own((await guild.Get<KitLinks>().Of(id))[kit.KitId])).ToString(), read.Text);
    }
}
