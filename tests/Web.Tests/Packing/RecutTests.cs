using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Where pieces are cut from again: this class's leftovers, then the shelf, then new cloth.</summary>
public sealed class RecutTests(GuildHost guild) : IClassFixture<GuildHost>
{
    [Fact]
    public async Task Recut_LeftoverMeasured_IsCutFromItAndNotFromTheShelf()
    {
        var (id, fabric) = await ClassWithShortage(2);
        await Shelve(fabric, 42, 18);
        await guild.Get<SettlingStore>().AddLeftover(Left(id, fabric, 10, 10));

        var item = Assert.Single(await Tickets(id));
        Assert.Equal("Left over: 10″ square", Assert.Single(item.Ticket!.Plan.Sheets).Name);
        Assert.Empty(item.Ticket.Plan.Strips);
    }

    [Fact]
    public async Task Recut_LeftoverTooSmall_IsCutFromTheShelf()
    {
        var (id, fabric) = await ClassWithShortage(2);
        await Shelve(fabric, 42, 18);
        await guild.Get<SettlingStore>().AddLeftover(Left(id, fabric, 3, 40));

        var item = Assert.Single(await Tickets(id));
        Assert.StartsWith("Shelf: ", Assert.Single(item.Ticket!.Plan.Sheets).Name.ToString(), StringComparison.Ordinal);
        Assert.Empty(item.Ticket.Plan.Strips);
    }

