using Microsoft.Playwright;

namespace KittingBee.Web.Tests;

/// <summary>The whole job as its user does it, in a real browser: from an empty guild and a new block to a settled class.</summary>
public sealed class WholeJobTests(Browser browser) : IClassFixture<Browser>
{
    // Common practice, no source: 4 × 4 units of 3½ in finished; eight half-square triangles from 4½ in squares trimmed to
    // 4 in; eight 4 in squares, two of them with one 2 in stitch-and-flip corner; 14½ in before it is joined to anything.
    private const string Units = """
        1,1 plain C
        1,2 half-square-triangle A B
        1,3 half-square-triangle A B turn 90
        1,4 plain C
        2,1 half-square-triangle A C
        2,2 flipped-corners C - - D - corner 1 1/2
        2,3 plain C
        2,4 half-square-triangle A C turn 90
        3,1 half-square-triangle A C turn 270
        3,2 plain C
        3,3 flipped-corners C D - - - corner 1 1/2
        3,4 half-square-triangle A C turn 180
        4,1 plain C
        4,2 half-square-triangle A B turn 270
        4,3 half-square-triangle A B turn 180
        4,4 plain C
        """;

    [Fact]
    public async Task Job_FromAnEmptyGuildToASettledClass_WalksWithoutScript()
    {
        var page = await browser.NewPage(scripts: false);
        await using var guild = new GuildHost();
        await Walk(page, guild.Listen(), async () =>
        {
            await page.GetByLabel("Column widths, finished").FillAsync("3 1/2, 3 1/2, 3 1/2, 3 1/2");
            await page.GetByLabel("Fabrics", new() { Exact = true }).FillAsync("A lantern\nB dusk\nC night\nD ember");
            await page.GetByLabel("Units, one on each line").FillAsync(Units);
        });
    }

