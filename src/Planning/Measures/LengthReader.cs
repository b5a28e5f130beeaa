using System.Globalization;
using System.Numerics;
using System.Text;

namespace KittingBee.Planning.Measures;

/// <summary>Reads one length from text, left to right: a number, then perhaps a unit, then nothing more.</summary>
internal sealed class LengthReader
{
    private const int MostCharacters = 60;
    private const int MostShown = 24;
    private static readonly Sentence Example = "Type it like 4 1/2, 4½″ or 11.5 cm.";

    /// <summary>No cloth is longer; a slip of the keyboard is.</summary>
    private static readonly Length Longest = Length.FromYards(10_000);

    private readonly string text;
    private readonly LengthUnit unitIfNone;
    private int place;
    private Sentence? error;

    private LengthReader(string text, LengthUnit unitIfNone)
    {
        this.text = text;
        this.unitIfNone = unitIfNone;
    }

    public static LengthReading Read(string? text, LengthUnit unit)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            return new(default, $"No length was typed. {Example}");
        }

        var reader = new LengthReader(text, unit);
        if (text.Length > MostCharacters)
        {
            reader.Fail($"it has {text.Length:N0} characters, and a length needs at most {MostCharacters}. {Example}");
            return new(default, reader.error);
        }

        var value = reader.ReadAll();
        return reader.error is null ? new(value, null) : new(default, reader.error);
    }

    private Length ReadAll()
    {
        SkipSpaces();
        var number = ReadNumber();
        SkipSpaces();
        if (error is not null)
        {
            return default;
        }

        var ticksInUnit = ReadUnit();
        if (error is not null)
        {
            return default;
        }

        // Nearest tick, halves up; nothing is below zero here.
        var ticks = ((2 * number.Numerator * ticksInUnit) + number.Denominator) / (2 * number.Denominator);
        if (ticks > Longest.Ticks)
        {
            Fail("it is longer than 10,000 yd. Check the number and the unit.");
            return default;
        }

        return Length.FromTicks((long)ticks);
    }

    private (BigInteger Numerator, BigInteger Denominator) ReadNumber()
    {
        if (At(IsMinus))
        {
            Fail($"“{text[place]}” at character {place + 1} makes it less than zero. A length is zero or more.");
            return default;
        }

        var start = place;
        var digits = Digits();
        if (At('.') || At(','))
        {
            return ReadDecimals(digits, start);
        }

        if (digits.Length == 0)
        {
            return ReadFraction("", start);
        }

        if (AtFractionBar())
        {
            return ReadFraction(digits, start);
        }

        return ReadAfterWhole(digits);
    }

    private (BigInteger Numerator, BigInteger Denominator) ReadDecimals(string whole, int start)
    {
        var mark = text[place++];
        var decimals = Digits();
        if (decimals.Length == 0)
        {
            Fail($"digits are missing after “{mark}” at character {place}. {Example}");
        }
        else if (mark == ',' && decimals.Length == 3 && whole.Length is > 0 and <= 3 && whole != "0")
        {
            // 1,250 mm is one and a quarter to some and over a thousand to others: a cut must not hang on the guess.
            Fail($"the comma at character {start + whole.Length + 1} can be read two ways. Type {whole}.{decimals} or {whole}{decimals}.");
        }
        else if (SpacesThen(AtNumber))
        {
            Fail($"there is a second number at character {place + 1}, after the decimals. {Example}");
        }

        return (Number(whole + decimals), BigInteger.Pow(10, decimals.Length));
    }

    private (BigInteger Numerator, BigInteger Denominator) ReadAfterWhole(string digits)
    {
        var whole = Number(digits);
        var hyphen = At(IsHyphen);
        var before = place;
        if (hyphen)
        {
            place++;
        }
        else
        {
            SkipSpaces();
        }

        if (!AtNumber())
        {
            if (hyphen)
            {
                Fail($"a fraction is missing after “{text[before]}” at character {before + 1}. {Example}");
            }

            return (whole, 1);
        }

        var start = place;
        var (numerator, denominator) = ReadFraction(Digits(), start);
        return error is null ? ((whole * denominator) + numerator, denominator) : default;
    }

    /// <summary>A fraction whose numerator's digits were read already; empty before a fraction character.</summary>
    private (BigInteger Numerator, BigInteger Denominator) ReadFraction(string digits, int start)
    {
        BigInteger numerator, denominator;
        if (digits.Length == 0 && place < text.Length && VulgarFractions.TryRead(text[place], out var glyph))
        {
            place++;
            (numerator, denominator) = (glyph.Numerator, glyph.Denominator);
        }
        else
        {
            var one = digits.Length == 0 && At(VulgarFractions.NumeratorOne);
            if (digits.Length == 0 && !one)
            {
                FailAtStrangeCharacter();
                return default;
            }

            if (!one && !AtFractionBar())
            {
                Fail($"there is a second number at character {start + 1} without a fraction bar. {Example}");
                return default;
            }

            place++;
            var below = Digits();
            if (below.Length == 0)
            {
                Fail($"the number under the fraction bar is missing at character {place + 1}. {Example}");
                return default;
            }

            (numerator, denominator) = (one ? 1 : Number(digits), Number(below));
        }

        CheckFraction(numerator, denominator, start);
        return (numerator, denominator);
    }

    private void CheckFraction(BigInteger numerator, BigInteger denominator, int start)
    {
        if (denominator.IsZero)
        {
            Fail($"the fraction at character {start + 1} divides by zero. {Example}");
        }
        else if (numerator >= denominator)
        {
            // 41/2 is nearly always 4 1/2 with the space forgotten.
            Fail($"the fraction {text[start..place]} at character {start + 1} is one or more. Put a space after the whole number, as in 4 1/2.");
        }
        else if (SpacesThen(AtFractionBar))
        {
            Fail($"there is a second fraction bar at character {place + 1}. {Example}");
        }
        else if (AtNumber())
        {
            Fail($"there is a second number at character {place + 1}, after the fraction. {Example}");
        }
    }

    private long ReadUnit()
    {
        var typed = text[place..].TrimEnd();
        if (LengthUnits.TicksIn(typed.Length == 0 ? LengthUnits.NameOf(unitIfNone) : typed) is { } ticks)
        {
            return ticks;
        }

        if (typed[0] is '\'' or '′' or '’' || typed.StartsWith("ft", StringComparison.OrdinalIgnoreCase))
        {
            Fail($"feet at character {place + 1} are not read here. Type inches or yards.");
        }
        else if (char.IsLetter(typed[0]))
        {
            Fail($"“{Shorten(typed)}” at character {place + 1} is not a unit. The units are in, yd, cm, mm and m.");
        }
        else
        {
            FailAtStrangeCharacter();
        }

        return default;
    }

    private void FailAtStrangeCharacter()
    {
        if (place >= text.Length)
        {
            Fail($"a number is missing at character {place + 1}. {Example}");
            return;
        }

        var character = Rune.TryGetRuneAt(text, place, out var rune) ? Clean(rune.ToString()) : "\uFFFD";
        Fail(rune.Value == '≈'
            ? (Sentence)$"“≈” at character {place + 1} marks a rounded length. Type the exact one."
            : Rune.IsDigit(rune)
                ? (Sentence)$"“{character}” at character {place + 1} is not one of the plain digits 0 to 9. {Example}"
                : $"“{character}” at character {place + 1} does not belong there. {Example}");
    }

    private void Fail(Sentence what) => error ??= $"“{Shorten(text.Trim())}” is not a length: {what}";

    private string Digits()
    {
        var start = place;
        while (At(char.IsAsciiDigit))
        {
            place++;
        }

        return text[start..place];
    }

    private void SkipSpaces()
    {
        while (At(char.IsWhiteSpace))
        {
            place++;
        }
    }

    private bool SpacesThen(Func<bool> condition)
    {
        SkipSpaces();
        return condition();
    }

    private bool At(char character) => place < text.Length && text[place] == character;

    private bool At(Func<char, bool> kind) => place < text.Length && kind(text[place]);

    private bool AtFractionBar() => At(static c => c is '/' or VulgarFractions.FractionSlash or '\u2215');

    private bool AtNumber() => At(static c => char.IsDigit(c) || c == VulgarFractions.NumeratorOne || VulgarFractions.TryRead(c, out _));

    private static bool IsHyphen(char c) => c is '-' or '\u2010' or '\u2011' or '\u2013';

    private static bool IsMinus(char c) => IsHyphen(c) || c == '\u2212';

    private static BigInteger Number(string digits) => BigInteger.Parse("0" + digits, CultureInfo.InvariantCulture);

    private static string Shorten(string typed) => Clean(typed.Length <= MostShown ? typed : typed[..MostShown] + "…");

    /// <summary>Line breaks, direction marks and halves of characters would spoil the page that shows the message.</summary>
    private static string Clean(string typed) => string.Concat(typed.EnumerateRunes().Select(static rune =>
        Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
            ? "\uFFFD"
            : rune.ToString()));
}
