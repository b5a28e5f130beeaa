using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace KittingBee.Planning;

/// <summary>
/// A text with its values kept apart, so that the same can be said in another language. It is written as any interpolated
/// text, <c>$"{count} kits are short"</c>; its <see cref="Format"/> is then <c>{0} kits are short</c>.
/// </summary>
[InterpolatedStringHandler]
public sealed class Sentence
{
    private readonly StringBuilder words;
    private readonly List<object?> values;

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

    /// <summary>The sentence as it stands in the sources, numbers without the habits of any country.</summary>
    public override string ToString() => string.Format(CultureInfo.InvariantCulture, Format, [.. values]);
}
