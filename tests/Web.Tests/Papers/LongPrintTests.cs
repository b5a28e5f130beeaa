using KittingBee.Planning.Formats;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Labels;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Papers;

/// <summary>Handouts of a class so large that they take a while to come.</summary>
public sealed class LongPrintTests(Browser browser) : IClassFixture<Browser>
{
    private const int Students = 60;

    // As the handouts' own room for a code.
    private const decimal CodeRoom = 22m;

    [Fact]
    public async Task Handouts_AreMadeWhileTheyAreSent()
    {
        using var guild = new GuildHost();
        var id = await SampleGuild.Fill(guild, students: Students);
        var kits = (await guild.Get<ClassPlanning>().Plan(id))!.Kits.Where(kit => kit.Role == KitRole.Student).ToList();
        using var client = guild.CreateClient();
        using var answer = await client.GetAsync(new Uri($"/classes/{id}/print/handouts", UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        using var reader = new StreamReader(await answer.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken));
        while (await reader.ReadLineAsync(TestContext.Current.CancellationToken) is { } line && !line.Contains("</section>", StringComparison.Ordinal))
        {
        }

        // Nothing was read past the first, so the program waits with the others; what changes now shows in the last.
        guild.Get<ShareAddress>().Shared = new Uri("http://192.0.2.7:5210"); // A documentation address: RFC 5737.
        var rest = await reader.ReadToEndAsync(TestContext.Current.CancellationToken);

        var own = PageAddresses.Own((await guild.Get<KitLinks>().Of(id))[kits[^1].KitId]);
        Assert.Contains(QrSquare.Of("http://192.0.2.7:5210" + own, CodeRoom)!.Path, rest, StringComparison.Ordinal);
        Assert.DoesNotContain(QrSquare.Of("http://localhost" + own, CodeRoom)!.Path, rest, StringComparison.Ordinal);
        Assert.Equal(Students - 1, rest.Split("<section class=\"handout").Length - 1);
    }

    [Theory]
    [InlineData("handouts", true)]
    [InlineData("handouts", false)]
    [InlineData("all", true)]
    public async Task LongPrint_SaysWhenAllOfItHasCome(string paper, bool scripts)
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild, students: Students);
        var page = await browser.NewPage(scripts: scripts);
        await page.GotoAsync(new Uri(address, $"/classes/{id}/print/{paper}").ToString());

        Assert.StartsWith($"That is all: {Students} handouts", await page.Locator("#all-came").TextContentAsync(), StringComparison.Ordinal);
        if (scripts)
        {
            await page.GetByText($"All {Students} handouts are here: print now.").WaitForAsync();
            Assert.Equal(Students.ToString(System.Globalization.CultureInfo.InvariantCulture), await page.Locator("progress").EvaluateAsync<string>("bar => String(bar.value)"));
        }
        else
        {
            Assert.False(await page.Locator("progress").IsVisibleAsync());
            Assert.Contains("the last line of the page says when it is whole", await page.Locator("#coming").TextContentAsync(), StringComparison.Ordinal);
            Assert.Equal($"/classes/{id}/print", await page.Locator("#coming a").GetAttributeAsync("href"));
        }

        await page.CloseAsync();
    }

    [Fact]
    public async Task LongPrint_WhileItComes_SaysHowFarItIsAndCanBeLeft()
    {
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await SampleGuild.Fill(guild, students: Students);
        var page = await browser.NewPage();

        // A slow line: the handouts have to arrive one after another.
        var line = await page.Context.NewCDPSessionAsync(page);
        await line.SendAsync("Network.enable");
        await line.SendAsync("Network.emulateNetworkConditions", new() { ["offline"] = false, ["latency"] = 0, ["downloadThroughput"] = 60_000, ["uploadThroughput"] = 60_000 });
        await page.GotoAsync(new Uri(address, $"/classes/{id}/print/handouts").ToString(), new() { WaitUntil = WaitUntilState.Commit });

        var bar = page.Locator("progress");
        await Assertions.Expect(page.Locator("#coming [role=status]")).ToHaveTextAsync(new System.Text.RegularExpressions.Regex($"^[0-9]+ of {Students} handouts have come"));
        var seen = new List<int>();
        while (seen.Distinct().Count() < 3)
        {
            seen.Add(await bar.EvaluateAsync<int>("bar => bar.value"));
            await page.WaitForTimeoutAsync(100);
        }

        Assert.Equal(seen.Order(), seen);
        Assert.InRange(seen[^1], 1, Students - 1);
        Assert.Equal(Students, await bar.EvaluateAsync<int>("bar => bar.max"));

        // The page stands still for nobody while it grows, so the link is pressed where it is.
        await page.Locator("#coming a").EvaluateAsync("link => link.click()");
        await page.WaitForURLAsync($"**/classes/{id}/print");
        await page.CloseAsync();
    }

    [Theory]
    [InlineData(FormatCodes.CutPieces)]
    [InlineData(FormatCodes.TenInchSquares)] // The students cut: a drawing of that on each handout, too.
    public async Task NoTwoDrawings_OfAPage_ShareAnId(string format)
    {
        using var guild = new GuildHost();
        var id = await SampleGuild.Fill(guild);
        var indigo = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Indigo").Id;
        Assert.Equal(Saved.Done, await guild.Get<FormatStore>().Save(id, guild.Get<FormatStore>().ForClass(id).Version, [new FormatChoice { FabricId = indigo, Format = format }]));
        var (_, html) = await new FormClient(guild.CreateClient()).Get($"/classes/{id}/print/handouts");
        Assert.Equal(format != FormatCodes.CutPieces, html.Contains("class=\"owncut\"", StringComparison.Ordinal));

        var ids = System.Text.RegularExpressions.Regex.Matches(html, " id=\"([^\"]+)\"").Select(match => match.Groups[1].Value).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        var hatches = System.Text.RegularExpressions.Regex.Matches(html, @"url\(#([^)]+)\)").Select(match => match.Groups[1].Value).Distinct();
        Assert.All(hatches, hatch => Assert.Contains(hatch, ids));
    }
}
