using KittingBee.Web.Documents.Labels;

namespace KittingBee.Web.Tests.Papers;

/// <summary>Labels as a real browser draws them: everything in its place, whatever the names are.</summary>
public sealed class LabelFaceTests(Browser browser) : IClassFixture<Browser>
{
    private static readonly string[] Names =
    [
        "Ada Lindqvist",
        "Wilhelmina Maximiliana Wagenknecht-Montgomery of Württemberg W", // 60 letters and more, the widest there are.
        "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
        "さくらさくらさくらさくらさくらさくらさくらさくら",
        "عبد الرحمن بن عبد العزيز السلامي الطويل الاسم",
        "नमस्ते विद्यार्थी का बहुत लम्बा नाम",
        "=HYPERLINK(\"http://example.invalid\",\"win\")",
        "<b>Bold</b> & Co",
        "👩‍👩‍👧‍👦 Family",
        "X",
    ];

    [Theory]
    [InlineData("letter-3x10", 2)]
    [InlineData("letter-3x10", 12)]
    [InlineData("letter-2x5", 12)]
    [InlineData("a4-3x7", 5)]
    [InlineData("a4-2x7", 12)]
    public async Task NothingOnALabel_LeavesItOrReachesTheCode(string key, int fabrics)
    {
        var sheet = LabelSheet.Usual.Single(usual => usual.Key == key);
        var page = await browser.NewPage();
        await page.SetContentAsync("<!DOCTYPE html><body style='margin:0'>" + string.Concat(LabelDrawing.Sheets(Labels(fabrics), sheet, 1, outlines: false)) + "</body>");

        // Boxes of all words, swatches and the code of each label, in the label's own millimetres.
        var faults = await page.EvaluateAsync<string[]>("""
            () => [...document.querySelectorAll('body > svg > svg')].flatMap((label, index) => {
              const [width, height] = [label.width.baseVal.value, label.height.baseVal.value];
              const unit = document.querySelector('body > svg').getBoundingClientRect().width / document.querySelector('body > svg').viewBox.baseVal.width;
              const origin = label.getScreenCTM();
              const inside = b => [(b.left - origin.e) / unit, (b.top - origin.f) / unit, (b.right - origin.e) / unit, (b.bottom - origin.f) / unit];
              const code = label.querySelector('path[fill="#000"]');
              const codeLeft = code ? inside(code.parentNode.querySelector('rect').getBoundingClientRect())[0] : width;
              return [...label.querySelectorAll('text, rect[stroke]')].map(what => [what, inside(what.getBoundingClientRect())])
                .filter(([, [left, top, right, bottom]]) => left < -0.01 || top < -0.4 || right > codeLeft + 0.01 || bottom > height + 0.01)
                .map(([what, [left, top, right, bottom]]) => `${index + 1}: ${what.textContent || 'swatch'} ${left.toFixed(2)} ${top.toFixed(2)} ${right.toFixed(2)} ${bottom.toFixed(2)} of ${width} × ${height}, code from ${codeLeft.toFixed(2)}`);
            })
            """);
        Assert.Empty(faults);
        await page.CloseAsync();
    }

    [Fact]
    public void OneInchLabel_ShowsNumberNameColourwayCodeAndEveryFabric()
    {
        var sheet = LabelSheet.Usual.Single(usual => usual.Key == "letter-3x10");
        var svg = LabelDrawing.Sheets([Labels(5)[0]], sheet, 1, outlines: false)[0];

        foreach (var words in new[] { ">1<", ">Ada Lindqvist<", ">Dusk and dawn · code ABCDEF<", ">A Linen", ">B Indigo", ">C Madder", ">D Weld", ">E Moss" })
        {
            Assert.Contains(words, svg, StringComparison.Ordinal);
        }

        Assert.Equal(5, svg.Split("<pattern ").Length - 1);
    }

    [Fact]
    public void MoreFabricsThanALabelHolds_AreCounted()
    {
        var tiny = LabelSheet.Usual.Single(usual => usual.Key == "letter-3x10") with { Columns = 1, Width = Planning.Measures.Length.FromInches(1.5m) };
        var svg = LabelDrawing.Sheets([Labels(12)[0]], tiny, 1, outlines: false)[0];
        Assert.Matches(@">\+\d+<", svg);
    }

    [Theory]
    [InlineData("short", 10, "short")]
    [InlineData("a long text", 3, "a l…")]
    [InlineData("anything", 0.1, "")]
    public void Shortened_KeepsWhatHasRoom(string text, decimal room, string kept) => Assert.Equal(kept, TextWidths.Shortened(text, room, bold: false));

    [Fact]
    public void Lines_BreakBetweenWords_AndKeepEveryLetterWhole()
    {
        Assert.Equal(["Ada", "Lindqvist"], TextWidths.Lines("Ada Lindqvist", 6, 2, bold: false));
        Assert.Equal(["さくら", "さくら"], TextWidths.Lines("さくらさくら", 3.2m, 2, bold: false));
        Assert.Equal(2, TextWidths.Lines("one two three four five six", 5, 2, bold: false).Count);
        Assert.EndsWith("…", TextWidths.Lines("one two three four five six", 5, 2, bold: false)[^1], StringComparison.Ordinal);
        Assert.Empty(TextWidths.Lines("", 5, 2, bold: false));
    }

    private static List<Label> Labels(int fabrics)
    {
        LabelFabric[] all =
        [
            new("A", "Linen ground with a very long name of its own", "#f1e9dc"), new("B", "Indigo", "#27447a"), new("C", "Madder", "#9a3324"), new("D", "Weld", "#d6a441"),
            new("E", "Moss", "#5f7f52"), new("F", "WWWWWWWWWWWWWWWWWW", "#6f5440"), new("G", "さくらさくらさくら", "#8fb0c4"), new("H", "Cochineal", "#9c3a58"),
            new("I", "Lichen", "#b3ae78"), new("J", "Logwood", "#5b4a72"), new("K", "Safflower", "#e3a183"), new("L", "Oak gall", "#55534f"),
        ];
        return [.. Names.Select((name, index) => new Label(
            (index == 3 ? 2000 : index + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), name, "ABCDEF", index == 1 ? new string('W', 60) : "Dusk and dawn",
            [.. all.Take(fabrics)], "Corner Star cushion of the whole long winter", "http://192.168.100.100:5210/bag/ABCDEF"))];
    }
}
