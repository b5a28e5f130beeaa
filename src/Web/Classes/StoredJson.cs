using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Classes;

/// <summary>How planning values are kept in the database: as JSON with every length in whole ticks.</summary>
public static class StoredJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        Converters = { new TicksConverter(), new JsonStringEnumConverter() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Options);

    public static T Read<T>(string json) => JsonSerializer.Deserialize<T>(json, Options)
        ?? throw new JsonException($"Stored {typeof(T).Name} is empty.");

    /// <summary>Tells whether two stored texts are the same.</summary>
    public static string Hash(string json) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(json)));

    private sealed class TicksConverter : JsonConverter<Length>
    {
        public override Length Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Length.FromTicks(reader.GetInt64());

        public override void Write(Utf8JsonWriter writer, Length value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Ticks);
    }
}
