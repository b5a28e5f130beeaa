using System.Numerics;
using CsCheck;
using KittingBee.Planning.Classes;

namespace KittingBee.Planning.Tests.Classes;

public sealed class SpareCountTests
{
    // Cumulative binomial probabilities P(X ≤ x) to four places as printed in the common statistical tables (n = 10, 15, 20, 25);
    // quoted from memory. "At least need of need + k right" is "at most k of n wrong". A promise of the printed value less half
    // a unit of its last place must be met with k spares, and the printed value plus half a unit must not.
    [Theory]
    [InlineData(10, 0.10, 1, 0.7361)]
    [InlineData(10, 0.10, 2, 0.9298)]
    [InlineData(10, 0.10, 3, 0.9872)]
    [InlineData(15, 0.05, 1, 0.8290)]
    [InlineData(15, 0.05, 2, 0.9638)]
    [InlineData(20, 0.05, 1, 0.7358)]
    [InlineData(20, 0.05, 2, 0.9245)]
    [InlineData(20, 0.05, 3, 0.9841)]
    [InlineData(20, 0.25, 5, 0.6172)]
    [InlineData(20, 0.25, 8, 0.9591)]
    [InlineData(25, 0.05, 2, 0.8729)]
    [InlineData(25, 0.05, 3, 0.9659)]
    public void ByPromise_AroundATabledProbability_NeedsThatManySpares(int cut, decimal miscut, int spares, decimal tabled)
    {
        var need = cut - spares;
        Assert.True(SpareCount.ByPromise(need, miscut, tabled - 0.00005m) <= spares);
        Assert.True(SpareCount.ByPromise(need, miscut, tabled + 0.00005m) > spares);
    }

    [Theory]
    [InlineData(1, 0.05, 0.95, 0)]
    [InlineData(1, 0.05, 0.9501, 1)]
    [InlineData(2, 0.1, 0.81, 0)]
    [InlineData(2, 0.1, 0.972, 1)]
    [InlineData(0, 0.1, 0.95, 0)]
    [InlineData(500, 0, 0.9999, 0)]
    public void ByPromise_ExactlyMet_IsEnough(int need, decimal miscut, decimal promise, int spares) =>
        Assert.Equal(spares, SpareCount.ByPromise(need, miscut, promise));

    [Fact]
    public void ByPromise_AnyNeed_IsTheLeastByExactFractions() =>
        Gen.Select(Gen.Int[1, 90], Gen.Int[1, 250], Gen.Int[1, 9_999]).Sample(
            (need, perMille, perTenThousand) =>
            {
                var spares = SpareCount.ByPromise(need, perMille / 1000m, perTenThousand / 10_000m);
                return IsEnough(need, spares, perMille, perTenThousand) && (spares == 0 || !IsEnough(need, spares - 1, perMille, perTenThousand));
            },
            iter: 1_000);

    [Fact]
    public void ByPromise_AMillionPieces_IsNearTheNormalApproximation()
    {
        // Mean of miscuts is need·q/p and variance need·q/p², so at 97.72 % (two standard deviations) k is near the mean plus two of them.
        const int need = 1_000_000;
        var spares = SpareCount.ByPromise(need, 0.02m, 0.97725m);
        var mean = need * 0.02 / 0.98;
        Assert.InRange(spares, mean + (1.99 * Math.Sqrt(mean / 0.98)), mean + (2.02 * Math.Sqrt(mean / 0.98)));
    }

    [Theory]
    [InlineData(100, 5, 5)]
    [InlineData(101, 5, 6)]
    [InlineData(1, 0.1, 1)]
    [InlineData(0, 50, 0)]
    [InlineData(7, 0, 0)]
    public void ByPercent_PartOfAPiece_IsAWholeOne(int need, decimal percent, int spares) => Assert.Equal(spares, SpareCount.ByPercent(need, percent));

    /// <summary>P(X ≥ need) for X of need + spares pieces right, summed term by term over whole numbers: nothing is rounded.</summary>
    private static bool IsEnough(int need, int spares, int miscutPerMille, int promisePerTenThousand)
    {
        var cut = need + spares;
        var ways = BigInteger.Zero;
        var choose = BigInteger.One;
        for (var wrong = 0; wrong <= spares; wrong++)
        {
            ways += choose * BigInteger.Pow(miscutPerMille, wrong) * BigInteger.Pow(1000 - miscutPerMille, cut - wrong);
            choose = choose * (cut - wrong) / (wrong + 1);
        }

        return ways * 10_000 >= promisePerTenThousand * BigInteger.Pow(1000, cut);
    }
}
