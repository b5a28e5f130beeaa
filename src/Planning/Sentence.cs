using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace KittingBee.Planning;

/// <summary>
/// A text with its values kept apart, so that the same can be said in another language. It is written as any interpolated
/// text, <c>$"{count} kits are short"</c>; its <see cref="Format"/> is then <c>{0} kits are short</c>.
/// </summary>
/// <remarks>
/// A value may be a sentence itself and is then said in the same language. Two are equal where they say the same in the sources' own
/// language, so that equal ones can be grouped.
/// </remarks>
[InterpolatedStringHandler]
public sealed class Sentence : IEquatable<Sentence>
{
    private readonly StringBuilder words;
    private readonly List<object?> values;
    private readonly bool isAtStart;

    private Sentence(Sentence same) => (words, values, isAtStart) = (same.words, same.values, true);

    /// <summary>Called by the compiler for an interpolated text.</summary>
    public Sentence(int literalLength, int formattedCount)
    {
        words = new StringBuilder(literalLength + (3 * formattedCount));
        values = new List<object?>(formattedCount);
    }

    /// <summary>The text with <c>{0}</c>, <c>{1}</c>… where the values go; a brace of its own is doubled.</summary>
    public string Format => words.ToString();

    /// <summary>What goes into the places, in their order.</summary>
    public IReadOnlyList<object?> Values => values;

    /// <summary>A text without values.</summary>
    public static implicit operator Sentence(string text) => FromString(text);

    /// <summary>A text without values.</summary>
    public static Sentence FromString(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var sentence = new Sentence(text.Length, 0);
        sentence.AppendLiteral(text);
        return sentence;
    }

    /// <summary>One that was taken apart, put together again.</summary>
    /// <param name="format">As <see cref="Format"/> gave it.</param>
    /// <param name="values">As <see cref="Values"/> gave them.</param>
    public static Sentence FromParts(string format, IEnumerable<object?> values)
    {
        var sentence = new Sentence(0, 0);
        sentence.words.Append(format);
        sentence.values.AddRange(values);
        return sentence;
    }

    /// <summary>Nothing said.</summary>
    public static Sentence Empty { get; } = new(0, 0);

    /// <summary>Several as one, with the same mark between each two, such as a comma and a space.</summary>
    public static Sentence Join(string separator, IEnumerable<Sentence> parts)
    {
        var whole = new Sentence(0, 0);
        foreach (var part in parts)
        {
            if (whole.values.Count > 0)
            {
                whole.AppendLiteral(separator);
            }

            whole.AppendFormatted(part);
        }

        return whole;
    }

    /// <summary>The same with a capital first, for the start of another sentence.</summary>
    public Sentence AtStart() => new(this);

    /// <summary>Called by the compiler for the words between values.</summary>
    public void AppendLiteral(string text) =>
        words.Append(text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));

    /// <summary>Called by the compiler for a value.</summary>
    public void AppendFormatted<T>(T value) => AppendFormatted(value, null);

    /// <summary>Called by the compiler for a value with a format such as <c>{share:0.#}</c>.</summary>
    public void AppendFormatted<T>(T value, string? format)
    {
        words.Append('{').Append(values.Count.ToString(CultureInfo.InvariantCulture));
        if (format is not null)
        {
            words.Append(':').Append(format);
        }

        words.Append('}');
        values.Add(value);
    }

    /// <summary>The sentence in some language.</summary>
    /// <param name="culture">How its numbers are written.</param>
    /// <param name="inLanguage">Gives that language's text for a <see cref="Format"/>.</param>
    public string Say(CultureInfo culture, Func<string, string> inLanguage)
    {
        var text = string.Format(culture, inLanguage(Format), [.. values.Select(value => value is Sentence part ? part.Say(culture, inLanguage) : value)]);
        return isAtStart && text.Length > 0 ? char.ToUpper(text[0], culture) + text[1..] : text;
    }

    /// <summary>The sentence as it stands in the sources, numbers without the habits of any country.</summary>
    public override string ToString() => Say(CultureInfo.InvariantCulture, text => text);

    /// <inheritdoc/>
    public bool Equals(Sentence? other) => other is not null && ToString() == other.ToString();

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Sentence);

    /// <inheritdoc/>
    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);
}
