using System.Numerics;

namespace KittingBee.Planning.Classes;

/// <summary>How many pieces to cut beyond the need, so that a share of miscuts still leaves enough.</summary>
public static class SpareCount
{
    /// <summary>The largest share of miscuts that spares can be promised for: beyond it, the method wants mending and not more cloth.</summary>
    public const decimal MostMiscut = 0.25m;

    /// <summary>The highest promise that can be given; certainty would take endless cloth.</summary>
    public const decimal MostPromised = 0.9999m;

    private const int FirstDigits = 60;

    /// <summary>A flat share of the need, in percent, rounded up to whole pieces.</summary>
    public static int ByPercent(int need, decimal percent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(need);
        ArgumentOutOfRangeException.ThrowIfNegative(percent);
        return decimal.ToInt32(decimal.Ceiling(need * percent / 100m));
    }

    /// <summary>
    /// The least k for which, of need + k pieces of which each comes out wrong with the given probability on its own, at least
    /// need come out right with at least the promised probability. Spares can be miscut too.
    /// </summary>
    /// <param name="need">Good pieces needed; at least 0.</param>
    /// <param name="miscutShare">Probability that a piece comes out wrong, 0 to <see cref="MostMiscut"/>.</param>
    /// <param name="promise">Probability to reach, above 0 and at most <see cref="MostPromised"/>.</param>
    /// <remarks>
    /// The miscuts made before the need-th good piece follow the negative binomial distribution, and k spares are enough just when
    /// there are at most k of them: the sum over j = 0..k of C(need + j − 1, j) · p^need · q^j. The sum is enclosed between two
    /// decimals of many digits, which grow until the answer is certain, so that rounding never decides.
    /// </remarks>
    public static int ByPromise(int need, decimal miscutShare, decimal promise)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(need);
        ArgumentOutOfRangeException.ThrowIfNegative(miscutShare);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(miscutShare, MostMiscut);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(promise);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(promise, MostPromised);
        if (need == 0 || miscutShare == 0)
        {
            return 0;
        }

        for (var digits = FirstDigits; ; digits *= 2)
        {
            if (Search(need, miscutShare, promise, digits) is { } spares)
            {
                return spares;
            }
        }
    }

    /// <summary>The least k, or null where this many digits cannot tell.</summary>
    private static int? Search(int need, decimal miscutShare, decimal promise, int digits)
    {
        var (miscut, scale) = Fraction(miscutShare);
        var target = DecimalBounds.Exact(Fraction(promise).Numerator, -Fraction(promise).Scale).ToFixed(digits).Low;
        var term = DecimalBounds.Power(BigInteger.Pow(10, scale) - miscut, scale, need, digits);
        var (low, high) = (BigInteger.Zero, BigInteger.Zero);
        for (var spares = 0; ; spares++)
        {
            var (termLow, termHigh) = term.ToFixed(digits);
            low += termLow;
            high += termHigh;
            if (low >= target)
            {
                return spares;
            }

            if (high >= target)
            {
                return null;
            }

            term = term.Times((BigInteger)(need + (long)spares) * miscut, -scale).DividedBy(spares + 1).Trimmed(digits);
        }
    }

    /// <summary>A decimal as numerator / 10^scale with the least scale.</summary>
    private static (BigInteger Numerator, int Scale) Fraction(decimal value)
    {
        var scale = 0;
        while (value != decimal.Truncate(value))
        {
            value *= 10;
            scale++;
        }

        return ((BigInteger)value, scale);
    }
}
