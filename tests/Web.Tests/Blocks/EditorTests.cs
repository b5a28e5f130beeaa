using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Blocks;

/// <summary>Blocks entered in a real browser.</summary>
public sealed class EditorTests(Browser browser, GuildHost guild) : IClassFixture<Browser>, IClassFixture<GuildHost>
{
    // A 9 in Shoofly. Triangle squares are cut 1 in larger than finished and make two each; patches ½ in larger (common practice, no source).
    private static readonly string[] Shoofly = ["A 2 4″ square", "A 4 3½″ square", "B 2 4″ square", "B 1 3½″ square"];

    // A 10 in star of 25 cells: 8 half-square triangles, 12 + 5 patches (counted by hand; sizes as above).
    private static readonly string[] Star = ["A 4 3″ square", "A 12 2½″ square", "B 4 3″ square", "C 5 2½″ square"];

    private Uri Address => guild.Listen();

    [Fact]
    public async Task NineUnits_ByKeyboardAlone_GiveTheCutList()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Shoofly by keys", "3", "3", "3");
        await editor.Press("2 ArrowRight 1 ArrowRight 2 Space");
        Assert.Equal("Row 1, column 3: half-square triangle upper right A, lower left B", await editor.Focused());
        await editor.Press("ArrowDown 1 ArrowLeft 1 b ArrowLeft 1 ArrowDown 2 Shift+Space ArrowRight 1 ArrowRight 2 Space Space");
        Assert.Equal("Row 3, column 3: half-square triangle lower right A, upper left B", await editor.Focused());
        await editor.WaitUntilItAddsUp("9½″ × 9½″");
        await editor.TabTo("button[type=submit]", back: true);
        await editor.Press("Enter");
        Assert.Equal(Shoofly, await editor.SavedCutList());
    }

    [Fact]
    public async Task TwentyFiveUnits_ByKeyboardAlone_GiveTheCutList()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Star by keys", "5", "5", "2");
        await editor.TabTo("#Form_Fabrics");
        await editor.Press("Control+End Enter");
        await editor.Page.Keyboard.TypeAsync("C centre");
        await editor.TabTo("[role=gridcell]", back: true);
        foreach (var row in new[]
        {
            "1 ArrowRight 2 ArrowRight 1 ArrowRight 2 Space ArrowRight 1",
            "2 ArrowRight 1 c ArrowRight 1 ArrowRight 1 c ArrowRight 2 Space",
            "1 ArrowRight 1 ArrowRight 1 c ArrowRight 1 ArrowRight 1",
            "2 Shift+Space ArrowRight 1 c ArrowRight 1 ArrowRight 1 c ArrowRight 2 Space Space",
            "1 ArrowRight 2 Shift+Space ArrowRight 1 ArrowRight 2 Space Space ArrowRight 1",
        })
        {
            await editor.Press(row + " ArrowDown Home");
        }

        await editor.WaitUntilItAddsUp("10½″ × 10½″");
        await editor.TabTo("button[type=submit]", back: true);
        await editor.Press("Enter");
        Assert.Equal(Star, await editor.SavedCutList());
    }

    // After a tap the pointer stays over the button: it must still show that it is pressed.
    [Fact]
    public async Task KindButton_PressedAndPointedAt_LooksPressed()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByTouch(Address, "Pointed at", "2", "2", "3", tap: false);
        await editor.Kind("plain").ClickAsync();
        await Assertions.Expect(editor.Kind("plain")).ToHaveAttributeAsync("aria-pressed", "true");
        var filled = await editor.Page.Locator(".head-buttons button").EvaluateAsync<string>("button => getComputedStyle(button).backgroundColor");
        await Assertions.Expect(editor.Kind("plain")).ToHaveCSSAsync("background-color", filled);
    }

    [Fact]
    public async Task NineUnits_ByTouch_GiveTheCutList()
    {
        var editor = new EditorPage(await browser.NewPage(390, 844, touch: true));
        await editor.BeginByTouch(Address, "Shoofly by touch", "3", "3", "3");
        foreach (var (row, column, turns) in new[] { (1, 1, 0), (1, 3, 1), (3, 3, 2), (3, 1, 3) })
        {
            await editor.Cell(row, column).TapAsync();
            await editor.Kind("half-square-triangle").TapAsync();
            for (var turn = 0; turn < turns; turn++)
            {
                await editor.Cell(row, column).TapAsync();
            }
        }

        await editor.Cell(2, 2).TapAsync();
        await editor.Kind("plain").TapAsync();
        await editor.Page.Locator("[data-do=fill]").TapAsync();
        await editor.Page.Locator("[data-name=dye-B]").TapAsync();
        await editor.WaitUntilItAddsUp("9½″ × 9½″");
        await editor.Page.Locator("button[type=submit]").First.TapAsync();
        Assert.Equal(Shoofly, await editor.SavedCutList());
    }

    [Fact]
    public async Task TwentyFiveUnits_ByTouch_GiveTheCutList()
    {
        var editor = new EditorPage(await browser.NewPage(390, 844, touch: true));
        await editor.BeginByTouch(Address, "Star by touch", "5", "5", "2");
        await editor.Page.Locator("#Form_Fabrics").FillAsync("A background\nB points\nC centre");
        await editor.Kind("plain").TapAsync();
        await editor.Page.Locator("[data-do=fill]").TapAsync();
        await editor.Cell(3, 3).TapAsync();
        await editor.Page.Locator("[data-name=dye-C]").TapAsync();
        await editor.Page.Locator("[data-do=stamp]").TapAsync();
        foreach (var (row, column) in new[] { (2, 2), (2, 4), (4, 2), (4, 4) })
        {
            await editor.Cell(row, column).TapAsync();
        }

        await editor.Page.Locator("[data-do=stamp]").TapAsync();
        foreach (var (row, column, turns) in new[] { (1, 2, 0), (2, 1, 0), (1, 4, 1), (2, 5, 1), (4, 5, 2), (5, 4, 2), (5, 2, 3), (4, 1, 3) })
        {
            await editor.Cell(row, column).TapAsync();
            await editor.Kind("half-square-triangle").TapAsync();
            for (var turn = 0; turn < turns; turn++)
            {
                await editor.Cell(row, column).TapAsync();
            }
        }

        await editor.WaitUntilItAddsUp("10½″ × 10½″");
        await editor.Page.Locator("button[type=submit]").First.TapAsync();
        Assert.Equal(Star, await editor.SavedCutList());
    }

    [Fact]
    public async Task ATabClosedAtOnce_KeepsTheDraft()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Left open", "2", "2", "3");
        await editor.Press("2 Space ArrowRight 1");
        await editor.Page.CloseAsync(new() { RunBeforeUnload = true });

        var later = new EditorPage(await browser.NewPage());
        await Assertions.Expect(later.Page.Locator("body")).ToBeVisibleAsync();
        for (var tries = 0; tries < 20; tries++)
        {
            await later.Page.GotoAsync(new Uri(Address, "/blocks").ToString());
            await later.Page.GetByRole(AriaRole.Link, new() { Name = "Left open" }).ClickAsync();
            if (await later.Cell(1, 2).GetAttributeAsync("aria-label") == "Row 1, column 2: plain patch A")
            {
                break;
            }

            await Task.Delay(100, TestContext.Current.CancellationToken); // The last send outlives its page, but not by much.
        }

        Assert.Equal("Row 1, column 1: half-square triangle upper right A, lower left B", await later.Cell(1, 1).GetAttributeAsync("aria-label"));
        Assert.Equal("Row 1, column 2: plain patch A", await later.Cell(1, 2).GetAttributeAsync("aria-label"));
    }

    [Fact]
    public async Task UndoAndRedo_GoBackAndForth_AndKeepTheFocus()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Back and forth", "2", "2", "3");
        await editor.Press("2 Space Shift+ArrowRight");
        Assert.Equal("Row 1, column 1: half-square triangle upper right A, lower left B, 2 wide and 1 high", await editor.Focused());
        await editor.Press("Control+z");
        Assert.Equal("Row 1, column 1: half-square triangle upper right A, lower left B", await editor.Focused());
        await editor.Press("Control+z Control+z");
        Assert.Equal("Row 1, column 1: gap", await editor.Focused());
        await editor.Press("Control+y Control+Shift+z");
        Assert.Equal("Row 1, column 1: half-square triangle upper right A, lower left B", await editor.Focused());
    }

    [Fact]
    public async Task UndoAndRedo_OutliveAReload()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Loaded again", "2", "2", "3");
        await editor.Press("2 Space 1 Control+z");
        await editor.WaitUntilKept();
        await editor.Page.ReloadAsync();
        await editor.TabTo("[role=gridcell]");
        Assert.Equal("Row 1, column 1: half-square triangle upper right A, lower left B", await editor.Focused());
        await editor.Press("Control+y");
        Assert.StartsWith("Row 1, column 1: plain patch", await editor.Focused(), StringComparison.Ordinal);
        await editor.Press("Control+z Control+z Control+z");
        Assert.Equal("Row 1, column 1: gap", await editor.Focused());
        await editor.WaitUntilKept();

        // Another drawing in the same tab begins without a past.
        await editor.BeginByKeyboard(Address, "Another", "2", "2", "3");
        await Assertions.Expect(editor.Page.Locator("[data-do=undo]")).ToHaveAttributeAsync("aria-disabled", "true");
    }

    [Fact]
    public async Task TheLastChange_WhoseSendIsLostOrLate_IsStillThereAfterAReload()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Lost on the way", "2", "2", "3");
        await editor.Press("1");
        await editor.WaitUntilKept();
        await editor.Page.RouteAsync("**/sketch", route => route.AbortAsync());
        await editor.Press("2");
        await Assertions.Expect(editor.Kept).ToContainTextAsync("does not answer");
        await editor.Page.ReloadAsync();
        await editor.TabTo("[role=gridcell]");
        Assert.StartsWith("Row 1, column 1: half-square triangle", await editor.Focused(), StringComparison.Ordinal);
        await editor.Page.UnrouteAsync("**/sketch");
        await editor.WaitUntilKept();
    }

    [Fact]
    public async Task TwoEditors_TheSecondIsTold_AndLosesNothing()
    {
        var first = new EditorPage(await browser.NewPage());
        await first.BeginByKeyboard(Address, "Drawn by two", "2", "2", "3");
        var second = new EditorPage(await browser.NewPage());
        await second.Page.GotoAsync(first.Page.Url);
        await first.Press("1");
        await first.WaitUntilKept();
        await second.TabTo("[role=gridcell]");
        await second.Press("2");
        var told = second.Page.Locator("#conflict");
        await Assertions.Expect(told).ToBeVisibleAsync();
        await Assertions.Expect(told).ToContainTextAsync("Somebody else is drawing this block too.");
        Assert.StartsWith("Row 1, column 1: half-square triangle", await second.Cell(1, 1).GetAttributeAsync("aria-label"), StringComparison.Ordinal);
        await second.Page.Locator("#keep-mine").ClickAsync();
        await second.WaitUntilKept();
        await first.Page.EvaluateAsync("dispatchEvent(new Event('focus'))"); // Back at this window.
        await Assertions.Expect(first.Page.Locator("#conflict")).ToBeVisibleAsync();
        await first.Page.Locator("#take-theirs").ClickAsync();
        await Assertions.Expect(first.Cell(1, 1)).ToHaveAttributeAsync("aria-label", "Row 1, column 1: half-square triangle upper left A, lower right B");
    }

    [Fact]
    public async Task TheLargestGrid_ByKeyboard_SpansAndNestsAndLeavesCornersAlone()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Twelve by twelve", "12", "12", "1");
        await editor.Press("6 . . - -");
        Assert.Equal("Row 1, column 1: flipped corners base A, upper left B, upper right left alone, lower right left alone, lower left B", await editor.Focused());
        await editor.Press("ArrowDown 3 Shift+ArrowRight");
        Assert.Equal("Row 2, column 1: flying geese goose B, left sky A, right sky A, 2 wide and 1 high", await editor.Focused());
        await editor.Press("Shift+ArrowLeft Space Shift+ArrowDown");
        Assert.Equal("Row 2, column 1: flying geese goose B, top sky A, bottom sky A, 1 wide and 2 high", await editor.Focused());
        await editor.Press("ArrowRight 1 b Shift+ArrowRight ArrowRight Enter ArrowRight Delete");
        await editor.Press("ArrowUp End");
        Assert.Equal("Row 1, column 12: gap", await editor.Focused());
        await editor.Press("1 Control+z ArrowDown 1");
        await editor.Page.Locator("[data-do=fill]").ClickAsync();
        await editor.Page.Locator("[data-kind=plain]").FocusAsync();
        await Assertions.Expect(editor.Page.Locator("#live-problems li")).ToHaveTextAsync([new System.Text.RegularExpressions.Regex("Unit 1 .*has corners of 1″")]);
        await editor.Page.Locator("[data-do=undo]").ClickAsync();
        await editor.Cell(1, 1).ClickAsync();
        await editor.Page.Locator("[data-name=corner]").FillAsync("1/2");
        await editor.Page.Locator("[data-name=corner]").PressAsync("Tab");
        await editor.Page.Locator("[data-do=fill]").ClickAsync();
        await editor.WaitUntilItAddsUp("12½″ × 12½″");
    }

    // A 4 in square of which one half is a 2 in half-square triangle and two triangles: triangles with legs of 2 in from 2⅞ in squares,
    // the plain half from a 4⅞ in square (published formula: finished + ⅞ in). The half-square triangle is cut 3 in and trimmed.
    [Fact]
    public async Task APiecedTriangle_ByKeyboardAlone_GivesTheCutList()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "Corner half", "2", "2", "2");
        await editor.Press("2 Space Space ArrowRight 1 ArrowDown 1 ArrowLeft 1");
        await editor.WaitUntilItAddsUp("4½″ × 4½″");
        await editor.TabTo("button[type=submit]", back: true);
        await editor.Press("Enter");
        await editor.SavedCutList();

        await editor.BeginByKeyboard(Address, "Pieced by keys", "1", "1", "4");
        await editor.Press("= b");
        Assert.Equal("Row 1, column 1: pieced triangle lower right half B, pieced half of none chosen", await editor.Focused());
        await editor.TabTo("#unit-inner");
        await editor.Page.Keyboard.TypeAsync("Corner half");
        await editor.WaitUntilItAddsUp("4½″ × 4½″");
        await editor.TabTo("button[type=submit]");
        await editor.Press("Enter");
        Assert.Equal(["A 1 3″ square", "A 1 2⅞″ square", "B 1 4⅞″ square", "B 1 3″ square"], await editor.SavedCutList());
    }

    [Fact]
    public async Task AGap_IsSaidAtOnce_AndStandsInTheWayOfSaving()
    {
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(Address, "With a gap", "3", "2", "3");
        await editor.Press("1 ArrowRight 1 ArrowRight 1 ArrowDown Home 1 ArrowRight 1");
        await Assertions.Expect(editor.Page.Locator("#live-problems li")).ToHaveTextAsync(["Row 2 has a gap at column 3. Put a unit there or let a neighbour span it."]);
        await Assertions.Expect(editor.Page.Locator("#announce-check")).ToContainTextAsync("Row 2 has a gap at column 3.");
        await editor.Page.Locator("button[type=submit]").First.ClickAsync();
        await Assertions.Expect(editor.Page.GetByText("The draft is kept, but it is not yet a block that can be cut.")).ToBeVisibleAsync();
        await Assertions.Expect(editor.Cell(1, 1)).ToHaveAttributeAsync("aria-label", "Row 1, column 1: plain patch A");
    }

    [Fact]
    public async Task WithoutScripts_LinesOfText_GiveTheSameBlock()
    {
        var page = await browser.NewPage(scripts: false);
        await page.GotoAsync(new Uri(Address, "/blocks/new").ToString());
        await page.FillAsync("#Form_Name", "Shoofly by lines");
        await page.ClickAsync("text=Start drawing");
        await page.FillAsync("#Form_Units", "1,1 hst A B\n1,2 plain A\n1,3 hst A B turn 90\n2,1 plain A\n2,2 plain B\n2,3 plain A\n3,1 hst A B turn 270\n3,2 plain A\n3,3 hst A B turn 18");
        await page.ClickAsync("text=Keep the draft and check it");
        await Assertions.Expect(page.Locator("#live-problems")).ToContainTextAsync("is turned by 18. Use 0, 90, 180 or 270 degrees");
        Assert.Contains("3,3 half-square-triangle A B turn 18", await page.InputValueAsync("#Form_Units"), StringComparison.Ordinal);
        await page.FillAsync("#Form_Units", (await page.InputValueAsync("#Form_Units")).Replace("turn 18", "turn 180", StringComparison.Ordinal).Replace("turn 1800", "turn 180", StringComparison.Ordinal));
        await page.ClickAsync("button[type=submit] >> nth=0");
        var cuts = new List<string>();
        foreach (var body in await page.Locator("[aria-labelledby=cut] tbody").AllAsync())
        {
            var letter = (await body.Locator("th").InnerTextAsync()).Trim()[..1];
            foreach (var row in await body.Locator("tr").AllAsync())
            {
                cuts.Add($"{letter} {(await row.Locator("td").Nth(0).InnerTextAsync()).Trim()} {(await row.Locator("td").Nth(1).InnerTextAsync()).Trim()}");
            }
        }

        Assert.Equal(Shoofly, cuts);
    }
}
