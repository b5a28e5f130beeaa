using System.Text.RegularExpressions;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Backups;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Exchange;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Face;

/// <summary>The demonstration guild, listening for a browser, with one of everything that has a page of its own.</summary>
public class DemonstrationHost : GuildHost, IAsyncLifetime
{
    private readonly Dictionary<string, string> places = [];

    public Uri Address { get; private set; } = new("about:blank");

    /// <summary>The page's whole address, with something real where a name stands in braces.</summary>
    public string At(string address) => new Uri(Address, places.Aggregate(address, (text, place) => text.Replace("{" + place.Key + "}", place.Value, StringComparison.Ordinal))).ToString();

    public virtual async ValueTask InitializeAsync()
    {
        Address = Listen();
        await Get<DemonstrationGuild>().Load();
        var kit = (await Get<ClassPlanning>().Plan(2))!.Kits[0];
        places["code"] = kit.Code;
        places["link"] = (await Get<KitLinks>().Of(2))[kit.KitId];
        places["draft"] = (await Get<DraftStore>().Begin(new() { SketchJson = new BlockSketch { Name = "Half a thought" }.ToJson() })).ToString(System.Globalization.CultureInfo.InvariantCulture);
        places["project"] = (await Get<ProjectStore>().Add(new() { Name = "Four stars", BlockId = 1, Json = ProjectJson.Write(new() { Across = 2, Down = 2 }) })).ToString(System.Globalization.CultureInfo.InvariantCulture);
        places["typed"] = Get<BlockStore>().All().Single(block => block.TypedLines is not null).Id.ToString(System.Globalization.CultureInfo.InvariantCulture);
        places["copy"] = Get<BackupBook>().Make(BackupReason.ByHand).Name;
        places["file"] = await Get<Incoming>().Read(Get<FileWriter>().Class(1, people: false)!);
    }
}

/// <summary>
/// Every page is looked at by a machine: no fault that axe finds in light at a desk or in dark on a phone,
/// and nothing wider than a phone of 360 px.
/// </summary>
public sealed class FaceTests(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    private const string WidestElement = "[...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > 361).map(e => e.outerHTML.slice(0, 120)).slice(0, 3).join(' | ')";

    public static TheoryData<string> Pages =>
    [
        "/", "/classes", "/classes/new", "/classes/2", "/classes/2/change", "/classes/2/roster", "/classes/2/roster/8", "/classes/2/fabrics", "/classes/2/fabrics/3",
        "/classes/2/fabrics/new", "/classes/1", "/classes/4", "/shelf", "/shelf/fabrics/1", "/shelf/fabrics/new", "/shelf/pieces/1", "/shelf/pieces/new?fabric=2", "/settings", "/settings/sharing", "/settings/backups", "/settings/taken-out", "/settings/files", "/classes/2/print/links", "/no-such-page",
        "/classes/2/cut", "/classes/2/price", "/classes/2/print", "/classes/2/pack", "/classes/1/pack", "/classes/1/settle", "/blocks", "/blocks/1", "/blocks/new", "/blocks/typed", "/classes/2/recut", "/classes/1/pack/history",
        "/bag", "/classes/2/pack?do=check", "/classes/1/settle?makes=true", "/classes/1/settle/workbook",
        "/find", "/find?q=star", "/glossary", "/help", "/classes/2/copy", "/classes/2/supply", "/classes/2/shopping", "/shopping",
        "/classes/2/formats", "/classes/2/room", "/classes/2/roster/import", "/classes/2/price?curve=true", "/bag/{code}", "/blocks/1/project", "/blocks/drafts/{draft}",
        "/settings/backups/{copy}", "/settings/files/{file}", "/own/{link}", "/error", "/projects/{project}", "/blocks/{typed}/typed",
    ];

    // Addresses that answer with a file, go elsewhere at once, or are paper on a screen (Papers/ looks at those); the door is looked at by DoorTests.
    private static readonly string[] NoScreens =
    [
        "classes/{classId:long}/calendar", "classes/{classId:long}/print/workbook", "classes/{classId:long}/roster/file", "classes/{classId:long}/settle/photos/{id:long}",
        "classes/{classId:long}/print/all", "classes/{classId:long}/print/handouts", "classes/{classId:long}/print/labels", "classes/{classId:long}/print/tickets", "own/{link}/handout",
        "sign-out", "sign-in", "join/{link}",
    ];

    [Fact]
    public void Pages_AreAllOfTheProgram()
    {
        var patterns = guild.Get<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(endpoint => endpoint.Metadata.GetMetadata<PageActionDescriptor>() is not null)
            .Select(endpoint => (endpoint.RoutePattern.RawText ?? "").TrimStart('/')).Distinct().ToList();
        Assert.True(patterns.Count > 50, $"Only {patterns.Count} pages were found.");
        Assert.Equal([], NoScreens.Except(patterns));
        var looked = Pages.Select(row => row.Data.Split('?')[0].TrimStart('/')).ToList();
        Assert.Equal([], patterns.Except(NoScreens).Where(pattern => !looked.Any(address => Regex.IsMatch(address, "^" + Regex.Replace(pattern, @"\{[^}]*\}", "[^/]+") + "$"))));
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_HasNoFaultThatAxeFinds(string address)
    {
        var page = await browser.NewPage(1280, 1000);
        try
        {
            await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
            await page.GotoAsync(guild.At(address));
            Assert.Empty(await page.FaultsThatAxeFinds());
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark, ReducedMotion = ReducedMotion.Reduce });
            await page.SetViewportSizeAsync(360, 800);
            Assert.Empty(await page.FaultsThatAxeFinds());
            var wide = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
            Assert.True(wide <= 360, $"{address} is {wide} px wide on a phone of 360 px: {await page.EvaluateAsync<string>(WidestElement)}");
        }
        finally
        {
            await page.Context.CloseAsync();
        }
    }
}
