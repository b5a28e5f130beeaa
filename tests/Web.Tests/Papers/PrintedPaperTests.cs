using System.Text.RegularExpressions;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace KittingBee.Web.Tests.Papers;

/// <summary>The papers as a real browser prints them.</summary>
public sealed partial class PrintedPaperTests(Browser browser) : IClassFixture<Browser>
{
    private const double PointsPerInch = 72;

    [Theory]
    [InlineData(false, 8.5 * 72, 11 * 72)] // ANSI/ASME Y14.1: 8 1/2 x 11 in.
    [InlineData(true, 210 / 25.4 * 72, 297 / 25.4 * 72)] // ISO 216: 210 x 297 mm.
    public async Task Handouts_PrintOnTheClasssPaper_EachStudentsNameOnTheirOwnPagesOnly(bool metric, double width, double height)
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric);
        using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/handouts");

        var pages = pdf.GetPages().ToList();
        Assert.All(pages, page => Assert.Equal((width, height), (page.Width, page.Height), (one, other) => Math.Abs(one.Item1 - other.Item1) < 1 && Math.Abs(one.Item2 - other.Item2) < 1));

        var owners = pages.Select(OwnersOf).ToList();
        Assert.All(owners, names => Assert.Single(names));
        foreach (var name in SampleGuild.Names)
        {
            // Front and back of a sheet at least, and no more than fits a small envelope.
            Assert.InRange(owners.Count(names => names.Contains(name)), 2, 8);
        }

        Assert.Equal(SampleGuild.Names, owners.Select(names => names[0]).Distinct());
    }

    [Theory]
    [InlineData("handouts", "en-GB", "page")]
    [InlineData("tickets", "en-GB", "page")]
    [InlineData("handouts", "de", "Seite")]
    public async Task EveryPage_HasItsNumber_CountedAnewForEachStudentAndFabric(string paper, string language, string word)
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric: true);
        var settings = guild.Get<GuildStore>();
        Assert.Equal(Saved.Done, await settings.Save(settings.Read() with { Language = language }));
        using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/{paper}");

        var heads = paper == "handouts"
            ? SampleGuild.Names
            : [.. plan.Fabrics.Select(fabric => $"{string.Join(", ", fabric.Letters)} · {fabric.Name}")];
        var pages = pdf.GetPages().Select(Text).ToList();
        foreach (var head in heads)
        {
            var own = pages.Where(text => text.Contains(head, StringComparison.Ordinal)).ToList();
            Assert.NotEmpty(own);
            Assert.Equal(Enumerable.Range(1, own.Count).Select(number => $"{word} {number}"), own.Select(text => PageNumber().Match(text).Value));
        }
    }

    [Fact]
    public async Task OneInchSquare_MeasuresOneInch_OnEveryHandout_LargePrintToo()
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric: false);
        using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/handouts");

        var squares = pdf.GetPages().SelectMany(page => page.Paths)
            .Select(path => path.GetBoundingRectangle())
            .Where(box => box is { } found && Math.Abs(found.Width - PointsPerInch) < 0.1 && Math.Abs(found.Height - PointsPerInch) < 0.1)
            .Count();
        Assert.Equal(SampleGuild.Names.Length, squares);

        // 2 cm = 2 / 2.54 in.
        const double twoCentimetres = 2 / 2.54 * PointsPerInch;
        var small = pdf.GetPages().SelectMany(page => page.Paths)
            .Select(path => path.GetBoundingRectangle())
            .Count(box => box is { } found && Math.Abs(found.Width - twoCentimetres) < 0.1 && Math.Abs(found.Height - twoCentimetres) < 0.1);
        Assert.Equal(SampleGuild.Names.Length, small);
    }

    [Theory]
    [InlineData(false, "handouts")]
    [InlineData(true, "handouts?large=true")]
    public async Task NoStep_IsSplitBetweenPages(bool metric, string paper)
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric);
        using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/{paper}");

        // In the order in which the browser wrote them, without spaces: a step and its checkpoint follow each other on one page.
        var pages = pdf.GetPages().Select(page => Unspaced(string.Concat(page.Letters.Select(letter => letter.Value)))).ToList();
        Assert.True(pages.Count > SampleGuild.Names.Length);
        Assert.NotEmpty(plan.CutList.Steps);
        foreach (var step in plan.CutList.Steps)
        {
            var whole = Unspaced($"{step.Number} {step.Text} ☐ Checkpoint: it measures {plan.Habits.Show(step.Width)} × {plan.Habits.Show(step.Height)}");
            Assert.Equal(SampleGuild.Names.Length, pages.Sum(page => page.Split(whole).Length - 1));
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task NoPaper_LosesWordsOverTheEdge(bool metric)
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric);
        foreach (var paper in new[] { "handouts", "tickets", "labels", "handouts?large=true" })
        {
            using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/{paper}");
            var lost = pdf.GetPages().SelectMany(page => page.Letters
                .Where(letter => letter.BoundingBox.Left < 0 || letter.BoundingBox.Right > page.Width || letter.BoundingBox.Bottom < 0 || letter.BoundingBox.Top > page.Height)
                .Select(letter => $"{paper}, page {page.Number}: {letter.Value}"));
            Assert.Empty(lost);
        }
    }

    [Fact]
    public async Task Tickets_BeginEachFabricOnItsOwnPage()
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric: true);
        using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/tickets");

        var first = pdf.GetPages().Select(page => Text(page)).ToList();
        Assert.All(plan.Fabrics, fabric => Assert.Contains(first, text => text.Contains($"{string.Join(", ", fabric.Letters)} · {fabric.Name}", StringComparison.Ordinal)));
        Assert.All(first, text => Assert.Single(plan.Fabrics, fabric => text.Contains($"· {fabric.Name}", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Labels_LieWhereTheSheetsMakerPutThem()
    {
        using var guild = new GuildHost();
        var (address, plan) = await Fill(guild, metric: false);
        using var pdf = await Print(address, $"/classes/{plan.ClassId}/print/labels?sheet=letter-3x10&test=true");

        // 2 5/8 x 1 in labels from 3/16 in and 1/2 in, pitch 2 3/4 x 1 in: wiki.trackandtrace.tools label templates.
        var page = Assert.Single(pdf.GetPages());
        var boxes = page.Paths.Where(path => !path.IsClipping).Select(path => path.GetBoundingRectangle()).Where(box => box is { } found && Math.Abs(found.Width - (2.625 * 72)) < 0.2 && Math.Abs(found.Height - 72) < 0.2).Select(box => box!.Value).ToList();
        Assert.Equal(30, boxes.Count);
        Assert.Contains(boxes, box => Math.Abs(box.Left - (0.1875 * 72)) < 0.5 && Math.Abs(page.Height - box.Top - 36) < 0.5);
        Assert.Contains(boxes, box => Math.Abs(box.Left - ((0.1875 + 5.5) * 72)) < 0.5 && Math.Abs(page.Height - box.Top - (36 + (9 * 72))) < 0.5);
    }

    [GeneratedRegex(@"(?:page|Seite) \d+")]
    private static partial Regex PageNumber();

    private static async Task<(Uri Address, ClassPlan Plan)> Fill(GuildHost guild, bool metric)
    {
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild, metric);
        return (address, (await guild.Get<ClassPlanning>().Plan(id))!);
    }

    private async Task<PdfDocument> Print(Uri address, string path)
    {
        var page = await browser.NewPage();
        await page.GotoAsync(new Uri(address, path).ToString());
        var pdf = await page.PdfAsync(new() { PreferCSSPageSize = true });
        await page.CloseAsync();
        return PdfDocument.Open(pdf);
    }

    private static List<string> OwnersOf(Page page)
    {
        var text = Text(page);
        return [.. SampleGuild.Names.Where(name => text.Contains(name, StringComparison.Ordinal))];
    }

    // Ligatures count as their letters.
    private static string Unspaced(string text) => string.Concat(text.Normalize(System.Text.NormalizationForm.FormKC).Where(letter => !char.IsWhiteSpace(letter)));

    // Words in reading order with single spaces: the printed text comes letter by letter.
    private static string Text(Page page) => string.Join(' ', page.GetWords().Select(word => word.Text));
}
