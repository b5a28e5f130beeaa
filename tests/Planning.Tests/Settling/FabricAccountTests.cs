using CsCheck;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;

namespace KittingBee.Planning.Tests.Settling;

public sealed class FabricAccountTests
{
    private static readonly Length Width = Length.FromInches(42);

    // 3 yd at 12, 2½ yd cut, 4½ in re-cut; left 9 in of the whole width and a remnant of 21 × 4 in, which has the area of 2 in
    // of the whole width: 108 − 90 − 4½ − 11 = 2½ in are missing. Worked by hand.
    private static readonly FabricMovements ThreeYards = new(
        "Dusk blue", Width, 12m, Length.FromYards(3), 36m, [], Length.FromYards(2.5m), Length.FromInches(4, 1, 2), Length.Zero,
        [new(Width, Length.FromInches(9)), new(Length.FromInches(21), Length.FromInches(4))]);

    [Fact]
    public void Of_ThreeYards_ShowsWhatIsMissing()
    {
        var account = FabricAccount.Of(ThreeYards, 0.05m).Account!;
        Assert.Equal((Length.FromInches(108), Length.FromInches(94, 1, 2), Length.FromInches(11), Length.FromInches(2, 1, 2)), (account.Had, account.Used, account.Left, account.Difference));
        Assert.Equal((36m, 31.50m, 3.67m, 0.83m), (account.HadMoney, account.UsedMoney, account.LeftMoney, account.DifferenceMoney));
        Assert.Equal((0.0231m, AccountState.Closed), (account.DifferenceShare, account.State));
    }

    [Theory]
    [InlineData(0, 0.02, AccountState.Missing)]
    [InlineData(0, 0.03, AccountState.Closed)]
    [InlineData(9, 0.05, AccountState.MoreThanExpected)]
    public void Of_ADifferenceBeyondTheTolerance_IsFlagged(int moreLeft, decimal tolerance, AccountState state)
    {
        var left = moreLeft == 0 ? ThreeYards.Left : [.. ThreeYards.Left, new Cloth(Width, Length.FromInches(moreLeft))];
        Assert.Equal(state, FabricAccount.Of(ThreeYards with { Left = left }, tolerance).Account!.State);
    }

    [Fact]
    public void Of_ExactlyTheTolerance_IsWithin() => Assert.Equal(
        AccountState.Closed,
        FabricAccount.Of(ThreeYards with { Planned = Length.FromInches(97), Recut = Length.Zero, Left = [] , Bought = Length.FromInches(100) }, 0.03m).Account!.State);

    [Fact]
    public void Of_ClothFromTheShelf_CountsAtItsPrice()
    {
        var account = FabricAccount.Of(ThreeYards with { Bought = Length.Zero, Paid = 0, FromShelf = [new(Length.FromInches(21), Length.FromInches(36))], Planned = Length.FromInches(18), Recut = Length.Zero, Left = [] }, 0).Account!;
        Assert.Equal((Length.FromInches(18), 6m, 6m, 0m, AccountState.Closed), (account.Had, account.HadMoney, account.UsedMoney, account.DifferenceMoney, account.State));
    }

    [Fact]
    public void Of_LeftoversOfNothing_AreFlagged()
    {
        var account = FabricAccount.Of(ThreeYards with { Bought = Length.Zero, Paid = 0, Planned = Length.Zero, Recut = Length.Zero }, 1).Account!;
        Assert.Equal((-1m, AccountState.MoreThanExpected), (account.DifferenceShare, account.State));
    }

