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
        Assert.Contains("From the workbook: 4 amounts, 1 tick, 0 short lines for the re-cut ticket.", WebUtility.HtmlDecode(await taken.Content.ReadAsStringAsync(cancelled)), StringComparison.Ordinal);
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
    public async Task Workbook_WithFormulas_IsReadAsItWasSaved_AndNothingIsReckoned()
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 2);
        using var client = guild.CreateClient();
        using var book = new XLWorkbook(new MemoryStream(await client.GetByteArrayAsync(new Uri($"/classes/{id}/print/workbook", UriKind.Relative), cancelled)));
        var sheet = book.Worksheet("Settle");
        var row = sheet.CellsUsed(cell => cell.GetString() == "Oat").First().Address.RowNumber;
        sheet.Cell(row, 4).FormulaA1 = "1+1";
        sheet.Cell(row, 5).Value = 18;
        // What the spreadsheet program left in the cell is 1.5; reckoned anew it would be 2.
        var filled = Unreckoned(Saved(book), "1.5");
        var shown = await Upload(client, id, filled);
        Assert.Contains("1.5 yd bought", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("2 yd bought", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Workbook_LinesCalledShort_AreShownWithACountAndGoOnTheRecutTicketOnce()
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 2);
        using var client = guild.CreateClient();
        var blank = await client.GetByteArrayAsync(new Uri($"/classes/{id}/print/workbook", UriKind.Relative), cancelled);
        using var book = new XLWorkbook(new MemoryStream(blank));
        book.Worksheet("Kits").Cell(4, 9).SetValue("short");
        book.Worksheet("Kits").Cell(6, 9).SetValue("Short 1");
        book.Worksheet("Kits").Cell(7, 9).SetValue("later");
        var filled = Saved(book);

        var shown = await Upload(client, id, filled);
        Assert.Contains("so many of 1", shown, StringComparison.Ordinal);
        Assert.Contains("is marked “later”, which is neither ✓ nor short.", shown, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ShortageStore>().ForClass(id));

        // A count that cannot be is said, and the preview stays; then it is taken in, and twice is once.
        var take = new Uri($"/classes/{id}/settle/workbook?handler=Take", UriKind.Relative);
        var fields = await Confirm(shown).ReadAsStringAsync(cancelled);
        using var wrong = await client.PostAsync(take, Form(fields.Replace("Count=1", "Count=9", StringComparison.Ordinal)), cancelled);
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
        var again = WebUtility.HtmlDecode(await wrong.Content.ReadAsStringAsync(cancelled));
        Assert.Contains("“9”: type a whole number from 1 to 1.", again, StringComparison.Ordinal);
        Assert.Contains("name=\"Shorts[0].Count\" value=\"9\"", again, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ShortageStore>().ForClass(id));

        await client.PostAsync(take, Form(fields), cancelled);
        await client.PostAsync(take, Form(fields), cancelled);
        Assert.Equal([("A", 1, "missing"), ("B", 1, "missing")], guild.Get<ShortageStore>().ForClass(id).Select(report => (report.Letter, report.Count, report.Reason)).Order());
        Assert.DoesNotContain("Short:", await Upload(client, id, filled), StringComparison.Ordinal);
    }

    // Made while the guild spoke German, filled in by German words, read back after it went over to English, and the other way round.
    [Theory]
    [InlineData("de", "en-GB", "fehlend")]
    [InlineData("de", "de", "fehlend 1")]
    [InlineData("en-GB", "de", "short")]
    public async Task Workbook_IsReadBackInWhateverLanguageItWasMade(string made, string read, string shortWord)
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 2);
        using var client = guild.CreateClient();
        await Speak(made);
        using var book = new XLWorkbook(new MemoryStream(await client.GetByteArrayAsync(new Uri($"/classes/{id}/print/workbook", UriKind.Relative), cancelled)));
        var (settle, kits) = made == "de" ? (book.Worksheet("Abrechnen"), book.Worksheet("Stoffpakete")) : (book.Worksheet("Settle"), book.Worksheet("Kits"));
        var row = settle.CellsUsed(cell => cell.GetString() == "Oat").First().Address.RowNumber;
        settle.Cell(row, 4).Value = 1.5;
        settle.Cell(row, 5).Value = 18;
        settle.Cell(row, 6).Value = 0.1;
        settle.Cell(row, 7).Value = 0.25;
        settle.Cell(row, 9).SetValue("10 x 8");
        kits.Cell(4, 9).SetValue("✓");
        kits.Cell(6, 9).SetValue(shortWord);

        await Speak(read);
        var shown = await Upload(client, id, Saved(book));
        using var taken = await client.PostAsync(new Uri($"/classes/{id}/settle/workbook?handler=Take", UriKind.Relative), Confirm(shown), cancelled);
        await Speak("en-GB");
        Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
        var bought = Assert.Single(guild.Get<SettlingStore>().Purchases(id));
        Assert.Equal((Length.FromInches(54), 18m), (bought.Length, bought.Paid));
        Assert.Equal(Length.FromInches(3, 6, 10), Assert.Single(guild.Get<SettlingStore>().Given(id)).Length);
        Assert.Equal(
            [(Length.FromInches(42), Length.FromInches(9)), (Length.FromInches(10), Length.FromInches(8))],
            guild.Get<SettlingStore>().Leftovers(id).Select(left => (left.Width, left.Length)));
        Assert.Equal(KitState.Bagged, Assert.Single(guild.Get<MarkDesk>().Table(id).Snapshot().Standing).Value.State);
        Assert.Single(guild.Get<ShortageStore>().ForClass(id));
    }

    [Fact]
    public async Task Workbook_TakenInWithAFault_ComesBackAsItWasSent()
    {
        var cancelled = TestContext.Current.CancellationToken;
        var id = await ExampleClass.Store(guild, 2);
        using var client = guild.CreateClient();
        var shown = await Upload(client, id, Fill(await client.GetByteArrayAsync(new Uri($"/classes/{id}/print/workbook", UriKind.Relative), cancelled)));
        Assert.Contains("ToShelf\" value=\"true\" checked", shown, StringComparison.Ordinal);

        // What is left stays off the shelf, and the price is mistyped.
        var sent = Off().Replace(await Confirm(shown).ReadAsStringAsync(cancelled), "").Replace("Paid=18", "Paid=eighteen", StringComparison.Ordinal);
        using var refused = await client.PostAsync(new Uri($"/classes/{id}/settle/workbook?handler=Take", UriKind.Relative), Form(sent), cancelled);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        var again = WebUtility.HtmlDecode(await refused.Content.ReadAsStringAsync(cancelled));
        Assert.Contains("10 × 8 left", again, StringComparison.Ordinal);
        Assert.Contains("kit 1, Kit to claim: A", again, StringComparison.Ordinal);
        Assert.Contains("ToShelf\" value=\"true\"", again, StringComparison.Ordinal);
        Assert.DoesNotContain("checked", again, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Workbook_NotAWorkbook_IsRefusedWithWhatToDo()
    {
        var id = await ExampleClass.Store(guild, 1);
        using var client = guild.CreateClient();
        Assert.Contains("cannot be read as an .xlsx workbook", await Upload(client, id, [1, 2, 3]), StringComparison.Ordinal);
        Assert.Contains("neither a Settle nor a Kits sheet", await Upload(client, id, Other()), StringComparison.Ordinal);
    }

    private async Task Speak(string language) =>
        Assert.Equal(KittingBee.Web.Storage.Saved.Done, await guild.Get<GuildStore>().Save(guild.Get<GuildStore>().Read() with { Language = language }));

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

    private static StringContent Form(string fields) => new(fields, new MediaTypeHeaderValue("application/x-www-form-urlencoded"));

    private static FormUrlEncodedContent Confirm(string shown)
    {
        var form = shown[shown.IndexOf("handler=Take", StringComparison.Ordinal)..];
        return new(Fields().Matches(form).Select(field => new KeyValuePair<string, string>(field.Groups[1].Value, field.Groups[2].Value)));
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"([^\"]+)\"(?: type=\"[a-z]+\")? value=\"([^\"]*)\"")]
    private static partial Regex Fields();

    [GeneratedRegex("&[^&=]*ToShelf=true")]
    private static partial Regex Off();

    private static byte[] Unreckoned(byte[] workbook, string value)
    {
        using var file = new MemoryStream();
        file.Write(workbook);
        using (var zip = new System.IO.Compression.ZipArchive(file, System.IO.Compression.ZipArchiveMode.Update, leaveOpen: true))
        {
            foreach (var name in zip.Entries.Select(entry => entry.FullName).Where(name => name.StartsWith("xl/worksheets/sheet", StringComparison.Ordinal)).ToList())
            {
                using var reader = new StreamReader(zip.GetEntry(name)!.Open());
                var text = reader.ReadToEnd();
                reader.Dispose();
                if (OnePlusOne().IsMatch(text))
                {
                    zip.GetEntry(name)!.Delete();
                    using var writer = new StreamWriter(zip.CreateEntry(name).Open());
                    writer.Write(OnePlusOne().Replace(text, $"<$1f>1+1</$1f><$1v>{value}</$1v></$1c>"));
                }
            }
        }

        return file.ToArray();
    }

    [GeneratedRegex("<(x:)?f[^>]*>1\\+1</(?:x:)?f>(?:<(?:x:)?v\\s*/>|<(?:x:)?v>[^<]*</(?:x:)?v>)?</(?:x:)?c>")]
    private static partial Regex OnePlusOne();
}
