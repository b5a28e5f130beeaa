using System.Text.Json;
using System.Text.RegularExpressions;
using KittingBee.Web.Packing;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Blocks;
using KittingBee.Web.Tests.Packing;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Languages;

/// <summary>What scripts say in a guild that speaks German, in a real browser.</summary>
public sealed partial class GermanScriptsTests(Browser browser, GuildHost guild) : IClassFixture<Browser>, IClassFixture<GuildHost>
{
    // Every text of some parts of the page and every name for screen readers that they have.
    private const string Texts = """
        parts => [...document.querySelectorAll(parts)].flatMap(part => {
          const walk = document.createTreeWalker(part, NodeFilter.SHOW_TEXT), found = [];
          while (walk.nextNode()) found.push(walk.currentNode.textContent.trim());
          for (const named of part.querySelectorAll("[aria-label], [title]")) found.push(named.getAttribute("aria-label") ?? "", named.title);
          return found.filter(Boolean);
        })
        """;

    // What the editor's scripts fill.
    private const string Editor = "#cells, .unitcard, #kept, #live-says, #announce";

    private readonly Uri address = guild.Listen();

    [Fact]
    public async Task Editor_SaysEverythingInGerman()
    {
        await Speak("de");
        var page = await browser.NewPage();
        var faults = new List<string>();
        page.Console += (_, message) => faults.AddRange(message.Type == "error" ? [message.Text] : Array.Empty<string>());
        var editor = new EditorPage(page);
        await editor.BeginByKeyboard(address, "Stern", "3", "2", "3");
        Assert.Equal("Reihe 1, Spalte 1: Lücke", await editor.Focused());
        await Told(editor, "Control+z", "Nichts rückgängig zu machen.");
        await Told(editor, "2 Space", "Reihe 1, Spalte 1: Halbquadrat-Dreieck rechts oben A, links unten B.");
        await Told(editor, ".", "Der nächste Buchstabe färbt: links unten B.");
        await Told(editor, "Control+z", "Rückgängig gemacht. Jetzt Reihe 1, Spalte 1: Halbquadrat-Dreieck links oben A, rechts unten B.");
        await Told(editor, "z", "Einen Stoff Z gibt es nicht. Erst in die Stoffliste eintragen.");
        await Assertions.Expect(editor.Kept).ToHaveTextAsync("Entwurf behalten.");
        foreach (var key in "1234567890=")
        {
            await editor.Press($"{key}");
            await NothingInEnglish(page, "block-editor.js", Editor);
        }

        await editor.Press("3 Shift+ArrowRight ArrowDown 6 . . -");
        await page.SetViewportSizeAsync(360, 740);
        await Fits(page);
        await page.SetViewportSizeAsync(1280, 900);
        Assert.Equal("Reihe 2, Spalte 1: umgeklappte Ecken Grund A, links oben B, rechts oben bleibt so, rechts unten B, links unten B", await editor.Focused());
        await NothingInEnglish(page, "block-editor.js", Editor);
        await page.Locator("[data-do=fill]").ClickAsync();
        await Assertions.Expect(page.Locator("#announce")).ToHaveTextAsync("3 Lücken gefüllt: umgeklappte Ecken Grund A, links oben B, rechts oben bleibt so, rechts unten B, links unten B.");
        await page.Locator("[data-do=more-columns]").ClickAsync();
        await Assertions.Expect(page.Locator("#announce")).ToHaveTextAsync("4 Spalten.");
        Assert.Empty(faults);

        await page.RouteAsync("**/blocks/**", route => route.AbortAsync());
        await editor.Cell(2, 2).ClickAsync();
        await editor.Press("1");
        await Assertions.Expect(editor.Kept).ToHaveTextAsync("Noch nicht behalten: das Programm antwortet nicht. Neuer Versuch…");
        await Assertions.Expect(editor.Says).ToHaveTextAsync("Das Programm antwortet gerade nicht.");
    }

    [Fact]
    public async Task Editor_InAmericanSpelling_SpellsItsOwnWay()
    {
        await Speak("en-US");
        var editor = new EditorPage(await browser.NewPage());
        await editor.BeginByKeyboard(address, "Spelled", "1", "1", "3");
        await editor.Press("5");
        Assert.Equal("Row 1, column 1: square in a square center B, corners A", await editor.Focused());
        await Assertions.Expect(editor.Page.Locator("[data-name=corners]")).ToHaveTextAsync("Color each corner by itself");
    }

