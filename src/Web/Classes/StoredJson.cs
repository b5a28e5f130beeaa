using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using KittingBee.Planning;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Classes;

/// <summary>How planning values are kept in the database: as JSON with every length in whole ticks.</summary>
public static class StoredJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        Converters = { new TicksConverter(), new SentenceConverter(), new JsonStringEnumConverter() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Options);

    public static T Read<T>(string json) => JsonSerializer.Deserialize<T>(json, Options)
        ?? throw new JsonException($"Stored {typeof(T).Name} is empty.");

    /// <summary>Tells whether two stored texts are the same.</summary>
    public static string Hash(string json) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(json)));

    /// <summary>A text without values as it is, else its format and values in a list, so that it can still be said in any language.</summary>
    private sealed class SentenceConverter : JsonConverter<Sentence>
    {
        public override Sentence Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.String)
            {
                return Sentence.FromString(reader.GetString()!);
            }

            var parts = JsonSerializer.Deserialize<Sentence[]>(ref reader, options) is { Length: > 1 } read ? read : throw new JsonException("A stored text has no values.");
            return Sentence.FromParts(parts[0].ToString(), parts[1..]);
        }

        public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options)
        {
            if (value.Values.Count == 0)
            {
                writer.WriteStringValue(value.ToString());
                return;
            }

            writer.WriteStartArray();
            writer.WriteStringValue(value.Format);
            foreach (var part in value.Values)
            {
                Write(writer, part as Sentence ?? Sentence.FromString(Convert.ToString(part, CultureInfo.InvariantCulture) ?? ""), options);
            }

            writer.WriteEndArray();
        }
    }

    private sealed class TicksConverter : JsonConverter<Length>
    {
        public override Length Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Length.FromTicks(reader.GetInt64());

        public override void Write(Utf8JsonWriter writer, Length value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Ticks);
    }
}
