using System.Net;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Pages;

/// <summary>Who gets a kit: nobody yet, kits without a roster, a waiting list, and what changes at once when somebody comes.</summary>
public sealed class EnrolmentTests : IDisposable
{
    private static readonly string[] Stages = ["", "/roster", "/fabrics", "/formats", "/cut", "/room", "/shopping", "/supply", "/price", "/price?curve=true", "/print", "/pack", "/settle"];

    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public EnrolmentTests() => pages = new PageClient(guild);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public async Task ClassOfNobody_OpensOnEveryPage_AndSaysWhatIsMissing(int sample)
    {
        var classId = await SampleGuild.Fill(guild, students: 0);
        await Change(classId, record => record with { SpareKits = 0, SampleKits = sample });

        foreach (var stage in Stages)
        {
            Assert.DoesNotContain("NaN", await pages.Get($"/classes/{classId}{stage}"), StringComparison.Ordinal);
        }

        var plan = (await guild.Get<ClassPlanning>().Plan(classId))!;
        Assert.Equal(sample, plan.Kits.Count);
        Assert.Contains("nobody yet", Words(await pages.Get($"/classes/{classId}")), StringComparison.Ordinal);
        if (sample == 0)
        {
            Assert.Contains("There is nothing to cut yet.", Words(await pages.Get($"/classes/{classId}/cut")), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("Form.Places", "0", "Places")]
    [InlineData("Form.Places", "-4", "Places")]
    [InlineData("Form.KitsOnly", "0", "The number of kits")]
    [InlineData("Form.KitsOnly", "a dozen", "The number of kits")]
    public async Task Enrolment_ThatIsNone_IsToldAtItsField(string field, string typed, string named)
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var before = guild.Get<ClassStore>().Find(classId)!;

        var (status, text) = await pages.Post($"/classes/{classId}/change", $"/classes/{classId}/change", Form(before, (field, typed)));

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Matches($"data-valmsg-for=\"{field}\"[^>]*>[^<]*{named}[^<]*{typed}", text);
        Assert.Contains($"value=\"{typed}\"", text, StringComparison.Ordinal);
        Assert.Equal(before, guild.Get<ClassStore>().Find(classId));
    }

    [Fact]
    public async Task KitsWithoutARoster_ArePlannedPricedAndPacked_AndClaimedByARosterLater()
    {
        var classId = await SampleGuild.Fill(guild, students: 0);
        var before = guild.Get<ClassStore>().Find(classId)!;
        var (status, _) = await pages.Post($"/classes/{classId}/change", $"/classes/{classId}/change", Form(before, ("Form.KitsOnly", "20")));
        Assert.Equal(HttpStatusCode.Redirect, status);

        // Twenty kits to claim beside the spare and the sample, all planned; the twenty are paid for.
        var planning = guild.Get<ClassPlanning>();
        var plan = (await planning.Plan(classId))!;
        Assert.Equal(20, plan.Kits.Count(kit => kit.Role == KitRole.Open));
        Assert.Equal(20, ClassPricing.Of(guild.Get<ClassStore>().Find(classId)!, plan).Request.PaidKits);
        Assert.All(plan.Fabrics, fabric => Assert.NotNull(fabric.Plan));
        Assert.Contains("This class makes 20 kits to be claimed later", Words(await pages.Get($"/classes/{classId}/roster")), StringComparison.Ordinal);
        Assert.Contains("Kit to claim", Words(await pages.Get($"/classes/{classId}/pack")), StringComparison.Ordinal);

        // The first two are packed; then the class gets a roster, and its students take them over as they are, each in her own colours.
        var packed = guild.Get<KitStore>().ForClass(classId).Where(kit => kit.Role == "open").Take(2).ToList();
        await guild.Get<MarkDesk>().Mark(classId, [.. packed.Select(kit => new NewMark(Guid.NewGuid(), kit.Id, PackLine.Of(plan.CutList)[0].Key, KitState.Bagged, "Tove"))]);
        var changed = guild.Get<ClassStore>().Find(classId)!;
        await pages.Post($"/classes/{classId}/change", $"/classes/{classId}/change", Form(changed, ("Form.KitsOnly", "")));
        var names = guild.Get<ColourwayStore>().ForClass(classId).ToDictionary(way => way.Id, way => way.Name);
        var lines = packed.Select((kit, at) => $"Member {at + 1}; ; {names[kit.ColourwayId!.Value]}");
        await pages.Post($"/classes/{classId}/roster", $"/classes/{classId}/roster?handler=Paste", ("Lines", string.Join('\n', lines)));
        var claimed = guild.Get<KitStore>().ForClass(classId).Where(kit => kit.Role == "student").ToList();
        Assert.Equal(packed.Select((kit, at) => (kit.Id, kit.Number, kit.Code, kit.ColourwayId, (string?)$"Member {at + 1}")), claimed.Select(kit => (kit.Id, kit.Number, kit.Code, kit.ColourwayId, kit.StudentName)));
        Assert.DoesNotContain((await planning.Plan(classId))!.Kits, kit => kit.Role == KitRole.Open);
    }

    [Fact]
    public async Task Student_WhoWaits_HasNoKit_AndGetsOneWithItsClothWhenAPlaceIsFree()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var planning = guild.Get<ClassPlanning>();
        var before = (await planning.Plan(classId))!;
        var address = $"/classes/{classId}/roster";
        await pages.Post(address, $"{address}?handler=Paste", ("Lines", "Xu Wei; ; Dusk; waiting"));

        Assert.Equal(Pieces(before), Pieces((await planning.Plan(classId))!));
        Assert.DoesNotContain((await planning.Plan(classId))!.Kits, kit => kit.Name == "Xu Wei");

        var waiting = guild.Get<RosterStore>().ForClass(classId).Single(student => student.Waiting);
        await pages.Post($"{address}/{waiting.Id}", $"{address}/{waiting.Id}", ("Form.Name", waiting.Name), ("Form.ColourwayId", $"{waiting.ColourwayId}"), ("Form.Version", $"{waiting.Version}"));

        // Ten pieces of the ground, two points, and a middle of its own: one kit more by the block (arithmetic).
        var after = (await planning.Plan(classId))!;
        Assert.Contains(after.Kits, kit => kit.Name == "Xu Wei");
        Assert.Equal(Pieces(before) + before.CutList.Fabrics.Sum(fabric => fabric.Pieces.Sum(piece => piece.Count)), Pieces(after));
    }

