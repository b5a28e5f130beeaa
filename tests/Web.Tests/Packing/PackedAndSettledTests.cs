using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Packing;

/// <summary>A whole packing night and the morning after, in real browsers: two phones and a laptop.</summary>
public sealed class PackedAndSettledTests(Browser browser, ITestOutputHelper output) : IClassFixture<Browser>
{
    private const string Live = "Everyone’s ticks show here as they are made.";

    private static readonly LocatorAssertionsToHaveTextOptions Text = new() { Timeout = 20_000 };

    [Fact]
    public async Task Class_PackedByThreeOneOfflineAndBack_IsSettledFromItsWorkbookAndClosed()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 3);
        var kits = guild.Get<KitStore>().ForClass(id);
        var (laptop, phone, other) = (await browser.NewPage(), await browser.NewPage(390, 844, touch: true), await browser.NewPage(360, 740, touch: true));
        await Open(laptop, $"{address}classes/{id}/pack");
        await Open(phone, $"{address}bag/{kits[0].Code}");
        await Open(other, $"{address}bag/{kits[1].Code}");

        // One phone fills its bag. The other loses its line, fills its own but for a spoiled piece, and says so.
        await phone.Locator("button[data-all]").TapAsync();
        await other.Context.SetOfflineAsync(true);
        await Assertions.Expect(other.Locator("[data-live]")).ToContainTextAsync("Not connected", new() { Timeout = 20_000 });
        foreach (var line in new[] { 0, 1, 3 })
        {
            await other.Locator(".lines .tick").Nth(line).TapAsync();
        }

        await other.Locator("#shortages summary").TapAsync();
        await other.SelectOptionAsync("#Form_Line", new SelectOptionValue { Index = 3 });
        await other.SelectOptionAsync("#Form_Reason", "spoiled");
        await other.Locator("#short button").TapAsync();
        await Assertions.Expect(other.Locator("[data-live]")).ToContainTextAsync("3 marks and 1 report wait on this device");
        await laptop.Locator("button[data-deal]").First.ClickAsync();
        await other.Context.SetOfflineAsync(false);
        await Assertions.Expect(other.Locator("[data-live]")).ToHaveTextAsync(Live, Text);
        await Assertions.Expect(laptop.Locator($"#kit-{kits[1].Id} .short")).ToHaveTextAsync("short", Text);
        await Assertions.Expect(laptop.Locator($"#kit-{kits[0].Id} [data-stage]")).ToHaveTextAsync("bagged", Text);

        // The piece is cut again and goes into its bag; two kits are checked and handed over on the laptop.
        await laptop.GotoAsync($"{address}classes/{id}/recut");
        await laptop.Locator("button", new() { HasText = "Cut again, in the bag" }).ClickAsync();
        await Assertions.Expect(laptop.Locator(".good").First).ToHaveTextAsync("No bag lacks anything.");
        await other.Locator(".lines .tick").Nth(2).TapAsync();
        await Assertions.Expect(other.Locator("[data-stage]")).ToHaveTextAsync("bagged");
        foreach (var what in new[] { "check", "hand" })
        {
            await Open(laptop, $"{address}classes/{id}/pack?do={what}");
            await laptop.Locator($"#kit-{kits[0].Id} .tick").ClickAsync();
            await laptop.Locator($"#kit-{kits[1].Id} .tick").ClickAsync();
            await Assertions.Expect(laptop.Locator($"#kit-{kits[1].Id} .tick")).Not.ToHaveClassAsync(new System.Text.RegularExpressions.Regex("pending"));
        }

        await Assertions.Expect(phone.Locator("[data-stage]")).ToHaveTextAsync("handed over", Text);

        // The morning after: the workbook is filled in at the table and comes back.
        await laptop.GotoAsync($"{address}classes/{id}/settle/workbook");
        var download = await laptop.RunAndWaitForDownloadAsync(() => laptop.Locator("main a[download]").ClickAsync());
        var file = Fill(await download.PathAsync(), kits[2]);
        await laptop.SetInputFilesAsync("#file", new FilePayload { Name = "class.xlsx", MimeType = "application/octet-stream", Buffer = file });
        await laptop.Locator("button", new() { HasText = "Read it" }).ClickAsync();
        await Assertions.Expect(laptop.Locator("main")).ToContainTextAsync("1.5 yd bought for 18");
        Assert.Empty(guild.Get<SettlingStore>().Purchases(id));
        await laptop.Locator("button", new() { HasText = "Take it in" }).ClickAsync();
        await laptop.WaitForURLAsync($"**/classes/{id}/settle");
        Assert.Equal(BagStage.Bagged, await StageOfThird(guild, id));

        var row = laptop.Locator(".accounts tbody tr", new() { HasText = "Oat" });
        await Assertions.Expect(row.Locator("[data-label=Bought]")).ToContainTextAsync("$18.00");

        // A quarter yard and a remnant of 21 × 8 in, which has the area of 4 in of the whole 42 in: 13 in.
        await Assertions.Expect(row.Locator("[data-label=Left]")).ToContainTextAsync("13″");
        await laptop.Locator("button", new() { HasText = "Close the class" }).ClickAsync();
        await Assertions.Expect(laptop.Locator("main .good").First).ToContainTextAsync("This class is closed");
        var closed = guild.Get<ClassStore>().Find(id)!;
        var settled = StoredJson.Read<ClassSettlement>(closed.FrozenJson!);
        Assert.Equal((2, 1, 1L), (settled.KitsHandedOver, settled.NotHandedOver.Count, settled.Spoilage.Spoiled));
        Assert.All(settled.Fabrics, fabric => Assert.Equal(fabric.Bought + fabric.FromShelf, fabric.Planned + fabric.Recut + fabric.GivenOut + fabric.Account.Left + fabric.Account.Difference));

        // A phone that was left open is told so, not left believing.
        await phone.Locator(".lines .tick").First.TapAsync();
        await Assertions.Expect(phone.Locator(".saying")).ToContainTextAsync("The class is closed", new() { Timeout = 20_000 });
        await Assertions.Expect(phone.Locator(".lines .tick").First).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Fact]
    public async Task Marks_OfOnePhone_ReachTheLaptopInOrderWithoutItsAsking()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 3);
        var kit = guild.Get<KitStore>().ForClass(id)[0];
        var (laptop, phone, other) = (await browser.NewPage(), await browser.NewPage(390, 844), await browser.NewPage(390, 844));
        await Open(laptop, $"{address}classes/{id}/pack");
        await Open(other, $"{address}bag/{kit.Code}");
        await Open(phone, $"{address}bag/{kit.Code}");
        await laptop.EvaluateAsync("""
            () => {
              globalThis.seen = [];
              new MutationObserver(changes => changes.forEach(change => globalThis.seen.push([change.target.dataset.line, Date.now()])))
                .observe(document.getElementById("table"), { subtree: true, attributeFilter: ["aria-pressed"] });
            }
            """);
        var asked = 0;
        laptop.Request += (_, _) => asked++;

        const int Rounds = 6;
        var made = new List<(string Line, double At)>();
        for (var mark = 0; mark < 4 * Rounds; mark++)
        {
            var tick = phone.Locator(".lines .tick").Nth(mark % 4);
            made.Add(((await tick.GetAttributeAsync("data-line"))!, await tick.EvaluateAsync<double>("tick => { const now = Date.now(); tick.click(); return now; }")));
            await laptop.WaitForFunctionAsync("count => globalThis.seen.length >= count", mark + 1);
        }

        var lines = await laptop.EvaluateAsync<string[]>("() => globalThis.seen.map(one => one[0])");
        var times = await laptop.EvaluateAsync<double[]>("() => globalThis.seen.map(one => one[1])");
        var waits = made.Zip(times, (mark, shown) => shown - mark.At).Order().ToList();
        output.WriteLine($"From a tap on a phone to its tick on the laptop, {waits.Count} marks, three browsers: median {waits[waits.Count / 2]:0} ms, longest {waits[^1]:0} ms");

        // Each change came once and in order, pushed to the page: it asked for nothing.
        Assert.Equal(made.Select(mark => mark.Line), lines);
        Assert.Equal(0, asked);
    }

    private static async Task Open(IPage page, string address)
    {
        await page.GotoAsync(address);
        await Assertions.Expect(page.Locator("[data-live]")).ToHaveTextAsync(Live, Text);
    }

    private static async Task<BagStage> StageOfThird(GuildHost guild, long id)
    {
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        return Bags.Of(plan, guild.Get<MarkDesk>().Table(id), []).All[2].Stage;
    }

    /// <summary>What people write into it: cloth bought and left, and the ticks of one kit that was packed from paper.</summary>
    private static byte[] Fill(string path, Kit kit)
    {
        using var book = new XLWorkbook(new MemoryStream(File.ReadAllBytes(path)));
        var settle = book.Worksheet("Settle");
        var oat = settle.CellsUsed(cell => cell.GetString() == "Oat").First().Address.RowNumber;
        settle.Cell(oat, 4).Value = 1.5;
        settle.Cell(oat, 5).Value = 18;
        settle.Cell(oat, 7).Value = 0.25;
        settle.Cell(oat, 9).SetValue("21 x 8");
        var kits = book.Worksheet("Kits");
        foreach (var cell in kits.Column(1).CellsUsed(cell => cell.DataType == XLDataType.Number && cell.GetValue<int>() == kit.Number).ToList())
        {
            kits.Cell(cell.Address.RowNumber, 9).SetValue("✓");
        }

        using var file = new MemoryStream();
        book.SaveAs(file);
        return file.ToArray();
    }
}