    [Fact]
    public async Task Packing_WithoutALine_SaysInGermanWhatWaits()
    {
        var id = await ExampleClass.Store(guild, 2);
        await Speak("de");
        var kit = guild.Get<KitStore>().ForClass(id)[0];
        var table = await browser.NewPage();
        await table.GotoAsync($"{address}classes/{id}/pack");
        await Live(table, "Die Haken aller zeigen sich hier sofort.");
        await table.RouteAsync("**/api/**", route => route.AbortAsync());
        await table.Locator($"#kit-{kit.Id} .tick").First.ClickAsync();
        await Live(table, "Nicht verbunden. 1 Vermerk wartet auf diesem Gerät und wird gesendet, sobald die Verbindung wieder da ist.");
        await Assertions.Expect(table.Locator($"#kit-{kit.Id} .tick small").First).ToHaveTextAsync("eingetütet");
        await Assertions.Expect(table.Locator(".saying")).ToContainTextAsync(" eingetütet.");
        await table.Locator(".saying button").ClickAsync();
        await Live(table, "Nicht verbunden. 2 Vermerke warten auf diesem Gerät und werden gesendet, sobald die Verbindung wieder da ist.");
        await table.Locator("button[data-deal]").First.ClickAsync();
        await Assertions.Expect(table.Locator(".saying p")).ToHaveTextAsync("Oat eingetütet für 2 Tüten.");
        await NothingInEnglish(table, "packing.js", "main");

        // A piece reported from the bag's page, and then a class that takes nothing more: the program's own reason comes in German too.
        var phone = await browser.NewPage(390, 844);
        await phone.GotoAsync($"{address}bag/{kit.Code}");
        await Live(phone, "Die Haken aller zeigen sich hier sofort.");
        await phone.RouteAsync("**/api/**", route => route.AbortAsync());
        await phone.Locator(".lines .tick").First.ClickAsync();
        await phone.Locator("#shortages summary").ClickAsync();
        await phone.SelectOptionAsync("#Form_Line", new SelectOptionValue { Index = 1 });
        await phone.SelectOptionAsync("#Form_Reason", "spoiled");
        await phone.Locator("#short button").ClickAsync();
        await Live(phone, "Nicht verbunden. 1 Vermerk und 1 Meldung warten auf diesem Gerät und werden gesendet, sobald die Verbindung wieder da ist.");
        await Assertions.Expect(phone.Locator("#waiting-reports")).ToHaveTextAsync(new Regex("^1 × .* verdorben. Wartet auf diesem Gerät.$"));
        await Assertions.Expect(phone.Locator(".saying")).ToContainTextAsync("verdorben: für den Nachschneidezettel notiert.");
        await NothingInEnglish(phone, "packing.js", "main");
        await phone.SetViewportSizeAsync(360, 740);
        await Fits(phone);
        await guild.Get<ClosingStore>().Close(id, guild.Get<ClassStore>().Find(id)!.Version, "{}", [], forget: false);
        await phone.UnrouteAsync("**/api/**");
        await Assertions.Expect(phone.Locator(".saying")).ToContainTextAsync("Nicht notiert: 1 × ", new() { Timeout = 20_000 });
        await Assertions.Expect(phone.Locator(".saying")).ToContainTextAsync("Der Kurs ist geschlossen: zum Weiterpacken auf seiner Seite Abrechnen wieder öffnen.");
    }

    [Theory]
    [InlineData("bag")]
    [InlineData("check")]
    [InlineData("hand")]
    public async Task PackingTable_OnAPhone_HasRoomForGerman(string tick)
    {
        var id = await ExampleClass.Store(guild, 2);
        await Speak("de");

        // Handed over with nothing in it: its stage and what it lacks stand beside the button.
        await guild.Get<MarkDesk>().Mark(id, [new NewMark(Guid.NewGuid(), guild.Get<KitStore>().ForClass(id)[0].Id, KitMark.WholeKit, KitState.HandedOver, "Tove")]);
        var page = await browser.NewPage(360, 740);
        await page.GotoAsync($"{address}classes/{id}/pack?do={tick}");
        await Assertions.Expect(page.Locator(".short")).ToHaveTextAsync("fehlend");
        await Fits(page);
    }

