using System.Globalization;

namespace KittingBee.Planning.Measures;

/// <summary>
/// An exact length: a whole number of ticks, 406,400 to the inch (62.5 nm each). Zero by default; may be negative as a
/// difference. Every 1/128 in, 0.01 in, 0.001 mm and 1/8 yd is a whole number of ticks, so sums never drift.
/// Arithmetic that leaves the range of a 64-bit count throws <see cref="OverflowException"/>.
/// </summary>
/// <remarks>1 in = 25.4 mm and 1 yd = 0.9144 m exactly: international yard and pound agreement, 1959.</remarks>
public readonly record struct Length : IComparable<Length>
{
    /// <summary>Ticks in one inch.</summary>
    public const long TicksPerInch = 406_400;

    /// <summary>Ticks in one millimetre.</summary>
    public const long TicksPerMillimetre = 16_000;

    /// <summary>Ticks in one yard.</summary>
    public const long TicksPerYard = 36 * TicksPerInch;

    private Length(long ticks) => Ticks = ticks;

    /// <summary>The count of ticks.</summary>
    public long Ticks { get; }

    /// <summary>No length at all.</summary>
    public static Length Zero => default;

    /// <summary>The length of a whole number of ticks.</summary>
    public static Length FromTicks(long ticks) => new(ticks);

    /// <summary>A whole number of inches.</summary>
    public static Length FromInches(long inches) => new(inches * TicksPerInch);

    /// <summary>Inches with a fraction, <paramref name="numerator"/>/<paramref name="denominator"/>; rounds to the nearest tick, halves away from zero.</summary>
    public static Length FromInches(long whole, long numerator, long denominator) =>
        new((whole * TicksPerInch) + DivideToNearest(numerator * TicksPerInch, denominator));

    /// <summary>Decimal inches; rounds to the nearest tick, halves away from zero.</summary>
    public static Length FromInches(decimal inches) => new(ToTicks(inches * TicksPerInch));

    /// <summary>Decimal millimetres; rounds to the nearest tick, halves away from zero.</summary>
    public static Length FromMillimetres(decimal millimetres) => new(ToTicks(millimetres * TicksPerMillimetre));

    /// <summary>Decimal yards; rounds to the nearest tick, halves away from zero.</summary>
    public static Length FromYards(decimal yards) => new(ToTicks(yards * TicksPerYard));

    /// <summary>The length in inches, to 28 digits. For showing and for money; never for adding up.</summary>
    public decimal Inches => (decimal)Ticks / TicksPerInch;

    /// <summary>The length in yards, to 28 digits. For showing and for money; never for adding up.</summary>
    public decimal Yards => (decimal)Ticks / TicksPerYard;

    /// <summary>The length in millimetres, exact.</summary>
    public decimal Millimetres => (decimal)Ticks / TicksPerMillimetre;

    /// <summary>True for a length above zero.</summary>
    public bool IsPositive => Ticks > 0;

    /// <summary>The least multiple of <paramref name="step"/> that is not less than this length. The step must be above zero.</summary>
    public Length RoundUpTo(Length step) => new(FloorDivide(Ticks + Positive(step) - 1, step.Ticks) * step.Ticks);

    /// <summary>The greatest multiple of <paramref name="step"/> that is not more than this length. The step must be above zero.</summary>
    public Length RoundDownTo(Length step) => new(FloorDivide(Ticks, Positive(step)) * step.Ticks);

    /// <summary>The multiple of <paramref name="step"/> nearest to this length, halves away from zero. The step must be above zero.</summary>
    public Length RoundToNearest(Length step) => new(DivideToNearest(Ticks, Positive(step)) * step.Ticks);

    /// <summary>True when this length is a whole number of <paramref name="step"/>s. The step must be above zero.</summary>
    public bool IsMultipleOf(Length step) => Ticks % Positive(step) == 0;

    /// <summary>How many whole times <paramref name="part"/> fits into this length. The part must be above zero.</summary>
    public long CountOf(Length part) => FloorDivide(Ticks, Positive(part));

    /// <summary>This length divided by a whole number above zero, rounded down to the tick.</summary>
    public Length DivideRoundingDown(long divisor) => new(FloorDivide(Ticks, PositiveDivisor(divisor)));

    /// <summary>This length divided by a whole number above zero, rounded up to the tick.</summary>
    public Length DivideRoundingUp(long divisor) => new(-FloorDivide(-Ticks, PositiveDivisor(divisor)));

    /// <summary>The longer of two lengths.</summary>
    public static Length Max(Length one, Length other) => one >= other ? one : other;

    /// <summary>The shorter of two lengths.</summary>
    public static Length Min(Length one, Length other) => one <= other ? one : other;

    /// <inheritdoc/>
    public int CompareTo(Length other) => Ticks.CompareTo(other.Ticks);

    /// <summary>Decimal inches, for debugging; text for people comes from <see cref="LengthText"/>.</summary>
    public override string ToString() => Inches.ToString("0.######", CultureInfo.InvariantCulture) + " in";

    /// <summary>Sum.</summary>
    public static Length operator +(Length one, Length other) => new(one.Ticks + other.Ticks);

    /// <summary>Difference.</summary>
    public static Length operator -(Length one, Length other) => new(one.Ticks - other.Ticks);

    /// <summary>Opposite sign.</summary>
    public static Length operator -(Length one) => new(-one.Ticks);

    /// <summary>Whole multiple.</summary>
    public static Length operator *(Length one, long count) => new(one.Ticks * count);

    /// <summary>Whole multiple.</summary>
    public static Length operator *(long count, Length one) => new(one.Ticks * count);

    /// <summary>Shorter than.</summary>
    public static bool operator <(Length one, Length other) => one.Ticks < other.Ticks;

    /// <summary>Longer than.</summary>
    public static bool operator >(Length one, Length other) => one.Ticks > other.Ticks;

    /// <summary>Not longer than.</summary>
    public static bool operator <=(Length one, Length other) => one.Ticks <= other.Ticks;

    /// <summary>Not shorter than.</summary>
    public static bool operator >=(Length one, Length other) => one.Ticks >= other.Ticks;

    private static long ToTicks(decimal ticks) => decimal.ToInt64(decimal.Round(ticks, MidpointRounding.AwayFromZero));

    private static long Positive(Length step) => step.Ticks > 0
        ? step.Ticks
        : throw new ArgumentOutOfRangeException(nameof(step), "A step must be longer than zero.");

    private static long PositiveDivisor(long divisor) => divisor > 0
        ? divisor
        : throw new ArgumentOutOfRangeException(nameof(divisor), "A divisor must be above zero.");

    private static long FloorDivide(long value, long divisor)
    {
        var quotient = Math.DivRem(value, divisor, out var rest);
        return rest < 0 ? quotient - 1 : quotient;
    }

    private static long DivideToNearest(long value, long divisor)
    {
        var quotient = Math.DivRem(value, divisor, out var rest);
        return Math.Abs(rest) >= divisor - Math.Abs(rest) ? quotient + Math.Sign(value) : quotient;
    }
}
