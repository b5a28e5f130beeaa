namespace KittingBee.Planning.Measures;

/// <summary>How a length is shown to a person.</summary>
public enum LengthStyle
{
    /// <summary>Mixed fractions to the nearest 1/8 in: 4½″.</summary>
    Eighths,

    /// <summary>Mixed fractions to the nearest 1/16 in.</summary>
    Sixteenths,

    /// <summary>Mixed fractions to the nearest 1/32 in.</summary>
    ThirtySeconds,

    /// <summary>Decimal inches to the hundredth.</summary>
    DecimalInches,

    /// <summary>Centimetres to the millimetre.</summary>
    Centimetres,
}

/// <summary>The unit of a number typed without one.</summary>
public enum LengthUnit
{
    /// <summary>Inches.</summary>
    Inch,

    /// <summary>Centimetres.</summary>
    Centimetre,

    /// <summary>Yards.</summary>
    Yard,

    /// <summary>Metres.</summary>
    Metre,
}

/// <summary>What came of reading a text as a length: a value, or a message that names the text and the place.</summary>
/// <param name="Value">The length, when there is no error.</param>
/// <param name="Why">A full sentence for a person, or null.</param>
public readonly record struct LengthReading(Length Value, Sentence? Why)
{
    /// <summary>The same as programs read it, or null.</summary>
    public string? Error => Why?.ToString();

    /// <summary>True when the text was a length.</summary>
    public bool IsLength => Why is null;
}

/// <summary>Reads and writes lengths as people write them.</summary>
public static class LengthText
{
    /// <summary>
    /// Reads a length; never throws on bad text, and takes bounded time on any text. A number without a unit is in
    /// <paramref name="unit"/>. Zero is a length; anything below zero is not. A value between two ticks goes to the nearest.
    /// </summary>
    /// <remarks>
    /// Forms: <c>4 1/2</c>, <c>4-1/2</c>, <c>4½</c>, <c>4.5</c>, <c>4,5</c>, each with or without a unit: in, inch, inches,
    /// the double prime or quote; yd, yard, yards; cm, mm, m and their names. Spaces around and between, also no-break ones.
    /// </remarks>
    public static LengthReading Read(string? text, LengthUnit unit = LengthUnit.Inch) => LengthReader.Read(text, unit);

    /// <summary>Writes a length with its unit mark (″ or cm). A value off the style's step is rounded to the nearest and marked with ≈.</summary>
    public static string Write(Length length, LengthStyle style = LengthStyle.Eighths) => LengthWriter.Write(length, style);

    /// <summary>Writes a length of yardage: yards to the nearest 1/8 yd, or metres to the centimetre, marked ≈ when off the step.</summary>
    public static string WriteYardage(Length length, bool metric) => LengthWriter.WriteYardage(length, metric);
}