    private static async Task Walk(IPage page, Uri address, Func<Task> draw)
    {
        page.SetDefaultTimeout(20_000);
        await page.GotoAsync(address.ToString());
        await page.GetByLabel("Name of the guild").FillAsync("Heron Bridge Piecers");
        await page.GetByLabel("Language").SelectOptionAsync("en-GB"); // The spelling of the texts below; the browser is American.
        await Press(page, "Start our guild");

        await page.GotoAsync(new Uri(address, "/blocks/new").ToString());
        await page.GetByLabel("Name of the block").FillAsync("Lantern Path");
        await page.GetByLabel("Columns", new() { Exact = true }).FillAsync("4");
        await page.GetByLabel("Rows", new() { Exact = true }).FillAsync("4");
        await page.GetByLabel("Finished size of a cell").FillAsync("3 1/2");
        await Press(page, "Start drawing");
        await draw();
        await Press(page, "Save block");
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("14½″ square before it is joined to anything");
        var cut = page.Locator("table").First;
        await Assertions.Expect(cut.Locator("tbody").Nth(0)).ToContainTextAsync("4½″ square");
        Assert.Equal(["A 4 4½″", "B 2 4½″", "C 2 4½″", "C 8 4″", "D 2 2″"], await Pieces(cut));

        string[] cloths = ["Lantern cloth", "Dusk cloth", "Night cloth", "Ember cloth"];
        foreach (var cloth in cloths)
        {
            await page.GotoAsync(new Uri(address, "/shelf/fabrics/new").ToString());
            await page.GetByLabel("Name", new() { Exact = true }).FillAsync(cloth);
            await page.GetByLabel("Usable width").FillAsync("42");
            await page.GetByLabel("Price", new() { Exact = true }).FillAsync("12");
            await Press(page, "Save");
        }

        await page.GotoAsync(new Uri(address, "/classes/new").ToString());
        await page.GetByLabel("Title").FillAsync("Lantern Path cushion");
        await page.GetByLabel("Block", new() { Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = "Lantern Path" });
        await page.GetByLabel("Date").FillAsync("2031-05-17");
        await page.GetByLabel("Spare kits").FillAsync("1");
        await page.GetByLabel("Teacher’s samples").FillAsync("0");
        await Press(page, "Start the class");
        var home = new Uri(page.Url).AbsolutePath;
        Assert.Matches("^/classes/[0-9]+$", home);
        Task Stage(string name) => page.GotoAsync(new Uri(address, $"{home}/{name}").ToString());

        await Stage("fabrics");
        await page.GetByRole(AriaRole.Link, new() { Name = "New colourway" }).ClickAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Evening");
        for (var letter = 0; letter < cloths.Length; letter++)
        {
            await page.Locator($"#fabric-{(char)('A' + letter)}").SelectOptionAsync(new SelectOptionValue { Label = cloths[letter] });
        }

        await Press(page, "Save");
        await Stage("roster");
        await page.GetByLabel("One student a line").FillAsync("Ines Halloway, ines@example.org, Evening\nNoor Brandt, , Evening, left-handed\nSusi Aldane, , Evening");
        await Press(page, "Add them all");

        // Four kits: A has 16 squares of 4½ in, two to a column of a 9 in strip, eight columns of 42 in: 9 in = ¼ yd, as two strips of 4½ in would be, and one setting of the ruler less.
        await Stage("cut");
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("¼ yd");
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("16 of 4½″ square");
        await Stage("price");
        await page.GetByLabel("Class fee for a student").FillAsync("25");
        await Press(page, "Save and reckon");
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("a kit");

        await Stage("print/handouts");
        foreach (var student in (string[])["Ines Halloway", "Noor Brandt", "Susi Aldane"])
        {
            await Assertions.Expect(page.Locator("body")).ToContainTextAsync(student);
        }

        await Stage("print");
        await Press(page, "All of it is printed");

        await Stage("pack");
        await page.GetByLabel("Who is packing here?").FillAsync("Wilma");
        await Press(page, "That’s me");
        foreach (var state in (string[])["bagged", "checked", "handed over"])
        {
            for (var kit = 1; kit <= 4; kit++)
            {
                await page.Locator("nav a", new() { HasTextRegex = new($"^{state}$") }).First.ClickAsync();
                var row = page.Locator("li.bag").Nth(kit - 1);
                await row.Locator("button[name=mark]").Last.ClickAsync();
            }
        }

        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("4 of 4");

        await Stage("settle");
        foreach (var cloth in cloths)
        {
            var bought = page.Locator("section", new() { Has = page.GetByRole(AriaRole.Heading, new() { Name = "Bought" }) }).First;
            await bought.GetByLabel("Fabric").SelectOptionAsync(new SelectOptionValue { Label = cloth });
            await bought.GetByLabel("Length").FillAsync(cloth == "Night cloth" ? "3/4 yd" : "1/4 yd");
            await bought.GetByLabel("Paid").FillAsync(cloth == "Night cloth" ? "9" : "3");
            await Press(bought, "Add");
        }

        var left = page.Locator("section", new() { Has = page.GetByRole(AriaRole.Heading, new() { Name = "Left over" }) }).First;
        await left.GetByLabel("Fabric").SelectOptionAsync(new SelectOptionValue { Label = "Ember cloth" });
        await left.GetByLabel("Width").FillAsync("42");
        await left.GetByLabel("Length").FillAsync("7");
        await Press(left, "Add");
        await Press(page, "Close the class");
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("This class is closed");
        await page.GotoAsync(new Uri(address, "/shelf").ToString());
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("42″ × 7″");
    }

    private static Task Press(IPage page, string name) => page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true }).First.ClickAsync();

    private static Task Press(ILocator part, string name) => part.GetByRole(AriaRole.Button, new() { Name = name, Exact = true }).First.ClickAsync();

    /// <summary>The cut list as "letter count size", one for each line.</summary>
    private static async Task<string[]> Pieces(ILocator table)
    {
        List<string> lines = [];
        foreach (var fabric in await table.Locator("tbody").AllAsync())
        {
            var letter = (await fabric.Locator("th").InnerTextAsync()).Trim()[..1];
            foreach (var row in await fabric.Locator("tr").AllAsync())
            {
                var count = (await row.Locator("td").Nth(0).InnerTextAsync()).Trim();
                var size = (await row.Locator("td").Nth(1).InnerTextAsync()).Trim();
                lines.Add($"{letter} {count} {size.Replace(" square", "", StringComparison.Ordinal)}");
            }
        }

        return [.. lines];
    }
}
