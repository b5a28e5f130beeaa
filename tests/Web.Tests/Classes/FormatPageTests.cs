using System.Net;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Workbook;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Classes;

/// <summary>A format that is chosen for a fabric, and what follows from it on every page of the class.</summary>
public sealed class FormatPageTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public FormatPageTests() => pages = new PageClient(guild);

    [Fact]
    public async Task Page_ShowsFormatsSideBySide_WithReasonsAndPictures()
    {
        var classId = await SampleGuild.Fill(guild);
        var html = WebUtility.HtmlDecode(await pages.Get($"/classes/{classId}/formats"));

        // The star's points are cut from 4 in squares: they fit a 5 in square, and no 2½ in strip.
        Assert.Contains("“B: 4″ square” does not fit; a 2½″ strip has 40″ × 2½″ to cut from.", html, StringComparison.Ordinal);
        Assert.Contains("Least preparation time", html, StringComparison.Ordinal);
        Assert.Contains("<svg", html[html.IndexOf("class=\"pictures\"", StringComparison.Ordinal)..], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Squares_CutByTheTeacher_FlowIntoPlanBagsHandoutAndWorkbook()
    {
        var classId = await SampleGuild.Fill(guild);
        var before = await Plan(classId);
        var indigo = Id("Indigo");
        await Choose(classId, indigo, FormatCodes.TenInchSquares, "cut");

        // Two 4 in squares for each kit in Dusk, and both come of one 10 in square.
        var plan = await Plan(classId);
        var dusk = plan.Colourways.Single(way => way.Name == "Dusk");
        var kits = plan.Kits.Count(kit => kit.ColourwayId == dusk.ColourwayId);
        var ten = Length.FromInches(10);
        var asked = Assert.Single(plan.Fabric(indigo).Request.Pieces);
        Assert.Equal((ten, ten, kits), (asked.Width, asked.Height, asked.Count));
        Assert.Equal(Others(before, indigo), Others(plan, indigo));

        var kit = plan.Kits.First(kit => kit.ColourwayId == dusk.ColourwayId);
        var line = Assert.Single(plan.LinesOf(kit), line => line.Fabric?.FabricId == indigo);
        Assert.Equal((1, "10″ square"), (line.Count, line.Size(plan.Habits)));
        Assert.Equal(plan.LinesOf(kit).Select(line => line.Key).Distinct(), PackLine.Of(plan.BagOf(dusk).List).Select(line => line.Key));
        Assert.Contains("10″ square × 1", FormClient.Words(await pages.Get($"/bag/{kit.Code}")), StringComparison.Ordinal);
        Assert.Contains("Goes into the bags as 10″ square: cut no further", FormClient.Words(await pages.Get($"/classes/{classId}/cut")), StringComparison.Ordinal);
        Assert.Contains("Goes into the bags as 10″ square", FormClient.Words(await pages.Get($"/classes/{classId}/print/tickets?fabric={indigo}")), StringComparison.Ordinal);
        var handout = FormClient.Words(await pages.Get($"/classes/{classId}/print/handouts?kit={kit.Number}"));
        Assert.Contains("B · Indigo: 10″ square", handout, StringComparison.Ordinal);
        Assert.Contains("Cut 2 of 4″ square", handout, StringComparison.Ordinal);
        using var book = new ClosedXML.Excel.XLWorkbook(new MemoryStream(KitWorkbook.Build(plan, guild.Get<ClassStore>().Find(classId)!)));
        Assert.Contains(book.Worksheet("Kits").RowsUsed(), row => row.Cell(5).GetString() == "Indigo: 10″ square" && row.Cell(6).GetDouble() == 10);

        // A student in the other colourway sees nothing of it.
        var other = plan.Kits.First(kit => plan.ColourwayOf(kit)?.Name == "Harvest");
        Assert.DoesNotContain("Cut your pieces", await pages.Get($"/classes/{classId}/print/handouts?kit={other.Number}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Precuts_Bought_AreListedInPacks_PricedAndSettled_AndNotCut()
    {
        var classId = await SampleGuild.Fill(guild);
        var indigo = Id("Indigo");
        await Price(classId, 1, "9.90");
        await Choose(classId, indigo, FormatCodes.FiveInchSquares, "bought");

        // A 4 in square is all that a 5 in square gives: two for each kit.
        var plan = await Plan(classId);
        var squares = 2 * plan.Kits.Count(kit => plan.ColourwayOf(kit)?.Name == "Dusk");
        Assert.Equal((squares, 9.90m), (plan.Fabric(indigo).Request.Pieces.Sum(piece => piece.Count), plan.Fabric(indigo).Plan!.Buy.Cost));
        Assert.DoesNotContain(plan.Fabric(indigo).FabricId, guild.Get<ShelfClaimStore>().OfClass(classId).Select(claim => guild.Get<ShelfStore>().Find(claim.ShelfPieceId)!.FabricId));
        var record = guild.Get<ClassStore>().Find(classId)!;
        Assert.Equal(plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost), ClassPricing.Of(record, plan).Request.FabricBought);
        Assert.Contains("1 pack of 42 × 5″ square", FormClient.Words(await pages.Get($"/classes/{classId}/cut")), StringComparison.Ordinal);
        Assert.DoesNotContain("Indigo", FormClient.Words(await pages.Get($"/classes/{classId}/print/tickets")), StringComparison.Ordinal);

        var list = $"/classes/{classId}/shopping";
        var (status, _) = await pages.Post(list, $"{list}?handler=Bought", ("Form.FabricId", $"{indigo}"), ("Form.Packs", "1"), ("Form.Paid", "9.50"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Contains("Bought 42 × 5″ square for $9.50", FormClient.Words(await pages.Get(list)), StringComparison.Ordinal);

        // What the kits do not take is left over, and the account closes to the tick.
        var settle = $"/classes/{classId}/settle";
        await pages.Post(settle, $"{settle}?handler=Left", ("Form.FabricId", $"{indigo}"), ("Form.Width", "5"), ("Form.Length", "5"), ("Form.Count", $"{42 - squares}"), ("Form.ToShelf", "true"));
        var words = FormClient.Words(await pages.Get(settle));
        Assert.Contains("42 precuts bought for $9.50", words, StringComparison.Ordinal);
        var left = Assert.Single(guild.Get<ShelfStore>().All(), piece => piece.FabricId == indigo && piece.Width == Length.FromInches(5));
        Assert.Equal(42 - squares, left.Count);
        var purchase = Assert.Single(guild.Get<SettlingStore>().Purchases(classId));
        Assert.Equal(42, purchase.Count);
        var account = SettlementOf(classId, await Plan(classId)).Fabrics.Single(fabric => fabric.FabricId == indigo).Account;
        Assert.Equal(Length.Zero, account.Difference);
    }

    [Fact]
    public async Task Mix_IsChosenInOnePress_AndCostsWhatThePageSaid()
    {
        var classId = await SampleGuild.Fill(guild);
        var planning = guild.Get<ClassPlanning>();
        var table = FormatTable.Of(planning, planning.Materials(classId)!, await Plan(classId));
        var quickest = FormatTable.Best(table, row => row.BestByTime)!;
        var address = $"/classes/{classId}/formats";
        var (status, _) = await pages.Post(address, $"{address}?handler=Mix", ("best", "time"), ("version", "1"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var plan = await Plan(classId);
        Assert.Equal(quickest.Cost, plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost));
        Assert.All(quickest.Rows, row => Assert.Equal(row.Choice.Format, plan.Fabric(row.Choice.FabricId).Format));
        Assert.True(quickest.Minutes < new FormatMix([.. table.Select(fabric => fabric.Rows[0])]).Minutes);
    }

    [Fact]
    public async Task Choice_FromAPageThatIsOutOfDate_ChangesNothing()
    {
        var classId = await SampleGuild.Fill(guild);
        await Choose(classId, Id("Indigo"), FormatCodes.TenInchSquares, "cut");
        var address = $"/classes/{classId}/formats";
        var (status, text) = await pages.Post(address, $"{address}?handler=Choose", ("fabricId", $"{Id("Indigo")}"), ("format", FormatCodes.FatQuarter), ("way", "cut"), ("version", "1"));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains("Somebody changed the formats", text, StringComparison.Ordinal);
        Assert.Equal(FormatCodes.TenInchSquares, (await Plan(classId)).Fabric(Id("Indigo")).Format);
    }

    [Theory]
    [InlineData("strips-2.5", "cut", "Choose a larger cut")]
    [InlineData("squares-5", "bought", "Type the price of a pack below first")]
    [InlineData("half-moons", "cut", "is not a format of this class")]
    public async Task Choice_ThatCannotBe_IsRefusedWithTheReason(string format, string way, string says)
    {
        var classId = await SampleGuild.Fill(guild);
        var address = $"/classes/{classId}/formats";
        var (status, text) = await pages.Post(address, $"{address}?handler=Choose", ("fabricId", $"{Id("Indigo")}"), ("format", format), ("way", way), ("version", "1"));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(says, text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<FormatStore>().ForClass(classId).Choices);
    }

    [Theory]
    [InlineData("Length", "wide", "The length of the small square")]
    [InlineData("Length", "0", "it must be longer than nothing")]
    [InlineData("Width", "900", "it may be 72″ at most")]
    [InlineData("PackSize", "0", "How many are in a pack (small square) is “0”")]
    [InlineData("PackPrice", "-2", "The price of a pack (small square) is -2")]
    [InlineData("PackPrice", "0", "leave it empty where it is not known")]
    [InlineData("PinkedMargin", "3", "The margin of the small square is 3")]
    public async Task Precuts_ThatCannotBe_AreSaidAtTheirField(string field, string typed, string says)
    {
        var classId = await SampleGuild.Fill(guild);
        var (status, text) = await Precuts(classId, 1, 1, (field, typed));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(says, text, StringComparison.Ordinal);
        Assert.Contains($"name=\"Form.Lines[1].{field}\" value=\"{typed}\"", text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<FormatStore>().ForClass(classId).Precuts);
    }

    [Fact]
    public async Task Precuts_ThatBecomeTooSmall_AreToldAndTheFabricIsCutIntoPieces()
    {
        var classId = await SampleGuild.Fill(guild);
        await Price(classId, 1, "9.90");
        await Choose(classId, Id("Indigo"), FormatCodes.FiveInchSquares, "bought");

        // Makers' pinked squares can lose up to ¼ in at each edge (Quilting Daily, "Pinked Edges on Pre-Cuts", 18 October 2022);
        // ⅝ in is more than any, and leaves 3¾ in of the 5 in: no 4 in square.
        var (status, _) = await Precuts(classId, 3, 1, ("PinkedMargin", "5/8"), ("PackPrice", "9.90"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var plan = await Plan(classId);
        Assert.Contains(plan.Problems, problem => problem.Message.Contains("Indigo cannot go into the bags as chosen. “B: 4″ square” does not fit; a 5″ square has 3¾″ square to cut from.", StringComparison.Ordinal));
        Assert.Equal((FormatCodes.CutPieces, false), (plan.Fabric(Id("Indigo")).Format, plan.Fabric(Id("Indigo")).IsBought));
        Assert.Equal(Length.FromInches(4), Assert.Single(plan.Fabric(Id("Indigo")).Request.Pieces).Width);
    }

    [Fact]
    public async Task Copy_KeepsFormatsAndPrecuts()
    {
        var classId = await SampleGuild.Fill(guild);
        await Price(classId, 1, "9.90");
        await Choose(classId, Id("Indigo"), FormatCodes.FiveInchSquares, "bought");
        var copy = await guild.Get<ClassStore>().Copy(classId, "The same again", withRoster: true);
        Assert.True((await Plan(copy)).Fabric(Id("Indigo")).IsBought);
    }

    private async Task<ClassPlan> Plan(long classId) => (await guild.Get<ClassPlanning>().Plan(classId))!;

    private long Id(string fabric) => guild.Get<FabricStore>().All().Single(item => item.Name == fabric).Id;

    private async Task Choose(long classId, long fabricId, string format, string way)
    {
        var address = $"/classes/{classId}/formats";
        var version = guild.Get<FormatStore>().ForClass(classId).Version;
        var (status, text) = await pages.Post(address, $"{address}?handler=Choose", ("fabricId", $"{fabricId}"), ("format", format), ("way", way), ("version", $"{version}"));
        Assert.True(status == HttpStatusCode.Redirect, text);
    }

    private async Task Price(long classId, int line, string price)
    {
        var (status, text) = await Precuts(classId, 1, line, ("PackPrice", price));
        Assert.True(status == HttpStatusCode.Redirect, text);
    }

    private Task<(HttpStatusCode Status, string Text)> Precuts(long classId, long version, int line, params (string Field, string Typed)[] typed)
    {
        var fields = ClassPrecuts.Usual.Rows.SelectMany((row, index) => new[]
        {
            ($"Form.Lines[{index}].Format", row.Format), ($"Form.Lines[{index}].Width", row.Width is { } width ? $"{width}" : ""), ($"Form.Lines[{index}].Length", $"{row.Length}"),
            ($"Form.Lines[{index}].PackSize", $"{row.PackSize}"), ($"Form.Lines[{index}].PackPrice", ""), ($"Form.Lines[{index}].PinkedMargin", "0"),
        }).ToDictionary();
        foreach (var (field, value) in typed)
        {
            fields[$"Form.Lines[{line}].{field}"] = value;
        }

        var address = $"/classes/{classId}/formats";
        return pages.Post(address, $"{address}?handler=Precuts", [.. fields.Select(field => (field.Key, field.Value)), ("Form.Version", $"{version}")]);
    }

    private Web.Settling.ClassSettlement SettlementOf(long classId, ClassPlan plan) => Web.Settling.SettlementBook.Of(
        guild.Get<ClassPlanning>().Materials(classId)!,
        plan,
        Bags.Of(plan, guild.Get<MarkDesk>().Table(classId), []),
        new(guild.Get<SettlingStore>().Purchases(classId), [], guild.Get<SettlingStore>().Leftovers(classId), []));

    private static string Others(ClassPlan plan, long fabricId) =>
        StoredJson.Write(plan.Fabrics.Where(fabric => fabric.FabricId != fabricId).Select(fabric => (fabric.FabricId, fabric.Plan!.Buy.Cost, fabric.Plan.Length.Ticks).ToString()));

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
