using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Blocks;

/// <summary>The block editor in a browser, worked the way a person does.</summary>
internal sealed class EditorPage(IPage page)
{
    public IPage Page => page;

    public ILocator Cell(int row, int column) => page.Locator($"[role=gridcell][data-row='{row - 1}'][data-column='{column - 1}']");

    public ILocator Says => page.Locator("#live-says");

    public ILocator Kept => page.Locator("#kept");

    public ILocator Kind(string name) => page.Locator($"[data-kind='{name}']");

    /// <summary>The name of what has the focus, as a screen reader says it.</summary>
    public Task<string> Focused() => page.EvaluateAsync<string>("document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent.trim()");

    /// <summary>Goes on with the Tab key until something has the focus that matches.</summary>
    public async Task TabTo(string selector, bool back = false)
    {
        for (var pressed = 0; pressed < 120; pressed++)
        {
            if (await page.EvaluateAsync<bool>("selector => document.activeElement.matches(selector)", selector))
            {
                return;
            }

            await page.Keyboard.PressAsync(back ? "Shift+Tab" : "Tab");
        }

        Assert.Fail($"The Tab key does not reach {selector}.");
    }

    /// <summary>Begins an empty grid with the keyboard alone.</summary>
    public async Task BeginByKeyboard(Uri address, string name, string columns, string rows, string side)
    {
        await page.GotoAsync(new Uri(address, "/blocks/new").ToString());
        foreach (var (field, text) in new[] { ("Form_Name", name), ("Form_Columns", columns), ("Form_Rows", rows), ("Form_Side", side) })
        {
            await TabTo("#" + field);
            await page.Keyboard.PressAsync("Control+A");
            await page.Keyboard.TypeAsync(text);
        }

        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/blocks/drafts/*");
        await TabTo("[role=gridcell]");
    }

    /// <summary>Begins an empty grid by touch; the words come from the screen's keyboard.</summary>
    public async Task BeginByTouch(Uri address, string name, string columns, string rows, string side, bool tap = true)
    {
        await page.GotoAsync(new Uri(address, "/blocks/new").ToString());
        await page.Locator("#Form_Name").FillAsync(name);
        await page.Locator("#Form_Columns").FillAsync(columns);
        await page.Locator("#Form_Rows").FillAsync(rows);
        await page.Locator("#Form_Side").FillAsync(side);
        await (tap ? page.GetByText("Start drawing").TapAsync() : page.GetByText("Start drawing").ClickAsync());
        await page.WaitForURLAsync("**/blocks/drafts/*");
        await Cell(1, 1).WaitForAsync();
    }

    /// <summary>Presses keys one by one: letters and digits as they are, longer names between spaces.</summary>
    public async Task Press(string keys)
    {
        foreach (var key in keys.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            await page.Keyboard.PressAsync(key);
        }
    }

    public async Task WaitUntilKept() => await Assertions.Expect(Kept).ToHaveTextAsync("Draft kept.");

    public async Task WaitUntilItAddsUp(string size) => await Assertions.Expect(Says).ToContainTextAsync("It adds up: " + size);

    /// <summary>The cut list of the block's page, one line each: "A 4 3½″ square".</summary>
    public async Task<IReadOnlyList<string>> SavedCutList()
    {
        await page.WaitForURLAsync(url => System.Text.RegularExpressions.Regex.IsMatch(url, @"/blocks/\d+$"));
        return await page.EvaluateAsync<string[]>("""
            [...document.querySelectorAll("[aria-labelledby=cut] tbody")].flatMap(body => {
              const letter = body.querySelector("th").textContent.trim()[0];
              return [...body.rows].map(row => [letter, ...[...row.querySelectorAll("td")].slice(0, 2).map(cell => cell.textContent.trim())].join(" "));
            })
            """);
    }
}
