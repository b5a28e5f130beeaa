using KittingBee.Planning;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Blocks;

/// <summary>The sizes of columns or rows as people list them in one line.</summary>
public static class SizeList
{
    /// <summary>
    /// Reads <c>3, 3, 1 1/2</c>. Semicolons part sizes too, and where there is one, commas are decimal. Plain numbers may be
    /// parted by spaces alone. A problem names the field and the size that does not read.
    /// </summary>
    public static (IReadOnlyList<Length> Sizes, Problem? Problem) Read(string text, LengthUnit unit, string field)
    {
        var parts = Parts(text);
        var sizes = new List<Length>();
        for (var index = 0; index < parts.Length; index++)
        {
            var reading = LengthText.Read(parts[index], unit);
            if (!reading.IsLength)
            {
                return ([], new($"{field}[{index}]", $"Size {index + 1}: {reading.Why}"));
            }

            sizes.Add(reading.Value);
        }

        return (sizes, null);
    }

    private static string[] Parts(string text)
    {
        const StringSplitOptions Tidy = StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries;
        if (text.Contains(';', StringComparison.Ordinal))
        {
            return text.Split(';', Tidy);
        }

        if (text.Contains(',', StringComparison.Ordinal))
        {
            return text.Split(',', Tidy);
        }

        // "3 1/2" and "3 cm" are one size each; "3 3 3" is three.
        var words = text.Split((char[]?)null, Tidy);
        return words.All(word => decimal.TryParse(word, System.Globalization.NumberStyles.AllowDecimalPoint, System.Globalization.CultureInfo.InvariantCulture, out _))
            ? words
            : [text];
    }
}
