using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Measures;

public sealed class LengthTests
{
    // 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
    [Fact]
    public void Length_OneInch_IsExactly25Point4Millimetres() =>
        Assert.Equal(Length.FromMillimetres(25.4m), Length.FromInches(1));

    // 1 yd = 0.9144 m exactly: international yard and pound agreement, 1959.
    [Fact]
    public void Length_OneYard_IsExactly914Point4Millimetres() =>
        Assert.Equal(Length.FromMillimetres(914.4m), Length.FromYards(1));

    [Theory]
    [InlineData(9, 2, 4, 5)]
    [InlineData(-9, 2, -5, -4)]
    [InlineData(8, 2, 4, 4)]
    public void Length_RoundedToAStep_GoesTheNamedWay(long ticks, long step, long down, long up)
    {
        var length = Length.FromTicks(ticks);
        Assert.Equal(down * step, length.RoundDownTo(Length.FromTicks(step)).Ticks);
        Assert.Equal(up * step, length.RoundUpTo(Length.FromTicks(step)).Ticks);
    }

    [Theory]
    [InlineData(9, 5)]
    [InlineData(-9, -5)]
    [InlineData(7, 4)]
    public void Length_RoundedToNearest_TakesHalvesAwayFromZero(long ticks, long steps) =>
        Assert.Equal(steps * 2, Length.FromTicks(ticks).RoundToNearest(Length.FromTicks(2)).Ticks);

    [Fact]
    public void Length_BeyondItsRange_Throws() =>
        Assert.Throws<OverflowException>(() => Length.FromTicks(long.MaxValue) + Length.FromTicks(1));
}