    [Fact]
    public async Task Room_AfterOneMoreSignsUp_IsOneLess()
    {
        var classId = await SampleGuild.Fill(guild, students: 6);
        await guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Linen ground").Id, Kind = "bolt", Width = KittingBee.Planning.Measures.Length.FromInches(40), Length = KittingBee.Planning.Measures.Length.FromInches(60) });
        var (rooms, plans) = (guild.Get<RoomBook>(), guild.Get<ClassPlanning>());
        var planned = (await plans.Plan(classId))!;
        var dusk = rooms.Of(plans.Materials(classId)!, planned).Single(room => room.Way.Name == "Dusk");
        Assert.True(dusk.Kits > 0, "The case is of use only where there is room.");

        var address = $"/classes/{classId}/roster";
        await pages.Post(address, $"{address}?handler=Paste", ("Lines", "Xu Wei; ; Dusk"));

        var then = rooms.Of(plans.Materials(classId)!, (await plans.Plan(classId))!).Single(room => room.Way.Name == "Dusk");
        Assert.Equal(dusk.Kits - 1, then.Kits);
        Assert.Contains(then.Kits == 0 ? "Dusk: No more kit fits" : $"Dusk: {then.Kits} more kit", Words(await pages.Get($"/classes/{classId}/fabrics")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Curve_WhileSomebodyHasNoColourway_IsNotOfferedAndSaysWhy()
    {
        var classId = await SampleGuild.Fill(guild, students: 3);
        Assert.Contains("Show other numbers of students", await pages.Get($"/classes/{classId}/price"), StringComparison.Ordinal);
        var address = $"/classes/{classId}/roster";
        await pages.Post(address, $"{address}?handler=Paste", ("Lines", "Guest"));

        var shown = await pages.Get($"/classes/{classId}/price?curve=true");

        Assert.Contains("Other numbers of students can be shown once everything is planned.", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("Show other numbers of students", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Spread_OfStudentsWithoutAColourway_IsEven_AndLeavesChoicesAlone()
    {
        var classId = await SampleGuild.Fill(guild, students: 3);
        var address = $"/classes/{classId}/roster";
        await pages.Post(address, $"{address}?handler=Paste", ("Lines", string.Join('\n', Enumerable.Range(1, 6).Select(number => $"Guest {number}"))));
        var chosen = guild.Get<RosterStore>().ForClass(classId).Where(student => student.ColourwayId is not null).ToDictionary(student => student.Id, student => student.ColourwayId);

        await pages.Post($"/classes/{classId}/fabrics", $"/classes/{classId}/fabrics?handler=Spread");

        // Nine students in two colourways.
        var students = guild.Get<RosterStore>().ForClass(classId);
        Assert.Equal([4, 5], students.CountBy(student => student.ColourwayId!.Value).Select(pair => pair.Value).Order());
        Assert.All(chosen, pair => Assert.Equal(pair.Value, students.Single(student => student.Id == pair.Key).ColourwayId));
    }

    private static int Pieces(ClassPlan plan) => plan.Fabrics.Sum(fabric => fabric.Request.Pieces.Sum(piece => piece.Count));

    private static string Words(string html) => FormClient.Words(html);

    private async Task Change(long classId, Func<ClassRecord, ClassRecord> change) =>
        Assert.Equal(Saved.Done, await guild.Get<ClassStore>().Save(change(guild.Get<ClassStore>().Find(classId)!)));

    private static (string Name, string Value)[] Form(ClassRecord record, (string Name, string Value) typed)
    {
        var form = new Dictionary<string, string>
        {
            ["Form.Title"] = record.Title, ["Form.Version"] = $"{record.Version}", ["Form.Units"] = "inches", ["Form.Paper"] = "letter", ["Form.Currency"] = "USD", ["Form.HeldOn"] = "2031-04-12",
            ["Form.SeamAllowance"] = "1/4", ["Form.CuttingStep"] = "1/8", ["Form.BlocksPerKit"] = "1", ["Form.Layers"] = "4", ["Form.LongestStrip"] = "24", ["Form.SquaringUp"] = "0",
            ["Form.SpareKits"] = "1", ["Form.SampleKits"] = "1", ["Form.SparePercent"] = "0", ["Form.PromisePercent"] = "95", ["Form.Places"] = "12",
        };
        form[typed.Name] = typed.Value;
        return [.. form.Select(pair => (pair.Key, pair.Value))];
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
