using System.Globalization;

namespace KittingBee.Planning.Measures;

/// <summary>Fractions that Unicode has as single characters.</summary>
internal static class VulgarFractions
{
    /// <summary>U+2044, which sets the digits on both sides of it as one fraction.</summary>
    public const char FractionSlash = '\u2044';

    /// <summary>U+215F, a numerator one that waits for its denominator.</summary>
    public const char NumeratorOne = '\u215F';

    // The Unicode Standard, blocks Latin-1 Supplement and Number Forms: every character whose decomposition is <fraction>.
    private static readonly Dictionary<char, (int Numerator, int Denominator)> Values = new()
    {
        ['¼'] = (1, 4), ['½'] = (1, 2), ['¾'] = (3, 4),
        ['⅐'] = (1, 7), ['⅑'] = (1, 9), ['⅒'] = (1, 10),
        ['⅓'] = (1, 3), ['⅔'] = (2, 3),
        ['⅕'] = (1, 5), ['⅖'] = (2, 5), ['⅗'] = (3, 5), ['⅘'] = (4, 5),
        ['⅙'] = (1, 6), ['⅚'] = (5, 6),
        ['⅛'] = (1, 8), ['⅜'] = (3, 8), ['⅝'] = (5, 8), ['⅞'] = (7, 8),
        ['↉'] = (0, 3),
    };

    /// <summary>The value of a fraction character.</summary>
    public static bool TryRead(char character, out (int Numerator, int Denominator) value) => Values.TryGetValue(character, out value);

    /// <summary>
    /// A fraction in lowest terms as text: one character for halves, quarters and eighths, which every font has, else the
    /// digits around a fraction slash.
    /// </summary>
    public static string Write(long numerator, long denominator) => (numerator, denominator) switch
    {
        (1, 2) => "½",
        (1, 4) => "¼",
        (3, 4) => "¾",
        (1, 8) => "⅛",
        (3, 8) => "⅜",
        (5, 8) => "⅝",
        (7, 8) => "⅞",
        _ => string.Create(CultureInfo.InvariantCulture, $"{numerator}{FractionSlash}{denominator}"),
    };
}
