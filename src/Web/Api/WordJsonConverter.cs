using System.Text.Json;
using System.Text.Json.Serialization;

namespace KittingBee.Web.Api;

/// <summary>A choice written as a word in small letters with hyphens: <c>two-at-a-time</c>. An unknown word is refused with the words allowed.</summary>
public sealed class WordJsonConverter<TChoice> : JsonConverter<TChoice>
    where TChoice : struct, Enum
{
    private static readonly Dictionary<string, TChoice> ByWord = Enum.GetValues<TChoice>().ToDictionary(Word);

    /// <inheritdoc/>
    public override TChoice Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var given = reader.TokenType == JsonTokenType.String ? reader.GetString()! : null;
        if (given is not null && ByWord.TryGetValue(given, out var choice))
        {
            return choice;
        }

        var allowed = string.Join(", ", ByWord.Keys);
        throw new ApiFormException(given is null
            ? $"A word is expected, one of: {allowed}."
            : $"\"{ApiFormException.Shorten(given)}\" is not known here. Use one of: {allowed}.");
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, TChoice value, JsonSerializerOptions options) => writer.WriteStringValue(Word(value));

    private static string Word(TChoice choice) => JsonNamingPolicy.KebabCaseLower.ConvertName(choice.ToString());
}
