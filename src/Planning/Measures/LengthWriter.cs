using System.Globalization;
using System.Numerics;

namespace KittingBee.Planning.Measures;

/// <summary>Writes lengths. What is on the style's step reads back as the same length; what is off it is marked ≈.</summary>
internal static class LengthWriter
{
    private const string About = "≈";
    private const string Minus = "\u2212";
    private const string NoBreakSpace = "\u00A0";

    private static readonly Length Centimetre = Length.FromMillimetres(10);

    public static string Write(Length length, LengthStyle style) => style switch
    {
        LengthStyle.Eighths => Mixed(length, Length.TicksPerInch, 8, "″"),
        LengthStyle.Sixteenths => Mixed(length, Length.TicksPerInch, 16, "″"),
        LengthStyle.ThirtySeconds => Mixed(length, Length.TicksPerInch, 32, "″"),
        LengthStyle.DecimalInches => Decimal(length, Length.TicksPerInch, 100, "″"),
        LengthStyle.Centimetres => Decimal(length, Centimetre.Ticks, 10, NoBreakSpace + "cm"),
        _ => throw new ArgumentOutOfRangeException(nameof(style), style, "Not a style."),
    };

    public static string WriteYardage(Length length, bool metric) => metric
        ? Decimal(length, 100 * Centimetre.Ticks, 100, NoBreakSpace + "m")
        : Mixed(length, Length.TicksPerYard, 8, NoBreakSpace + "yd");

    private static string Mixed(Length length, long unit, long stepsInUnit, string mark)
    {
        var (steps, exact) = Steps(length, unit / stepsInUnit);
        var (whole, rest) = long.DivRem(steps, stepsInUnit);
        var common = (long)BigInteger.GreatestCommonDivisor(rest, stepsInUnit);
        var fraction = rest == 0 ? "" : VulgarFractions.Write(rest / common, stepsInUnit / common);

        // A fraction that starts with a digit needs a space, or 4 3⁄16 would look like 43⁄16.
        var number = (whole, rest) switch
        {
            (_, 0) => whole.ToString(CultureInfo.InvariantCulture),
            (0, _) => fraction,
            _ when char.IsAsciiDigit(fraction[0]) => whole.ToString(CultureInfo.InvariantCulture) + NoBreakSpace + fraction,
            _ => whole.ToString(CultureInfo.InvariantCulture) + fraction,
        };
        return Signed(length, steps, exact, number + mark);
    }

    private static string Decimal(Length length, long unit, long stepsInUnit, string mark)
    {
        var (steps, exact) = Steps(length, unit / stepsInUnit);
        return Signed(length, steps, exact, ((decimal)steps / stepsInUnit).ToString("0.##", CultureInfo.InvariantCulture) + mark);
    }

    /// <summary>The nearest number of steps, without sign, halves up; and whether the length is on it.</summary>
    private static (long Steps, bool Exact) Steps(Length length, long step)
    {
        var (steps, rest) = Int128.DivRem(Int128.Abs(length.Ticks), step);
        return ((long)(rest * 2 >= step ? steps + 1 : steps), rest == 0);
    }

    private static string Signed(Length length, long steps, bool exact, string text) =>
        (exact ? "" : About) + (length.Ticks < 0 && steps != 0 ? Minus : "") + text;
}