    [Fact]
    public async Task LongPrint_SaysInGermanWhatHasCome()
    {
        var id = await SampleGuild.Fill(guild, students: 60);
        await Speak("de");
        var page = await browser.NewPage();
        await page.GotoAsync($"{address}classes/{id}/print/handouts");
        await Assertions.Expect(page.Locator("#coming")).ToHaveTextAsync("Alle 60 Anleitungen sind da: jetzt drucken.");

        // The same with its end cut off, as from a program that was stopped.
        using var client = guild.CreateClient();
        var whole = await client.GetStringAsync(new Uri($"/classes/{id}/print/handouts", UriKind.Relative), TestContext.Current.CancellationToken);
        await page.RouteAsync("**/print/handouts", route => route.FulfillAsync(new() { ContentType = "text/html; charset=utf-8", Body = whole[..whole.LastIndexOf("<section class=\"handout", StringComparison.Ordinal)] }));
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#coming")).ToHaveTextAsync("Nur 59 von 60 Anleitungen kamen, bevor das Programm aufhörte zu senden: vor dem Drucken die Seite neu laden.");
    }

    [Fact]
    public async Task CurveAndTypedLinesAndScan_SpeakGerman()
    {
        var id = await SampleGuild.Fill(guild, students: 3);
        await Speak("de");
        var page = await browser.NewPage();
        await page.GotoAsync($"{address}classes/{id}/price");
        await page.Locator("[data-curve] a").First.ClickAsync();
        await Assertions.Expect(page.Locator("#curve h2")).ToHaveTextAsync("Bei anderen Teilnehmerzahlen", new() { Timeout = 60_000 });

        await page.GotoAsync($"{address}blocks/typed");
        await page.FillAsync("#Form_Lines", "A 4 squares 4 1/2\nB 4 squares");
        await Assertions.Expect(page.Locator("#typed-says")).ToHaveTextAsync("1 Zeile ist nicht verstanden.", new() { Timeout = 10_000 });
        await page.FillAsync("#Form_Lines", "A 4 squares 4 1/2");
        await Assertions.Expect(page.Locator("#typed-says")).ToHaveTextAsync("Jede Zeile ist verstanden.", new() { Timeout = 10_000 });

        await page.AddInitScriptAsync("delete globalThis.BarcodeDetector");
        await page.GotoAsync($"{address}bag");
        await Assertions.Expect(page.Locator("#scan-says")).ToHaveTextAsync("Dieser Browser kann Etiketten nicht selbst lesen. Den Code eintippen oder die Kamera des Handys selbst auf das Etikett richten: sie öffnet die Seite der Tüte.");
    }

    private static async Task Told(EditorPage editor, string keys, string text)
    {
        await editor.Press(keys);
        await Assertions.Expect(editor.Page.Locator("#announce")).ToHaveTextAsync(text);
    }

    private static Task Live(IPage page, string text) => Assertions.Expect(page.Locator("[data-live]")).ToHaveTextAsync(text, new() { Timeout = 20_000 });

    /// <summary>None of a script's texts stands on the page as the sources have it, where German has it otherwise.</summary>
    private static async Task NothingInEnglish(IPage page, string script, string parts)
    {
        var german = Language.Find("de");
        var english = ScriptWords.Of(script).Where(text => german.Text(text) != text).Select(text => new Regex("^" + Place().Replace(Regex.Escape(text), ".*") + "$")).ToList();
        var shown = JsonSerializer.Deserialize<string[]>((await page.EvaluateAsync(Texts, parts))!.Value.GetRawText())!;
        Assert.NotEmpty(english);
        Assert.NotEmpty(shown);
        Assert.DoesNotContain(shown, text => english.Any(pattern => pattern.IsMatch(text)));
    }

    /// <summary>Nothing is wider than the window, and nothing that is written is wider than its button or notice.</summary>
    private static async Task Fits(IPage page) => Assert.Empty(await page.EvaluateAsync<string[]>("""
        () => [...document.querySelectorAll("main *")].filter(e => e.checkVisibility() && !e.closest(".sr, small"))
          .filter(e => e.getBoundingClientRect().right > innerWidth + 1 || (e.matches("button, .button, .saying") && e.scrollWidth > e.clientWidth + 1)).map(e => e.outerHTML.slice(0, 120))
        """));

    private async Task Speak(string language)
    {
        var settings = guild.Get<GuildStore>().Read();
        Assert.Equal(Saved.Done, await guild.Get<GuildStore>().Save(settings.IsAnswered
            ? settings with { Language = language }
            : new Guild { Name = "Millpond Piecers", Units = "inches", Paper = "letter", Currency = "USD", Language = language, Version = settings.Version }));
    }

    [GeneratedRegex(@"\\\{[0-9]+}")]
    private static partial Regex Place();
}
