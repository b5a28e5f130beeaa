using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
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
        var planning = guild.Get<ClassPlanning>();

        // The first class is planned by looking at it; then the second takes its roster from a workbook.
        await page.GotoAsync($"{address}classes/{one}/cut");
        await page.GotoAsync($"{address}classes/{other}/roster");
        await page.GetByRole(Microsoft.Playwright.AriaRole.Link, new() { Name = "Take from a file" }).ClickAsync();
        await page.SetInputFilesAsync("#upload", new Microsoft.Playwright.FilePayload { Name = "evening.xlsx", MimeType = "application/octet-stream", Buffer = Workbook() });
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Look at it" }).ClickAsync();
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Add 5 students" }).ClickAsync();
        await page.GetByText("5 students added to the roster.").WaitForAsync();

        // One fabric of the evening class is handed out as squares.
        var weld = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Weld");
        await page.GotoAsync($"{address}classes/{other}/formats?fabric={weld.Id}");
        await page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "10″ squares, cut by you, Weld" }).ClickAsync();
        await page.GetByText("Weld: 10″ squares, cut by you.").WaitForAsync();
        Assert.Equal("squares-10", (await planning.Plan(other))!.Fabric(weld.Id).Format);

        var asked = new[] { await AssertEveryPage(page, address, one), await AssertEveryPage(page, address, other) };

        // Both on one list: each class keeps its own whole increments.
        var list = await PageNumbers.Read(page, new Uri(address, $"shopping?class={one}&class={other}"));
        ExpectedNumbers.Season(list, asked);
        list.AssertNoneIsLeft();

        // The bolt is one class's alone, and the shelf says whose.
        var plans = new[] { (await planning.Plan(one))!, (await planning.Plan(other))! };
        var bolts = plans.Count(plan => plan.Fabric(linen.Id).Plan!.Sheets.Count > 0);
        Assert.Equal(1, bolts);
        await page.GotoAsync($"{address}shelf");
        Assert.Contains("planned for Corner Star cushion", await page.InnerTextAsync("main"), StringComparison.Ordinal);
    }

    // The pages of a class, each with what it should say; what a page says beside that has no number in it.
    private async Task<ClassByApi> AssertEveryPage(Microsoft.Playwright.IPage page, Uri address, long classId)
    {
        using var client = new HttpClient { BaseAddress = address };
        var planning = guild.Get<ClassPlanning>();
        var plan = (await planning.Plan(classId))!;
        var asked = await ClassByApi.Ask(client, plan, SampleGuild.StarJson);
        var record = guild.Get<ClassStore>().Find(classId)!;
        var expected = new ExpectedNumbers(asked, record);
        var formats = new ExpectedFormats(asked, record, FormatTable.Of(planning, planning.Materials(classId)!, plan));
        (string Page, string? WaitFor, Func<PageNumbers, Task> Take)[] pages =
        [
            ("", "runs out first", expected.Overview),
            ("/roster", null, shown => { expected.Roster(shown); return Task.CompletedTask; }),
            ("/fabrics", "runs out first", expected.Fabrics),
            ("/cut", "runs out first", expected.Cut),
            ("/room", null, expected.Room),
            ("/formats", null, formats.Page),
            ("/shopping", null, shown => { expected.Shopping(shown); return Task.CompletedTask; }),
            ("/price", null, shown => { expected.Price(shown); return Task.CompletedTask; }),
            ("/price?curve=true", null, async shown => { expected.Price(shown); await expected.Curve(shown); }),
            ("/supply", null, expected.Supply),
            ("/print", null, shown => { expected.Print(shown); return Task.CompletedTask; }),
            ("/pack", null, expected.Pack),
        ];
        foreach (var (name, waitFor, take) in pages)
        {
            var shown = await PageNumbers.Read(page, new Uri(address, $"classes/{classId}{name}"), waitFor);
            expected.Stages(shown);
            await take(shown);
            shown.AssertNoneIsLeft();
        }

        return asked;
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