    [Fact]
    public async Task Recut_PlanCutsRemnantsOfOneSizeWithDifferentNotes_ReckonsThemTogether()
    {
        var id = await ExampleClass.Store(guild, 4);
        var fabric = guild.Get<ColourwayStore>().ForClass(id)[0].FabricOfLetter["A"];
        foreach (var note in new[] { "top drawer", "bottom drawer" })
        {
            // Each holds two squares of 4½ in and two of 5 in at most, which is half of the class's need.
            await guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = fabric, Kind = "remnant", Width = Length.FromInches(10), Length = Length.FromInches(10), Note = note });
        }

        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        Assert.Equal(2, SettlementBook.FromShelf(plan.Fabrics.Single(planned => planned.FabricId == fabric)).Count());
        await ReportShort(id, plan, 1);

        // Both are cut already, so the piece cannot come from them.
        Assert.Empty(Assert.Single(await Tickets(id)).Ticket!.Plan.Sheets);
    }

    [Fact]
    public async Task Recut_NothingLeftAnywhere_NeedsNewCloth()
    {
        var (id, fabric) = await ClassWithShortage(1);
        await guild.Get<SettlingStore>().AddLeftover(Left(id, fabric, 3, 3));

        var item = Assert.Single(await Tickets(id));
        Assert.Empty(item.Ticket!.Plan.Sheets);
        Assert.True(item.Ticket.Plan.Buy.Length.IsPositive);
    }

    [Fact]
    public async Task Recut_Mended_LeavesTheTicketAndCountsInTheAccount()
    {
        var (id, fabric) = await ClassWithShortage(2);
        var shortage = Assert.Single(guild.Get<ShortageStore>().ForClass(id));
        Assert.True(await guild.Get<ShortageStore>().Mend(id, shortage.Id, "recut"));
        Assert.False(await guild.Get<ShortageStore>().Mend(id, shortage.Id, "recut"));
        Assert.Empty(await Tickets(id));

        // Two 4½ in squares side by side take one strip of 4½ in.
        var settlement = await Settlement(id);
        Assert.Equal(Length.FromInches(4, 1, 2), settlement.Fabrics.Single(line => line.FabricId == fabric).Recut);
        Assert.Equal(2, settlement.Spoilage.Spoiled);
    }

    [Fact]
    public async Task Settlement_OfAnyClass_ClosesToTheTickAndTheCent()
    {
        var (id, fabric) = await ClassWithShortage(1);
        await guild.Get<SettlingStore>().AddPurchase(new FabricPurchase { ClassId = id, FabricId = fabric, Length = Length.FromYards(1), Paid = 11.99m });
        await guild.Get<SettlingStore>().AddGiven(new GivenOut { ClassId = id, FabricId = fabric, Length = Length.FromInches(3) });
        await guild.Get<SettlingStore>().AddLeftover(Left(id, fabric, 11, 7));

        Assert.All((await Settlement(id)).Fabrics, line =>
        {
            Assert.Equal(line.Account.Had, line.Account.Used + line.Account.Left + line.Account.Difference);
            Assert.Equal(line.Bought + line.FromShelf, line.Account.Had);
            Assert.Equal(line.Planned + line.Recut + line.GivenOut, line.Account.Used);
            Assert.Equal(line.Account.HadMoney, line.Account.UsedMoney + line.Account.LeftMoney + line.Account.DifferenceMoney);
        });
    }

    [Fact]
    public async Task LeftoversMake_OneSquareYard_GivesKitsAndPieces()
    {
        var (id, fabric) = await ClassWithShortage(1);
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        foreach (var planned in plan.Fabrics)
        {
            // Ten by five: one 5 in square for the triangles and one 4½ in square, which is one kit's share of either fabric.
            await guild.Get<SettlingStore>().AddLeftover(Left(id, planned.FabricId, 10, 5));
        }

        var makes = LeftoversMake.Of(plan, guild.Get<SettlingStore>().Leftovers(id));
        Assert.Equal(1, Assert.Single(makes.Kits).Kits);
        Assert.All(makes.Fabrics.Single(made => made.FabricId == fabric).Pieces, piece => Assert.Equal(2, piece.Count));
    }

    [Fact]
    public async Task Spoilage_OfAClosedClass_IsOfferedToTheNext()
    {
        var (id, _) = await ClassWithShortage(1);
        var settlement = await Settlement(id);
        var before = guild.Get<SpoilageMemory>().OfClosedClasses();
        await guild.Get<ClosingStore>().Close(id, guild.Get<ClassStore>().Find(id)!.Version, StoredJson.Write(settlement), settlement.Taken, forget: false);
        Assert.Equal(before.Spoiled + 1, guild.Get<SpoilageMemory>().OfClosedClasses().Spoiled);
        Assert.Contains("pieces were spoiled", guild.Get<SpoilageMemory>().Offer(), StringComparison.Ordinal);
    }

    private static Leftover Left(long classId, long fabric, int width, int length) =>
        new() { ClassId = classId, FabricId = fabric, Width = Length.FromInches(width), Length = Length.FromInches(length) };

    private Task<long> Shelve(long fabric, int width, int length) =>
        guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = fabric, Kind = "length", Width = Length.FromInches(width), Length = Length.FromInches(length) });

    /// <summary>A class whose first bag lacks so many of its plain squares of fabric A. They are planned from the bolt before anything is on the shelf.</summary>
    private async Task<(long Id, long Fabric)> ClassWithShortage(int count)
    {
        var id = await ExampleClass.Store(guild, 4);
        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        await guild.Get<ClassPlanning>().SetAside(id);
        await guild.Get<ClassStore>().MarkPrinted(id);
        return (id, await ReportShort(id, plan, count));
    }

    /// <summary>Gives the fabric.</summary>
    private async Task<long> ReportShort(long id, ClassPlan plan, int count)
    {
        var line = PackLine.Of(plan.CutList).First(line => line.Letter == "A" && line.Width == Length.FromInches(4, 1, 2));
        var fabric = plan.Colourways[0].FabricOfLetter["A"];
        Assert.True(await guild.Get<ShortageStore>().Report(new Shortage
        {
            Id = Guid.NewGuid(), ClassId = id, KitId = plan.Kits[0].KitId, Letter = "A", FabricId = fabric, Width = line.Width, Height = line.Height, Count = count, Reason = "spoiled", Who = "Test",
        }));
        return fabric;
    }

    private async Task<IReadOnlyList<RecutFabric>> Tickets(long id)
    {
        var materials = guild.Get<ClassPlanning>().Materials(id)!;
        var settling = guild.Get<SettlingStore>();
        return Recut.Of(materials, await guild.Get<ClassPlanning>().Plan(materials), new ClothOnTable(settling.Purchases(id), settling.Leftovers(id)), guild.Get<ShortageStore>().ForClass(id));
    }

    private async Task<ClassSettlement> Settlement(long id)
    {
        var materials = guild.Get<ClassPlanning>().Materials(id)!;
        var plan = await guild.Get<ClassPlanning>().Plan(materials);
        var settling = guild.Get<SettlingStore>();
        var shortages = guild.Get<ShortageStore>().ForClass(id);
        return SettlementBook.Of(materials, plan, Bags.Of(plan, guild.Get<MarkDesk>().Table(id), shortages), new ClothRecords(settling.Purchases(id), settling.Given(id), settling.Leftovers(id), shortages));
    }
}
