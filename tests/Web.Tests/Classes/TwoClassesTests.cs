using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>Two classes that share a bolt on the shelf, one with its roster from a workbook: planned in a browser, reckoned again through the API.</summary>
public sealed class TwoClassesTests(Browser browser) : IClassFixture<Browser>, IDisposable
{
    private readonly GuildHost guild = new();

    [Fact]
    public async Task TwoClasses_ThatShareABolt_AreBoughtForWithoutCountingItTwice()
    {
        var address = guild.Listen();
        var one = await SampleGuild.Fill(guild, students: 6);
        var other = await guild.Get<ClassStore>().Copy(one, "Corner Star by evening", withRoster: false);
        var linen = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Linen ground");
        await guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = linen.Id, Kind = "bolt", Width = linen.UsableWidth, Length = Length.FromInches(27) });
        var page = await browser.NewPage();

        // The first class is planned by looking at it; then the second takes its roster from a workbook.
        await page.GotoAsync($"{address}classes/{one}/cut");
        await page.GotoAsync($"{address}classes/{other}/roster");
        await page.GetByRole(Microsoft.Playwright.AriaRole.Link, new() { Name = "Take from a file" }).ClickAsync();
        await page.SetInputFilesAsync("#upload", new Microsoft.Playwright.FilePayload { Name = "evening.xlsx", MimeType = "application/octet-stream", Buffer = Workbook() });
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Look at it" }).ClickAsync();
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Add 5 students" }).ClickAsync();
        await page.GetByText("5 students added to the roster.").WaitForAsync();

        // One fabric of the evening class is handed out as squares: chosen on the page, reckoned again through the API.
        var weld = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Weld");
        await page.GotoAsync($"{address}classes/{other}/formats");
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Choose 10″ squares cut by you for Weld" }).ClickAsync();
        await page.GetByText("Weld: 10″ squares, cut by you.").WaitForAsync();
        var planning = guild.Get<ClassPlanning>();
        var (perKit, squares) = await AskFormats(address, (await planning.Plan(other))!, weld);
        var row = await page.Locator($"#fabric-{weld.Id} tr.chosen").InnerTextAsync();
        Assert.Contains($"\t{perKit}\t{squares}, ", row, StringComparison.Ordinal);
        Assert.Equal(squares, (await planning.Plan(other))!.Fabric(weld.Id).Request.Pieces.Sum(piece => piece.Count));

        await page.GotoAsync($"{address}shopping?class={one}&class={other}");
        var shown = await page.InnerTextAsync("main");
        var plans = new[] { (await planning.Plan(one))!, (await planning.Plan(other))! };
        var total = 0m;
        foreach (var fabric in plans.SelectMany(plan => plan.Fabrics).GroupBy(fabric => fabric.FabricId))
        {
            var (length, cost) = (Length.Zero, 0m);
            foreach (var part in fabric)
            {
                var answer = await Ask(address, part);
                length += Length.FromInches(answer.Length);
                cost += answer.Cost;
            }

            total += cost;
            Assert.Contains(plans[0].Habits.ShowYardage(length), shown, StringComparison.Ordinal);
            Assert.Contains(MoneyText.Write(cost, "USD"), shown, StringComparison.Ordinal);
        }

        Assert.Contains(MoneyText.Write(total, "USD"), shown, StringComparison.Ordinal);

        // The bolt is one class's alone, and the shelf says whose.
        var bolts = plans.Count(plan => plan.Fabric(linen.Id).Plan!.Sheets.Count > 0);
        Assert.Equal(1, bolts);
        await page.GotoAsync($"{address}shelf");
        Assert.Contains("planned for Corner Star cushion", await page.InnerTextAsync("main"), StringComparison.Ordinal);
    }

    // The same cloth and pieces, sent as another program would: what is bought comes back.
    private static async Task<(decimal Length, decimal Cost)> Ask(Uri address, PlannedFabric fabric)
    {
        var (stock, request) = (fabric.Request.Stock, fabric.Request);
        var body = new
        {
            stock = new
            {
                bolt = new { usableWidth = stock.Bolt!.UsableWidth.Inches, increment = stock.Bolt.Increment.Inches, minimum = stock.Bolt.Minimum.Inches, pricePerYard = stock.Bolt.PricePerYard },
                sheets = stock.Sheets.Select(sheet => new { name = sheet.Name, width = sheet.Width.Inches, length = sheet.Length.Inches, available = sheet.Available, price = sheet.Price }),
            },
            directional = request.Directional,
            layers = request.Layers,
            longestStrip = request.LongestStrip.Inches,
            pieces = request.Pieces.Select(piece => new { name = piece.Name, width = piece.Width.Inches, height = piece.Height.Inches, count = piece.Count }),
        };
        using var client = new HttpClient { BaseAddress = address };
        using var answer = await client.PostAsJsonAsync(new Uri("/api/cutting-plan", UriKind.Relative), body, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(answer.IsSuccessStatusCode, text);
        var buy = JsonNode.Parse(text)!["buy"]!;
        return (buy["length"]!.GetValue<decimal>(), buy["cost"]!.GetValue<decimal>());
    }

    // What one kit gets in 10 in squares, and the class: from the pieces alone, as another program would ask.
    private static async Task<(int PerKit, int Total)> AskFormats(Uri address, ClassPlan plan, Fabric fabric)
    {
        var way = plan.Colourways.Single(way => way.FabricOfLetter.Values.Contains(fabric.Id));
        var letters = way.FabricOfLetter.Where(pair => pair.Value == fabric.Id).Select(pair => pair.Key).ToHashSet();
        var body = new
        {
            kits = plan.Kits.Count(kit => kit.ColourwayId == way.ColourwayId),
            formats = new[] { "squares-10" },
            pieces = plan.CutList.Fabrics.Where(list => letters.Contains(list.Letter)).SelectMany(list => list.Pieces)
                .Select((piece, index) => new { name = $"{index}", width = piece.Width.Inches, height = piece.Height.Inches, count = piece.Count }),
        };
        using var client = new HttpClient { BaseAddress = address };
        using var answer = await client.PostAsJsonAsync(new Uri("/api/kit-formats", UriKind.Relative), body, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(answer.IsSuccessStatusCode, text);
        var format = JsonNode.Parse(text)!["formats"]![0]!;
        return (format["perKit"]!.GetValue<int>(), format["total"]!.GetValue<int>());
    }

    private static byte[] Workbook()
    {
        using var book = new XLWorkbook();
        var sheet = book.AddWorksheet("Evening");
        string[][] rows = [["Name", "E-mail", "Colourway"], ["Ulla Brand", "ulla@example.org", "Dusk"], ["Żaneta Nowak", "", "Harvest"], ["=Xu Wei", "", "Dusk"], ["Nadia Fell", "", "Harvest"], ["Olga Rind", "", "Dusk"]];
        foreach (var (row, number) in rows.Select((row, index) => (row, index + 1)))
        {
            foreach (var (text, column) in row.Select((text, index) => (text, index + 1)))
            {
                sheet.Cell(number, column).SetValue(text);
            }
        }

        using var file = new MemoryStream();
        book.SaveAs(file);
        return file.ToArray();
    }

    public void Dispose() => guild.Dispose();
}
