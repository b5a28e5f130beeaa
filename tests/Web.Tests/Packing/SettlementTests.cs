using CsCheck;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Whatever is recorded of a class, its account closes: what there was is what was used, is left and differs. Identities need no source.</summary>
public sealed class SettlementTests(GuildHost guild) : IClassFixture<GuildHost>
{
    private static readonly Gen<Length> Lengths = Gen.Int[1, 400].Select(eighths => Length.FromInches(0, eighths, 8));

    private static readonly string[] MendedFrom = ["", "recut", "spare"];

    [Fact]
    public async Task Settlement_OfAnyRecords_ClosesInLengthAndMoneyAndCountsEveryKitAndPieceOnce()
    {
        var id = await ExampleClass.Store(guild, 6);
        var materials = guild.Get<ClassPlanning>().Materials(id)!;
        var plan = await guild.Get<ClassPlanning>().Plan(materials);
        var fabrics = plan.Fabrics.Select(fabric => fabric.FabricId).ToArray();
        var lines = PackLine.Of(plan.CutList);
        var table = new PackingTable([]);
        var fabric = Gen.Int[0, fabrics.Length - 1].Select(at => fabrics[at]);
        var records = Gen.Select(
            Gen.Select(fabric, Lengths, Gen.Int[0, 9_999]).Select((of, length, cents) => new FabricPurchase { FabricId = of, Length = length, Paid = cents / 100m }).Array[0, 4],
            Gen.Select(fabric, Lengths).Select((of, length) => new GivenOut { FabricId = of, Length = length }).Array[0, 3],
            Gen.Select(fabric, Lengths, Lengths).Select((of, width, length) => new Leftover { FabricId = of, Width = width, Length = length }).Array[0, 4],
            Gen.Select(Gen.Int[0, lines.Count - 1], Gen.Int[0, 5], Gen.Bool, Gen.Int[0, 2].Select(at => MendedFrom[at])).Select((line, kit, spoiled, from) => new Shortage
            {
                Id = Guid.NewGuid(), KitId = plan.Kits[kit].KitId, Letter = lines[line].Letter, FabricId = plan.Colourways[0].FabricOfLetter[lines[line].Letter],
                Width = lines[line].Width, Height = lines[line].Height, Count = 1, Reason = spoiled ? "spoiled" : "missing", MendedFrom = from, MendedAt = from.Length > 0 ? "2031-01-01" : null,
            }).Array[0, 4]);

        records.Sample(
            (bought, given, left, shortages) =>
            {
                var settled = SettlementBook.Of(materials, plan, Bags.Of(plan, table, shortages), new ClothRecords(bought, given, left, shortages));
                Assert.Equal(bought.Sum(purchase => purchase.Paid), settled.Fabrics.Sum(line => line.Paid));
                Assert.Equal(shortages.Count(shortage => shortage.Reason == "spoiled"), settled.Spoilage.Spoiled);
                Assert.Equal(plan.Kits.Count, settled.KitsHandedOver + settled.NotHandedOver.Count);
                foreach (var line in settled.Fabrics)
                {
                    Assert.Equal(line.Bought + line.FromShelf, line.Planned + line.Recut + line.GivenOut + line.Account.Left + line.Account.Difference);
                    Assert.Equal(line.Account.HadMoney, line.Account.UsedMoney + line.Account.LeftMoney + line.Account.DifferenceMoney);
                    Assert.Equal(bought.Where(purchase => purchase.FabricId == line.FabricId).Aggregate(Length.Zero, (sum, purchase) => sum + purchase.Length), line.Bought);
                    Assert.Equal(shortages.Any(shortage => shortage.FabricId == line.FabricId && shortage.MendedFrom == "recut"), line.Recut.IsPositive);
                }
            },
            iter: 300, threads: 1);
    }
}