    [Fact]
    public void Of_AnyMovements_ClosesInLengthAndMoney() =>
        Gen.Select(Gen.Long[0, 40_000_000], Gen.Long[0, 40_000_000], Gen.Long[0, 4_000_000], Gen.Long[0, 4_000_000], Gen.Int[0, 100_000], Remnants, Remnants).Sample(
            (bought, planned, recut, given, paid, shelf, left) =>
            {
                var movements = ThreeYards with
                {
                    Bought = Length.FromTicks(bought),
                    Planned = Length.FromTicks(planned),
                    Recut = Length.FromTicks(recut),
                    GivenOut = Length.FromTicks(given),
                    Paid = paid / 100m,
                    FromShelf = shelf,
                    Left = left,
                };
                var account = FabricAccount.Of(movements, 0.05m).Account!;
                return account.Had == account.Used + account.Left + account.Difference
                    && account.Used == movements.Planned + movements.Recut + movements.GivenOut
                    && account.HadMoney == account.UsedMoney + account.LeftMoney + account.DifferenceMoney
                    && (bought == 0 && shelf.Length == 0) == (account.Had == Length.Zero)
                    && (account.State == AccountState.Closed) == (account.Had.IsPositive ? Math.Abs((decimal)account.Difference.Ticks) <= account.Had.Ticks * 0.05m : account.Difference == Length.Zero);
            },
            iter: 10_000);

    [Fact]
    public void AcrossWholeWidth_AnyRemnant_HasTheAreaToTheTick() => Remnants.Sample(
        remnants => remnants.All(remnant =>
        {
            var area = (Int128)remnant.Width.Ticks * remnant.Length.Ticks;
            var across = (Int128)remnant.AcrossWholeWidth(Width).Ticks * Width.Ticks;
            return across <= area && area - across < Width.Ticks;
        }),
        iter: 10_000);

    [Theory]
    [InlineData("bought", "The length of “Dusk blue” bought is −1″. Give 0 to 10,000 yd.")]
    [InlineData("left[0]", "A piece of “Dusk blue” measures 0″ × 9″. Give both sizes, each more than 0.")]
    [InlineData("usableWidth", "The usable width of “Dusk blue” is 0″. Give more than 0, as measured between the selvages.")]
    [InlineData("paid", "“Dusk blue”: -1 paid, 12 a yard. Give both from 0 to 10,000,000.")]
    [InlineData("tolerance", "A tolerance of 200 % cannot be. Give 0 to 100 %.")]
    public void Of_FiguresThatCannotBe_NamesThem(string field, string message)
    {
        var wrong = field switch
        {
            "bought" => ThreeYards with { Bought = Length.FromInches(-1) },
            "left[0]" => ThreeYards with { Left = [new(Length.Zero, Length.FromInches(9))] },
            "usableWidth" => ThreeYards with { UsableWidth = Length.Zero },
            "paid" => ThreeYards with { Paid = -1 },
            _ => ThreeYards,
        };
        Assert.Equal([new Problem(field, message)], FabricAccount.Of(wrong, field == "tolerance" ? 2 : 0.05m).Problems);
    }

    [Fact]
    public void CutUpBy_BoltAndSheet_CountsStripsOnly()
    {
        var sheet = new SheetStock("Remnant", Length.FromInches(21), Length.FromInches(18), 1, 0m);
        var request = new CuttingRequest(new CuttingStock(new BoltStock(Width, Length.FromInches(1), Length.Zero, 12m), [sheet]), []);
        var plan = new CuttingPlan
        {
            Length = Length.FromInches(9), Floor = Length.Zero, Buy = new(Length.FromInches(9), 3m), OneSizePerStrip = new(Length.Zero, 0), Strips = [],
            Sheets = [new(0, "Remnant", 1, false, [new(Length.FromInches(4), 2, [])]), new(0, "Remnant", 1, true, [new(Length.FromInches(7), 1, [])])],
            Surplus = [], Strokes = 0, Status = PlanStatus.Good, Gap = 0,
        };

        // 8 × 21 in are 4 in of 42 in; 7 × 18 in are 3 in of it.
        Assert.Equal(Length.FromInches(9 + 4 + 3), Cloth.CutUpBy(request, plan, Width));
    }

    private static Gen<Cloth[]> Remnants =>
        Gen.Select(Gen.Long[1, 20_000_000], Gen.Long[1, 20_000_000]).Select((width, length) => new Cloth(Length.FromTicks(width), Length.FromTicks(length))).Array[0, 5];
}
