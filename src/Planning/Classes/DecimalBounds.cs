using System.Numerics;

namespace KittingBee.Planning.Classes;

/// <summary>
/// A number that is not below zero, held between two decimals: Low × 10^Exponent and High × 10^Exponent. Both are the number
/// itself as long as nothing was trimmed.
/// </summary>
internal readonly record struct DecimalBounds(BigInteger Low, BigInteger High, int Exponent)
{
    public static DecimalBounds Exact(BigInteger value, int exponent) => new(value, value, exponent);

    /// <summary>(numerator / 10^scale)^power by squaring, trimmed to so many digits on the way.</summary>
    public static DecimalBounds Power(BigInteger numerator, int scale, int power, int digits)
    {
        var result = Exact(1, 0);
        var square = Exact(numerator, -scale);
        for (; power > 0; power >>= 1)
        {
            if ((power & 1) == 1)
            {
                result = new DecimalBounds(result.Low * square.Low, result.High * square.High, result.Exponent + square.Exponent).Trimmed(digits);
            }

            if (power > 1)
            {
                square = new DecimalBounds(square.Low * square.Low, square.High * square.High, 2 * square.Exponent).Trimmed(digits);
            }
        }

        return result;
    }

    public DecimalBounds Times(BigInteger factor, int exponent) => new(Low * factor, High * factor, Exponent + exponent);

    public DecimalBounds DividedBy(int divisor) => this with { Low = Low / divisor, High = DivideUp(High, divisor) };

    /// <summary>At most about so many digits, Low rounded down and High up.</summary>
    public DecimalBounds Trimmed(int digits)
    {
        var excess = (int)(High.GetBitLength() * 0.30103) - digits;
        if (excess <= 0)
        {
            return this;
        }

        var cut = BigInteger.Pow(10, excess);
        return new(Low / cut, DivideUp(High, cut), Exponent + excess);
    }

    /// <summary>The bounds in units of 10^−decimals, Low rounded down and High up.</summary>
    public (BigInteger Low, BigInteger High) ToFixed(int decimals)
    {
        var shift = Exponent + decimals;
        if (shift >= 0)
        {
            var factor = BigInteger.Pow(10, shift);
            return (Low * factor, High * factor);
        }

        // Far below the last decimal: a power of ten as long as the exponent would only be divided away again.
        if (-shift > (High.GetBitLength() * 0.30103) + 2)
        {
            return (BigInteger.Zero, High.IsZero ? BigInteger.Zero : BigInteger.One);
        }

        var divisor = BigInteger.Pow(10, -shift);
        return (Low / divisor, DivideUp(High, divisor));
    }

    private static BigInteger DivideUp(BigInteger value, BigInteger divisor) => (value + divisor - 1) / divisor;
}
