using CsCheck;
using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Tests.Pricing;

public sealed class KitCostTests
{
    // 40 h at $10 and 100 items at $1 are $500, $5 an item: my.crazyartzone.com/?p=466.
    [Fact]
    public void For_AWeekOfAHundredItems_IsThePublishedFive()
    {
        var cost = Cost(100, 100, 0, CostLine.Labour("making", 40 * 60, 10, CostBasis.PerClass), new CostLine(CostKind.Notions, "materials", 1, CostBasis.PerKit));
        Assert.Equal((500m, 5m), (cost.Total, cost.PerKit));
    }

    // Materials, labour and overhead of $10 each over five items break even at $6: brighthub.com article 77271.
    [Fact]
    public void For_ThreeCostsOverFiveItems_IsThePublishedSix() => Assert.Equal(6m, Cost(
        5, 5, 10, CostLine.Labour("labour", 60, 10, CostBasis.PerClass), new CostLine(CostKind.Other, "overhead", 10, CostBasis.PerClass)).PerKit);

    // Wool 3, silk 10, dye 2 are 15; three hours at $10 are 30: feltingandfiberstudio.com/tag/labor-cost/.
    [Fact]
    public void For_AScarf_IsThePublishedMaterialsAndLabour()
    {
        var cost = Cost(1, 1, 13, new CostLine(CostKind.Notions, "dye", 2, CostBasis.PerKit), CostLine.Labour("felting", 180, 10, CostBasis.PerKit));
        Assert.Equal((45m, 30m), (cost.Total, cost.Lines[^1].Class));
    }

    // 25 + 14 + 8.34 is printed as 47.40 (stainedglassexpress.com), and 17.50 + 11.00 + 14.99 as about 43.50 (neverjustjennifer.blogspot.com, June 2014): the sums are 47.34 and 43.49.
    [Fact]
    public void For_SumsThatWerePrintedWrong_AddUpToTheCent()
    {
        Assert.Equal(47.34m, Cost(1, 1, 25, new CostLine(CostKind.Labour, "labour", 14, CostBasis.PerKit), new CostLine(CostKind.Other, "overhead", 8.34m, CostBasis.PerKit)).PerKit);
        Assert.Equal(43.49m, Cost(1, 1, 17.50m, new CostLine(CostKind.Other, "backing", 11m, CostBasis.PerKit), new CostLine(CostKind.Other, "wadding", 14.99m, CostBasis.PerKit)).PerKit);
    }

    // 12 times 5 minutes are an hour, and an hour at $20 is $20 (arithmetic); 7 times 5 min at $20 are $11.666…
    [Theory]
    [InlineData(12, "20.00")]
    [InlineData(7, "11.67")]
    public void For_LabourByTheKit_IsRoundedOnceForAllKits(int kits, string total) => Assert.Equal(
        decimal.Parse(total, System.Globalization.CultureInfo.InvariantCulture),
        Cost(kits, kits, 0, CostLine.Labour("packing", 5, 20, CostBasis.PerKit)).Total);

    [Fact]
    public void For_SparesAndSamples_AreCarriedByThoseWhoPay()
    {
        var cost = Cost(12, 10, 120, new CostLine(CostKind.PackagingAndPrinting, "bag", 0.50m, CostBasis.PerKit));
        Assert.Equal((126m, 12.60m), (cost.Total, cost.PerKit));
        Assert.Equal(10.50m, Cost(12, 0, 120, new CostLine(CostKind.PackagingAndPrinting, "bag", 0.50m, CostBasis.PerKit)).PerKit);
    }

    [Fact]
    public void For_FabricAsUsed_LeavesTheRestOnTheShelf()
    {
        var cost = KitCost.For(new(10, 10, 100, 80.01m, [new(CostKind.Notions, "thread", 1, CostBasis.PerKit)])).Cost!;
        Assert.Equal((11m, 9.01m), (cost.PerKit, cost.PerKitAsUsed));
    }

    [Fact]
    public void For_AnyLines_AddUpAndKitsCarryTheWhole() =>
        Gen.Select(Gen.Int[1, 60], Gen.Int[0, 10], Gen.Int[0, 100_000], Gen.Select(Gen.Int[0, 50_000], Gen.Enum<CostBasis>()).Array[0, 6]).Sample(
            (paid, extra, fabric, lines) =>
            {
                var cost = Cost(paid + extra, paid, fabric / 100m, [.. lines.Select(line => new CostLine(CostKind.Other, "line", line.Item1 / 100m, line.Item2))]);
                return cost.Lines.Sum(line => line.PerKit) == cost.PerKit
                    && cost.Lines.Sum(line => line.Class) == cost.Total
                    && cost.PerKit * paid >= cost.Total
                    && (cost.PerKit - 0.01m) * paid < cost.Total;
            },
            iter: 10_000);

    [Theory]
    [InlineData(0, 0, 1, 1, "kits", "A cost for 0 kits cannot be worked out. Give 1 to 100,000.")]
    [InlineData(3, 4, 1, 1, "paidKits", "4 of 3 kits cannot be paid for. Give 0 to 3.")]
    [InlineData(3, 3, -1, -1, "fabricBought", "Fabric for -1 cannot be bought. Give 0 to 10,000,000.")]
    [InlineData(3, 3, 1, 2, "fabricUsed", "Fabric used for 2 is not between 0 and what was bought, 1. Check both.")]
    public void For_FiguresThatCannotBe_NamesThem(int kits, int paid, int bought, int used, string field, string message) =>
        Assert.Contains(new Problem(field, message), KitCost.For(new(kits, paid, bought, used, [])).Problems);

    [Fact]
    public void For_ACostBelowZero_NamesTheLine() => Assert.Equal(
        [new Problem("lines[0].amount", "“thread” costs -1. Give 0 to 10,000,000.")],
        KitCost.For(new(1, 1, 0, 0, [new(CostKind.Notions, "thread", -1, CostBasis.PerKit)])).Problems);

    private static KitCost Cost(int kits, int paid, decimal fabric, params CostLine[] lines) => KitCost.For(new(kits, paid, fabric, fabric, lines)).Cost!;
}
