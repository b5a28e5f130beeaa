using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;

namespace KittingBee.Planning.Tests.Settling;

public sealed class ClassOutcomeTests
{
    private static readonly Length Five = Length.FromInches(5);

    [Fact]
    public void Of_TwoFabrics_ComparesPlannedWithReal()
    {
        // Planned 120 for 12 kits; paid 110 and 24 for other things, 14 of cloth left, 11 kits handed over.
        var outcome = ClassOutcome.Of(120m, 24m, [Account(60m, 10m), Account(50m, 4m)], 12, 11);
        Assert.Equal(new ClassOutcome(10m, 10.91m, 12.19m, 1), outcome);
    }

    [Fact]
    public void Of_NoKitHandedOver_HasNoCostPerKit() => Assert.Equal(new ClassOutcome(10m, null, null, 12), ClassOutcome.Of(120m, 0, [], 12, 0));

    [Theory]
    [InlineData(3, 150, 0.02)]
    [InlineData(0, 150, 0)]
    [InlineData(60, 100, 0.25)]
    public void Spoilage_OfAClass_IsOfferedToTheNext(int spoiled, int cut, decimal offered) => Assert.Equal(offered, new Spoilage(spoiled, cut).ForNextClass);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(5, 4)]
    [InlineData(-1, 4)]
    public void Spoilage_CountsThatCannotBe_GiveNoRate(int spoiled, int cut) => Assert.Null(new Spoilage(spoiled, cut).Rate);

    [Fact]
    public void Spoilage_Together_WeighsByPieces() => Assert.Equal(0.02m, Spoilage.Together([new(4, 100), new(0, 100)]).Rate);

    [Fact]
    public void PrecutAccount_AlwaysCloses()
    {
        var account = new PrecutAccount("fat quarter", 24, 22, 1, 3.50m);
        Assert.Equal((1, 3.50m), (account.Difference, account.DifferenceMoney));
    }

    [Fact]
    public void Leftovers_OneFatQuarterSize_MakeTheKitsThatFit()
    {
        // 18 × 21 in holds twelve 5 in squares (three rows of four): three kits of four, or twelve pieces.
        var stock = Leftovers.AsStock([new(Length.FromInches(21), Length.FromInches(18)), new(Length.FromInches(1), Length.FromInches(30))], Length.FromInches(2));
        var kit = new CutPiece("A: 5″ square", Five, Five, 4);
        Assert.Equal("Remnant 21″ × 18″", Assert.Single(stock).Name);
        Assert.Equal(3, Leftovers.KitsFrom([kit], stock, false));
        Assert.Equal([(kit, 12)], Leftovers.PiecesFrom([kit], stock, false));
        Assert.Equal(0, Leftovers.KitsFrom([kit with { Width = Length.FromInches(22) }], stock, false));
        Assert.Null(Leftovers.KitsFrom([], stock, false));
        Assert.Equal(0, Leftovers.KitsFrom([kit], [], false));
    }

    [Fact]
    public void Leftovers_EqualRemnants_AreOneLine() => Assert.Equal(
        (2, Length.FromInches(10)),
        Leftovers.AsStock([new(Length.FromInches(10), Five), new(Length.FromInches(10), Five)], Length.FromInches(2)) is [var only] ? (only.Available!.Value, only.Width) : default);

    private static FabricAccount Account(decimal had, decimal left) =>
        new("fabric", Length.Zero, Length.Zero, Length.Zero, Length.Zero, 0, had, had - left, left, 0, AccountState.Closed);
}
