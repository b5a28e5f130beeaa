using System.Net;
using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using KittingBee.Web.Documents.Labels;
using KittingBee.Web.Running;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Classes;
using Microsoft.AspNetCore.Http;

namespace KittingBee.Web.Tests.Papers;

public sealed class PaperPagesTests(SampleClassHost host) : IClassFixture<SampleClassHost>
{
    private string Page(string paper) => $"/classes/{host.ClassId}/print/{paper}";

    [Fact]
    public async Task Print_LeadsToEveryPaperInOneClick()
    {
        var (_, html) = await host.Client.Get($"/classes/{host.ClassId}/print");

        foreach (var paper in new[] { "all", "handouts", "tickets", "labels", "workbook" })
        {
            Assert.Contains($"href=\"{Page(paper)}\"", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Printed_IsNoted()
    {
        var print = $"/classes/{host.ClassId}/print";
        var (_, html) = await host.Client.Post(print, print + "?handler=Printed", new Dictionary<string, string>());

        Assert.Contains("everything is printed", FormClient.Words(html), StringComparison.Ordinal);
        Assert.NotNull(host.Guild.Get<ClassStore>().Find(host.ClassId)!.PrintedAt);
    }

    [Fact]
    public async Task Handouts_HaveAllThatAStudentNeeds()
    {
        var plan = await host.Plan();
        var (status, html) = await host.Client.Get(Page("handouts"));
        var words = FormClient.Words(html);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(SampleGuild.Names.Length, html.Split("<section class=\"handout").Length - 1);
        Assert.All(SampleGuild.Names, name => Assert.Contains(name, words, StringComparison.Ordinal));
        Assert.Contains(Cautions.RotaryCutter, words, StringComparison.Ordinal);
        Assert.Contains(Cautions.Iron, words, StringComparison.Ordinal);
        Assert.Contains(Cautions.Needle, words, StringComparison.Ordinal);

        // Three strips of 1 1/2 in come out at 3 1/2 in: J. Cahoon, quiltcentric.com, 16 Sept 2012.
        Assert.Contains("cut 3 strips 1½″ wide", words, StringComparison.Ordinal);
        Assert.Contains("they must measure 3½″", words, StringComparison.Ordinal);
        Assert.Contains("If your block measures", words, StringComparison.Ordinal);
        foreach (var step in plan.CutList.Steps)
        {
            Assert.Contains(step.Text, words, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Handouts_ShowEachStudentsOwnFabrics_BagAndHand()
    {
        var plan = await host.Plan();
        var (_, html) = await host.Client.Get(Page("handouts"));
        var handouts = html.Split("<section class=\"handout")[1..];
        var kits = plan.Kits.Where(kit => kit.Role == KitRole.Student).ToList();
        foreach (var (kit, handout) in kits.Zip(handouts))
        {
            Assert.Contains(kit.Name, WebUtility.HtmlDecode(handout), StringComparison.Ordinal);
            var own = plan.FabricsOf(plan.ColourwayOf(kit)).Values.Select(fabric => fabric.Colour).ToHashSet();
            Assert.All(plan.Fabrics, fabric => Assert.Equal(own.Contains(fabric.Colour), handout.Contains(fabric.Colour, StringComparison.OrdinalIgnoreCase)));
            Assert.Equal(plan.LinesOf(kit).Count, handout.Split("<td class=\"box\">").Length - 1);
            Assert.Equal(plan.CutList.Steps.Count, handout.Split("<div class=\"drawing\"><svg").Length - 1);
            Assert.Contains("The finished block in your fabrics", handout, StringComparison.Ordinal);
            Assert.Contains("Each arrow points where the seam’s allowances go", handout, StringComparison.Ordinal);
            Assert.Equal(kit.LeftHanded, handout.Contains("With the left hand", StringComparison.Ordinal));
        }

        Assert.Single(kits, kit => kit.LeftHanded);
    }

    [Fact]
    public async Task Handouts_LargePrintIsForThoseWhoAskedForIt()
    {
        var (_, html) = await host.Client.Get(Page("handouts"));
        var (_, all) = await host.Client.Get(Page("handouts") + "?large=true");

        Assert.Equal(1, html.Split("<section class=\"handout large ").Length - 1);
        Assert.Equal(SampleGuild.Names.Length, all.Split("<section class=\"handout large ").Length - 1);
    }

    [Fact]
    public async Task Tickets_HaveABoxForEveryStrip()
    {
        var plan = await host.Plan();
        var (_, html) = await host.Client.Get(Page("tickets"));

        var strips = plan.Fabrics.Sum(fabric => fabric.Plan!.Strips.Sum(strip => strip.Repeat) + fabric.Plan.Sheets.Sum(sheet => sheet.Repeat * sheet.Strips.Sum(strip => strip.Repeat)));
        Assert.Equal(strips, WebUtility.HtmlDecode(html).Count(letter => letter == '☐'));
        Assert.Equal(plan.Fabrics.Count, html.Split("<section class=\"ticket ").Length - 1);
    }

    [Fact]
    public async Task Tickets_SayHowNearTheLeastThePlanIs_AndHowManyMoreKitsTheClothMakes()
    {
        var (_, html) = await host.Client.Get(Page("tickets"));
        Assert.Matches("no plan of this kind costs less|The least that any strip plan can use is", html);
        Assert.Contains("Cutting each size from strips of its own would take", html, StringComparison.Ordinal);
        Assert.Matches("more kits? fits? into the cloth", html);
    }

    [Fact]
    public async Task Tickets_SayWhatTheCutterNeeds_TheShelfFirst()
    {
        using var guild = new GuildHost();
        var id = await SampleGuild.Fill(guild);
        var fabrics = guild.Get<FabricStore>();
        Assert.Equal(Saved.Done, await fabrics.Save(fabrics.All().Single(fabric => fabric.Name == "Indigo") with { Directional = true }));
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        var (_, html) = await new FormClient(guild.CreateClient()).Get($"/classes/{id}/print/tickets");
        var words = FormClient.Words(html);
        var tickets = plan.Fabrics.Select(Ticket.Of).ToList();

        Assert.Equal(tickets.Count + 1, words.Split(Cautions.RotaryCutter).Length);
        Assert.Equal(2, words.Split("The fabric has a direction: turn no piece ↑").Length);
        foreach (var ticket in tickets)
        {
            Assert.Contains($"{ticket.Plan.Strokes} strokes, about {ticket.Minutes(guild.Get<ClassStore>().Find(id)!.SecondsPerStroke)} minutes", words, StringComparison.Ordinal);

            // The bolt is used up strip by strip: each strip takes its own height.
            var used = Length.Zero;
            foreach (var step in ticket.Steps)
            {
                Assert.Contains(TicketWords.ShowLayers(step.Line), words, StringComparison.Ordinal);
                used += step.Line.Sheet is null ? step.Line.Strip.Height * step.Line.Ticks : Length.Zero;
                Assert.True(step.Line.Sheet is not null || words.Contains($"Bolt used so far: {plan.Habits.Show(used)}.", StringComparison.Ordinal));
            }

            Assert.Equal(ticket.Plan.Length, used);
        }

        // The remnant of Indigo is cut before the bolt is.
        var indigo = tickets.Single(ticket => ticket.Fabric.Name == "Indigo");
        Assert.NotNull(indigo.Steps[0].Line.Sheet);
        Assert.Equal(indigo.Steps.OrderBy(step => step.Line.Sheet is null), indigo.Steps);
        Assert.Contains(indigo.Steps[0].CutFrom, words, StringComparison.Ordinal);
        Assert.Contains("From the shelf first", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Labels_AreOneForEachKit_AndBeginWhereTold()
    {
        var plan = await host.Plan();
        var (_, html) = await host.Client.Get(Page("labels") + "?sheet=letter-2x5&from=8");
        var words = FormClient.Words(html);

        Assert.All(plan.Kits, kit => Assert.Contains($"code {kit.Code}", words, StringComparison.Ordinal));
        Assert.Equal(2, html.Split("<svg xmlns").Length - 1);
    }

    [Fact]
    public async Task BagAddress_OnALabel_LeadsToTheBagsPage()
    {
        var kit = (await host.Plan()).Kits[0];
        var (status, html) = await host.Client.Get(PageAddresses.Bag(kit.Code));

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains(kit.Name, FormClient.Words(html), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Codes_LeadToTheSharedAddress_AndThePagesSayWhereNoPhoneCanFollow()
    {
        using var guild = new GuildHost();
        var client = new FormClient(guild.CreateClient());
        var id = await SampleGuild.Fill(guild);
        var (_, alone) = await client.Get($"/classes/{id}/print");
        var (_, labels) = await client.Get($"/classes/{id}/print/labels");
        Assert.Contains("not shared yet", alone, StringComparison.Ordinal);
        Assert.Contains("not shared yet", labels, StringComparison.Ordinal);

        guild.Get<ShareAddress>().Shared = new Uri("http://192.0.2.7:5210"); // A documentation address: RFC 5737.
        var (_, shared) = await client.Get($"/classes/{id}/print");
        var (_, sharedLabels) = await client.Get($"/classes/{id}/print/labels");

        Assert.DoesNotContain("not shared yet", shared + sharedLabels, StringComparison.Ordinal);
        var code = (await guild.Get<ClassPlanning>().Plan(id))!.Kits[0].Code;
        var request = new DefaultHttpContext { Request = { Scheme = "http", Host = new HostString("127.0.0.1", 5210) } }.Request;
        Assert.Equal($"http://192.0.2.7:5210/bag/{code}", guild.Get<ShareAddress>().Of(request, PageAddresses.Bag(code)));
    }

    [Theory]
    [InlineData("localhost", false)]
    [InlineData("127.0.0.1", false)]
    [InlineData("[::1]", false)]
    [InlineData("192.0.2.7", true)]
    [InlineData("hall.example", true)]
    public void Phones_FollowNoAddressOfThisMachineAlone(string host, bool reaches)
    {
        var request = new DefaultHttpContext { Request = { Scheme = "http", Host = new HostString(host, 5210) } }.Request;
        Assert.Equal(reaches, new ShareAddress().LeadsHere(request));
        Assert.Equal($"http://{host}:5210/bag/X", new ShareAddress().Of(request, "/bag/X"));
    }

    [Fact]
    public async Task Labels_OnASheetOfOnesOwn_AreLaidOutByItsMeasures()
    {
        const string measures = "labels?sheet=own&own.columns=2&own.rows=4&own.width=3.5&own.height=2&own.left=0.5&own.top=1&own.pitchAcross=4&own.pitchDown=";
        var (_, good) = await host.Client.Get(Page(measures + "2 1/4"));
        var (_, bad) = await host.Client.Get(Page(measures + "4 1/0"));
        var (_, wide) = await host.Client.Get(Page(measures + "1"));

        Assert.Equal(2, good.Split("<svg xmlns").Length - 1);
        Assert.Contains("4 1/0", FormClient.Words(bad), StringComparison.Ordinal);
        Assert.Contains("value=\"4 1/0\"", bad, StringComparison.Ordinal);
        Assert.Contains("overlap", FormClient.Words(wide), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("labels?sheet=letter-3x10&from=31", "31 is not on the sheet, which has labels 1 to 30")]
    [InlineData("labels?sheet=letter-3x10&from=0", "0 is not on the sheet")]
    [InlineData("labels?sheet=own&own.columns=200&own.rows=200&own.width=0.04&own.height=0.05&own.left=0&own.top=0&own.pitchAcross=0.04&own.pitchDown=0.05", "too small to read")]
    [InlineData("labels?sheet=own&own.columns=0&own.rows=x&own.width=-1&own.height=&own.left=0&own.top=0&own.pitchAcross=4&own.pitchDown=1", "is not a whole number from 1 to 200")]
    public async Task Labels_ThatCannotBeLaidOut_AreRefusedWithTheReason(string address, string reason)
    {
        var (status, html) = await host.Client.Get(Page(address));

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains(reason, FormClient.Words(html), StringComparison.Ordinal);
        Assert.DoesNotContain("<svg xmlns", html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("labels?sheet=nonsense")]
    [InlineData("labels?from=-3")]
    [InlineData("labels?from=abc")]
    [InlineData("handouts?paper=papyrus")]
    [InlineData("handouts?large=maybe")]
    [InlineData("all?paper=papyrus")]
    public async Task OddChoices_StillGiveAPage(string address) => Assert.Equal(HttpStatusCode.OK, (await host.Client.Get(Page(address))).Status);

    [Theory]
    [InlineData("handouts?kit=9999")]
    [InlineData("tickets?fabric=9999")]
    public async Task AKitOrFabricThatIsNotThere_IsNotFound(string address) => Assert.Equal(HttpStatusCode.NotFound, (await host.Client.Get(Page(address))).Status);

    [Fact]
    public async Task Workbook_Downloads_UnderTheClasssName()
    {
        using var client = host.Guild.CreateClient();
        using var response = await client.GetAsync(new Uri(Page("workbook"), UriKind.Relative), TestContext.Current.CancellationToken);

        Assert.Equal("Corner-Star-cushion.xlsx", response.Content.Headers.ContentDisposition!.FileNameStar ?? response.Content.Headers.ContentDisposition.FileName);
        using var book = new XLWorkbook(new MemoryStream(await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken)));
        Assert.Contains(book.Worksheets, sheet => sheet.Name == "Kits");
    }

    [Fact]
    public void LabelSheets_FitTheirPaper()
    {
        // Letter 8 1/2 x 11 in: ANSI/ASME Y14.1. A4 210 x 297 mm: ISO 216.
        Assert.All(LabelSheet.Usual, sheet =>
        {
            Assert.Empty(sheet.Misfits());
            Assert.NotEmpty((sheet with { Columns = sheet.Columns + 3 }).Misfits());
            Assert.NotEmpty((sheet with { Rows = sheet.Rows + 6 }).Misfits());
            Assert.NotEmpty((sheet with { PitchDown = sheet.Height - Length.FromTicks(1) }).Misfits());
        });

        // Generic 30-up address sheet: wiki.trackandtrace.tools label templates; 2(0.1875) + 3(2.625) + 2(0.125) = 8.5 and 2(0.5) + 10(1) = 11.
        var thirty = LabelSheet.Usual.Single(sheet => sheet.Key == "letter-3x10");
        var (right, bottom) = thirty.Place(29);
        Assert.Equal(thirty.PaperWidth, right + thirty.Width + thirty.Left);
        Assert.Equal(thirty.PaperHeight, bottom + thirty.Height + thirty.Top);
    }

    [Fact]
    public void QrCode_HasModulesThatAPrinterCanPrint_OrIsLeftOut()
    {
        const string address = "http://127.0.0.1:5210/bag/ABCDEF";

        Assert.Null(QrSquare.Of(address, 8m));
        var code = QrSquare.Of(address, 24m)!;

        // 33 bytes at level M are version 3 (ISO/IEC 18004): 29 modules and a quiet zone of 4 on each side.
        Assert.InRange(code.Side / 37m, QrSquare.LeastModule, 24m / 37m);
    }
}
