using CsCheck;
using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Tests.Pricing;

public sealed class CentsTests
{
    [Fact]
    public void Share_TenInThree_GivesTheCentToTheFirst() => Assert.Equal([3.34m, 3.33m, 3.33m], Cents.Share(10m, 3));

    [Fact]
    public void Share_ALoss_AddsUpToo() => Assert.Equal(-10m, Cents.Share(-10m, 3).Sum());

    [Fact]
    public void Share_AnySumAndWeights_LosesNoCentAndIsFair() =>
        Gen.Select(Gen.Long[-1_000_000, 1_000_000], Gen.Int[0, 1000].Array[1, 12]).Where((_, weights) => weights.Sum() > 0).Sample(
            (cents, weights) =>
            {
                var shares = Cents.Share(cents / 100m, [.. weights.Select(weight => (decimal)weight)]);
                return shares.Sum() == cents / 100m
                    && shares.All(share => share == Cents.Nearest(share))
                    && shares.Zip(weights).All(pair => Math.Abs(pair.First - (cents / 100m * pair.Second / weights.Sum())) < 0.01m);
            },
            iter: 10_000);

    [Fact]
    public void Share_PartOfACentOrNoWeight_IsAMistakeOfTheCaller()
    {
        Assert.Throws<ArgumentException>(() => Cents.Share(0.005m, 2));
        Assert.Throws<ArgumentException>(() => Cents.Share(1m, [0m, 0m]));
    }

    [Theory]
    [InlineData(10.01, 0.5, 10.5)]
    [InlineData(10, 0.5, 10)]
    [InlineData(0, 5, 0)]
    [InlineData(33.34, 1, 34)]
    public void UpTo_AStep_NeverGoesDown(decimal money, decimal step, decimal expected) => Assert.Equal(expected, Cents.UpTo(money, step));
}
