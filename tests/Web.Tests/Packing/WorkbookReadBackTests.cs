using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Packing;

/// <summary>A class settled from its own workbook, filled in and sent back.</summary>
public sealed partial class WorkbookReadBackTests(GuildHost guild) : IClassFixture<GuildHost>
{
    [Fact]
    public async Task Workbook_FilledInAndSentBack_SettlesTheClassOnce()
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 2);
        using var client = guild.CreateClient();
        var blank = await client.GetByteArrayAsync(new Uri($"/classes/{id}/print/workbook", UriKind.Relative), cancelled);
        var filled = Fill(blank);

        // Shown first; nothing is stored yet.
        var shown = await Upload(client, id, filled);
        Assert.Contains("1.5 yd bought for 18", shown, StringComparison.Ordinal);
        Assert.Contains("0.25 yd of the whole width left", shown, StringComparison.Ordinal);
        Assert.Contains("10 × 8 left", shown, StringComparison.Ordinal);
        Assert.Contains("kit 1, Kit to claim: A", shown, StringComparison.Ordinal);
        Assert.Empty(guild.Get<SettlingStore>().Purchases(id));

        using var taken = await client.PostAsync(new Uri($"/classes/{id}/settle/workbook?handler=Take", UriKind.Relative), Confirm(shown), cancelled);
        Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
        var bought = Assert.Single(guild.Get<SettlingStore>().Purchases(id));
        Assert.Equal((Length.FromInches(54), 18m), (bought.Length, bought.Paid));
        Assert.Equal(
            [(Length.FromInches(42), Length.FromInches(9)), (Length.FromInches(10), Length.FromInches(8))],
            guild.Get<SettlingStore>().Leftovers(id).Select(left => (left.Width, left.Length)));
        Assert.Equal(Length.FromInches(3, 6, 10), Assert.Single(guild.Get<SettlingStore>().Given(id)).Length);
        Assert.Equal(KitState.Bagged, Assert.Single(guild.Get<MarkDesk>().Table(id).Snapshot().Standing).Value.State);

        // The same file again has nothing new in it.
        Assert.Contains("Nothing new in it", await Upload(client, id, filled), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Workbook_NotAWorkbook_IsRefusedWithWhatToDo()
    {
        var id = await ExampleClass.Store(guild, 1);
        using var client = guild.CreateClient();
        Assert.Contains("cannot be read as an .xlsx workbook", await Upload(client, id, [1, 2, 3]), StringComparison.Ordinal);
        Assert.Contains("neither a Settle nor a Kits sheet", await Upload(client, id, Other()), StringComparison.Ordinal);
    }

    private static byte[] Other()
    {
        using var book = new XLWorkbook();
        book.AddWorksheet("Anything").Cell(1, 1).SetValue("Fabric");
        return Saved(book);
    }

    private static byte[] Fill(byte[] blank)
    {
        using var book = new XLWorkbook(new MemoryStream(blank));
        var settle = book.Worksheet("Settle");
        var row = settle.CellsUsed(cell => cell.GetString() == "Oat").First().Address.RowNumber;
        settle.Cell(row, 4).Value = 1.5;
        settle.Cell(row, 5).Value = 18;
        settle.Cell(row, 6).Value = 0.1;
        settle.Cell(row, 7).Value = 0.25;
        settle.Cell(row, 9).SetValue("10 x 8");
        book.Worksheet("Kits").Cell(4, 9).SetValue("✓");
        return Saved(book);
    }

    private static byte[] Saved(XLWorkbook book)
    {
        using var file = new MemoryStream();
        book.SaveAs(file);
        return file.ToArray();
    }

    private static async Task<string> Upload(HttpClient client, long id, byte[] file)
    {
        var address = new Uri($"/classes/{id}/settle/workbook", UriKind.Relative);
        var page = await client.GetStringAsync(address, TestContext.Current.CancellationToken);
        using var bytes = new ByteArrayContent(file) { Headers = { ContentType = new MediaTypeHeaderValue("application/octet-stream") } };
        using var token = new StringContent(Token().Match(page).Groups[1].Value);
        using var form = new MultipartFormDataContent { { token, "__RequestVerificationToken" }, { bytes, "file", "class.xlsx" } };
        using var response = await client.PostAsync(address, form, TestContext.Current.CancellationToken);
        return WebUtility.HtmlDecode(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    private static FormUrlEncodedContent Confirm(string shown)
    {
        var form = shown[shown.IndexOf("handler=Take", StringComparison.Ordinal)..];
        return new(Fields().Matches(form).Select(field => new KeyValuePair<string, string>(field.Groups[1].Value, field.Groups[2].Value)));
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"([^\"]+)\"(?: type=\"hidden\")? value=\"([^\"]*)\"")]
    private static partial Regex Fields();
}
