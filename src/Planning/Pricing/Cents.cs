namespace KittingBee.Planning.Pricing;

/// <summary>Money to the cent: rounding that says which way, and sharing that loses no cent.</summary>
public static class Cents
{
    /// <summary>The nearest cent, halves away from zero.</summary>
    public static decimal Nearest(decimal money) => decimal.Round(money, 2, MidpointRounding.AwayFromZero);

    /// <summary>The least multiple of <paramref name="step"/> that is not less; the step must be above zero.</summary>
    public static decimal UpTo(decimal money, decimal step)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step);
        return decimal.Ceiling(money / step) * step;
    }

    /// <summary>
    /// Shares a sum, to the cent, in proportion to the weights. The shares add up to the sum; each is within a cent of its exact
    /// part. Left-over cents go to the largest remainders, then to the first.
    /// </summary>
    /// <param name="sum">A whole number of cents; may be below zero.</param>
    /// <param name="weights">Each at least 0; not all 0.</param>
    public static IReadOnlyList<decimal> Share(decimal sum, IReadOnlyList<decimal> weights)
    {
        var total = weights.Sum();
        if (total <= 0 || weights.Any(weight => weight < 0))
        {
            throw new ArgumentException("Weights are zero or more, and not all zero.", nameof(weights));
        }

        if (sum != Nearest(sum))
        {
            throw new ArgumentException("A sum to share is a whole number of cents.", nameof(sum));
        }

        var exact = weights.Select(weight => sum * 100m * weight / total).ToList();
        var cents = exact.ConvertAll(decimal.Floor);
        var left = decimal.ToInt32((sum * 100m) - cents.Sum());
        foreach (var index in Enumerable.Range(0, weights.Count).OrderByDescending(index => exact[index] - cents[index]).Take(left))
        {
            cents[index]++;
        }

        return cents.ConvertAll(share => share / 100m);
    }

    /// <summary>Shares a sum, to the cent, into equal parts that differ by at most a cent and add up to it.</summary>
    public static IReadOnlyList<decimal> Share(decimal sum, int parts) => Share(sum, Enumerable.Repeat(1m, parts).ToList());
}
