using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Classes;

public sealed class ClassHeadroomTests
{
    private static readonly Length Square = Length.FromInches(4, 1, 2);
    private static readonly BoltStock Bolt = new(Length.FromInches(42), Length.FromInches(4, 1, 2), Length.FromInches(4, 1, 2), 12m);
    private static readonly Dictionary<string, long> Dawn = new() { ["A"] = 1, ["B"] = 2 };

    private static readonly CutList PerKit = new(Square, Square,
        [new("A", "sky", [new(Square, Square, 3, [])]), new("B", "star", [new(Square, Square, 2, [])])], [], []);

    [Fact]
    public void For_TwoFabrics_IsTheShorterOne()
    {
        // 42 in holds nine squares a strip. Fabric 1: 12 of 18 in two strips: two kits of three more. Fabric 2: 8 of 9: none; both proved by counting.
        var headroom = ClassHeadroom.For(PerKit, Dawn, [AtHand(1, 12, 2), AtHand(2, 8, 1)]);
        Assert.Equal((0, 0), (headroom.Kits, headroom.AtMost));
        Assert.Equal([(2L, 0), (1L, 2)], headroom.Fabrics.Select(fabric => (fabric.Fabric, fabric.Kits)));
        Assert.Equal(2, ClassHeadroom.For(PerKit, Dawn, [AtHand(1, 12, 2), AtHand(2, 8, 2)]).Kits);
    }

    [Fact]
    public void For_BothLettersInOneFabric_TakesFiveAKit() =>
        Assert.Equal(2, ClassHeadroom.For(PerKit, new Dictionary<string, long> { ["A"] = 1, ["B"] = 1 }, [AtHand(1, 8, 2)]).Kits);

    [Fact]
    public void For_ASizeNotCutBefore_JoinsWithTheFirstKit()
    {
        var other = new FabricAtHand(2, "star", new CuttingRequest(new CuttingStock(Bolt, []), [new("C", Square, Length.FromInches(9), 1)]), Length.FromInches(9), []);
        // 9 in of cloth with a piece of 9 × 4½ in taken out holds 8 × 2 squares: eight kits of two.
        Assert.Equal(8, ClassHeadroom.For(PerKit, Dawn, [AtHand(1, 1, 20), other]).Kits);
    }

    [Fact]
    public void For_AFabricNotAtHand_LeavesNone() => Assert.Equal(0, ClassHeadroom.For(PerKit, Dawn, [AtHand(1, 12, 2)]).Kits);

    [Fact]
    public void For_ALetterWithoutFabric_IsAMistakeOfTheCaller() =>
        Assert.Throws<ArgumentException>(() => ClassHeadroom.For(PerKit, new Dictionary<string, long> { ["A"] = 1 }, []));

    [Fact]
    public void AsPlanned_CountsPacksAndTheShelf()
    {
        var stock = new CuttingStock(Bolt, [new("Remnant", Length.FromInches(21), Length.FromInches(18), 2, 0m), new("square", Square, Square, null, 0.2m, 10)]);
        var request = new CuttingRequest(stock, [new("A", Square, Square, 3)]);
        var plan = CuttingPlanner.Plan(request).Plan! with { Sheets = [new(1, "square", 3, false, [])], Buy = new(Length.FromInches(9), 3m) };
        var atHand = FabricAtHand.AsPlanned(1, "sky", request, plan);
        Assert.Equal((Length.FromInches(9), 2, 10), (atHand.Bolt, atHand.Sheets[0], atHand.Sheets[1]));
    }

    private static FabricAtHand AtHand(long fabric, int squares, int strips) =>
        new(fabric, "", new CuttingRequest(new CuttingStock(Bolt, []), [new("A", Square, Square, squares)]), Square * strips, []);
}
