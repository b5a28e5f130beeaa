using System.Text.Json;
using System.Text.Json.Serialization;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Api;

/// <summary>A length in JSON: a number of inches, or when read also a text such as <c>4 1/2</c> or <c>11.5 cm</c>.</summary>
public sealed class LengthJsonConverter : JsonConverter<Length>
{
    /// <summary>Longer than any bolt: 10,000 yd. Keeps every later sum far from the end of the number range.</summary>
    public static readonly Length Longest = Length.FromYards(10_000);

    // Twelve decimals of an inch tell every tick (about 0.0000025 in) from its neighbours.
    private const int Decimals = 12;

    /// <inheritdoc/>
    public override Length Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var length = reader.TokenType switch
        {
            JsonTokenType.Number => FromNumber(ref reader),
            JsonTokenType.String => FromText(reader.GetString()!),
            _ => throw new ApiFormException("A length is expected: a number of inches such as 4.5, or a text such as \"4 1/2\" or \"11.5 cm\"."),
        };
        return length <= Longest && length >= -Longest ? length : throw TooLong();
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Length value, JsonSerializerOptions options) =>
        writer.WriteNumberValue(Inches(value));

    /// <summary>A length as the number that stands in JSON: inches, without needless zeros.</summary>
    public static decimal Inches(Length length) => WithoutTrailingZeros(decimal.Round(length.Inches, Decimals));

    private static Length FromNumber(ref Utf8JsonReader reader) =>
        reader.TryGetDecimal(out var inches) && Math.Abs(inches) <= Longest.Inches ? Length.FromInches(inches) : throw TooLong();

    private static Length FromText(string text)
    {
        var reading = LengthText.Read(text);
        return reading.IsLength ? reading.Value : throw new ApiFormException(reading.Error!);
    }

    private static ApiFormException TooLong() => new($"A length must be no more than {Longest.Inches:0} inches (10,000 yards).");

    // Dividing by a one with 28 zeros leaves the shortest form: 4.5, not 4.500000000000.
    private static decimal WithoutTrailingZeros(decimal value) => value / 1.0000000000000000000000000000m;
}
