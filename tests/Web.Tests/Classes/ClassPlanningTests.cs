using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

public sealed class ClassPlanningTests : IDisposable
{
    private readonly GuildHost guild = new();

    [Fact]
    public async Task Plan_IsStoredOnceAndTakenFromTheStoreAfter()
    {
        var classId = await SampleGuild.Fill(guild);
        var first = (await guild.Get<ClassPlanning>().Plan(classId))!;
        var stored = guild.Get<PlanStore>().ForClass(classId);
        Assert.Equal(first.Fabrics.Select(fabric => fabric.FabricId).Order(), stored.Keys.Order());

        // Another run of the program has nothing in memory.
        var afresh = new PlanBook(guild.Get<PlanStore>());
        var kept = await afresh.PlanAndKeep(classId, [.. first.Fabrics.Select(fabric => new FabricRequest(fabric.FabricId, fabric.Request, guild.Get<ClassPlanning>().Materials(classId)!.ShelfOf(fabric.FabricId).Select(piece => piece.Id).ToList()))]);
        Assert.Equal(first.Fabrics.Select(fabric => StoredJson.Write(fabric.Plan)), kept.Select(item => StoredJson.Write(item.Result.Plan)));
        Assert.Equal(stored.Select(plan => plan.Value.PlannedAt), guild.Get<PlanStore>().ForClass(classId).Select(plan => plan.Value.PlannedAt));
    }

    [Fact]
    public async Task Plan_OfKitsThatHaveNoColourwayYet_DoesNotSayThatThereAreNoKits()
    {
        var classId = await SampleGuild.Fill(guild);
        var materials = guild.Get<ClassPlanning>().Materials(classId)!;
        var plan = await guild.Get<ClassPlanning>().Plan(materials with { Kits = [.. materials.Kits.Select(kit => kit with { ColourwayId = null })] });
        Assert.Equal("colourways", Assert.Single(plan.Problems).Field);
    }

    [Fact]
    public async Task Settlement_PlansTheCostThatThePricePageShows()
    {
        var classId = await SampleGuild.Fill(guild);
        var materials = guild.Get<ClassPlanning>().Materials(classId)!;
        materials = materials with { Record = materials.Record with { LabourPerHour = 30m, Packaging = 0.35m } };
        var plan = await guild.Get<ClassPlanning>().Plan(materials);
        var outcome = SettlementBook.Of(materials, plan, Bags.Of(plan, guild.Get<MarkDesk>().Table(classId), []), new ClothRecords([], [], [], [])).Outcome!;
        var planned = ClassPricing.Of(materials.Record, plan).Cost!.Total / plan.Kits.Count;
        Assert.Equal(decimal.Ceiling(planned * 100m) / 100m, outcome.PlannedPerKit);
    }

    [Fact]
    public async Task Plan_DemandIsTheSumOfTheBags()
    {
        var classId = await SampleGuild.Fill(guild);
        var plan = (await guild.Get<ClassPlanning>().Plan(classId))!;
        foreach (var fabric in plan.Fabrics)
        {
            var bagged = plan.Kits.SelectMany(plan.LinesOf).Where(line => line.Fabric?.FabricId == fabric.FabricId).Sum(line => line.Count);
            Assert.Equal(bagged, fabric.Request.Pieces.Sum(piece => piece.Count));
        }
    }

    [Fact]
    public async Task Plan_OfAPrintedClass_DoesNotChangeWithTheShelf()
    {
        var classId = await SampleGuild.Fill(guild);
        var planning = guild.Get<ClassPlanning>();
        var before = (await planning.Plan(classId))!;
        await planning.SetAside(classId);
        await guild.Get<ClassStore>().MarkPrinted(classId);

        var fabrics = guild.Get<FabricStore>();
        foreach (var fabric in fabrics.All())
        {
            await fabrics.Save(fabric with { Price = 99m });
            await guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = fabric.Id, Kind = "length", Width = fabric.UsableWidth, Length = Length.FromYards(5) });
        }

        var after = (await planning.Plan(classId))!;
        Assert.Equal(before.Fabrics.Select(fabric => StoredJson.Write(fabric.Plan)), after.Fabrics.Select(fabric => StoredJson.Write(fabric.Plan)));
    }

    [Fact]
    public async Task SetAside_TakesTheClothFromOtherClasses()
    {
        var one = await SampleGuild.Fill(guild);
        var planning = guild.Get<ClassPlanning>();
        var plan = (await planning.Plan(one))!;
        var used = plan.Fabrics.Where(fabric => fabric.Plan!.Sheets.Count > 0).Select(fabric => fabric.FabricId).ToList();
        Assert.NotEmpty(used);
        await planning.SetAside(one);
        Assert.All(guild.Get<ShelfStore>().All(), piece => Assert.Equal(one, piece.ReservedClassId));
        Assert.Empty(guild.Get<ShelfStore>().ForClass(one + 1000, used));
    }

    [Fact]
    public async Task Plan_WithoutAColourway_NamesWhoIsMissing()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        await guild.Get<RosterStore>().Add(classId, [new Student { Name = "Ines Corral" }]);
        var plan = (await guild.Get<ClassPlanning>().Plan(classId))!;
        var problem = Assert.Single(plan.Problems);
        Assert.Contains("Ines Corral", problem.Message, StringComparison.Ordinal);
        Assert.Contains("1 of 4 kits has no colourway", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(10)]
    [InlineData(1000)]
    public async Task KitNumbers_Scaled_AddUpToTheTotal(int kits)
    {
        var classId = await SampleGuild.Fill(guild, students: 7);
        var plan = (await guild.Get<ClassPlanning>().Plan(classId))!;
        var scaled = KitNumbers.Scaled(plan, kits);
        Assert.Equal(kits, scaled.Values.Sum());
        Assert.True(kits != plan.Kits.Count || scaled.All(pair => KitNumbers.Of(plan)[pair.Key] == pair.Value));
    }

    [Fact]
    public void KitMarks_UndoOfAnUndo_StandsAgain()
    {
        KitMark Mark(long sequence, string state, Guid? undoes = null) => new() { Sequence = sequence, Id = Guid.NewGuid(), KitId = 1, Line = "A", State = state, Undoes = undoes };
        var cut = Mark(1, "cut");
        var bagged = Mark(2, "bagged");
        var undo = Mark(3, "undo", bagged.Id);
        var again = Mark(4, "undo", undo.Id);
        Assert.Equal("cut", KitMarks.Standing([cut, bagged, undo])[(1, "A")].State);
        Assert.Equal("bagged", KitMarks.Standing([cut, bagged, undo, again])[(1, "A")].State);
    }

    public void Dispose() => guild.Dispose();
}
