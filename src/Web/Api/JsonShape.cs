using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Api;

/// <summary>
/// Holds a body that could not be read against the shape of its call. The serializer stops at the first value that it cannot read;
/// this goes on, so that the caller hears of every field at once.
/// </summary>
public sealed class JsonShape
{
    // A body put together wrongly has the same fault in every line; more of them than this help nobody.
    private const int MostProblems = 100;

    private readonly JsonSerializerOptions options;
    private readonly List<Problem> problems = [];

    private JsonShape(JsonSerializerOptions options) => this.options = options;

    /// <summary>Every field that cannot be read as the call wants it; empty where the body is not JSON at all, or nothing is wrong.</summary>
    public static IReadOnlyList<Problem> Problems(ReadOnlySpan<byte> body, Type call, JsonSerializerOptions options)
    {
        var shape = new JsonShape(options);
        try
        {
            var reader = new Utf8JsonReader(body, new JsonReaderOptions { MaxDepth = options.MaxDepth });
            using var document = JsonDocument.ParseValue(ref reader);
            shape.Walk(document.RootElement, options.GetTypeInfo(call), "");
        }
        catch (JsonException)
        {
            return [];
        }
        catch (InvalidOperationException)
        {
            // Half of a character in a text: what was found before it stands.
        }

        return [.. shape.problems.Take(MostProblems)];
    }

    private void Walk(JsonElement value, JsonTypeInfo type, string path)
    {
        if (problems.Count >= MostProblems)
        {
            return;
        }

        switch (type.Kind)
        {
            // The one part of a call that is free in form is a block, which has a reader of its own.
            case JsonTypeInfoKind.None when type.Type == typeof(JsonElement):
                problems.AddRange(BlockJson.Read(value, path + ".").Problems);
                break;
            case JsonTypeInfoKind.Object when value.ValueKind == JsonValueKind.Object:
                Members(value, type, path);
                break;
            case JsonTypeInfoKind.Enumerable when value.ValueKind == JsonValueKind.Array:
                Items(value, options.GetTypeInfo(type.ElementType!), path);
                break;
            default:
                Leaf(value, type, path);
                break;
        }
    }

    private void Members(JsonElement value, JsonTypeInfo type, string path)
    {
        var given = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var member in value.EnumerateObject())
        {
            var field = type.Properties.FirstOrDefault(known => string.Equals(known.Name, member.Name, StringComparison.OrdinalIgnoreCase));
            var place = Join(path, field?.Name ?? ApiFormException.Shorten(member.Name));
            if (!given.Add(member.Name))
            {
                problems.Add(JsonComplaints.Twice(place, member.Name));
            }
            else if (field is null)
            {
                problems.Add(JsonComplaints.Unknown(place, member.Name));
            }
            else if (member.Value.ValueKind != JsonValueKind.Null || field.IsSetNullable || field.PropertyType.IsValueType)
            {
                Walk(member.Value, options.GetTypeInfo(field.PropertyType), place);
            }
            else
            {
                problems.Add(JsonComplaints.Null(place, field.Name));
            }
        }

        problems.AddRange(type.Properties
            .Where(field => field.IsRequired && !given.Contains(field.Name))
            .Select(field => JsonComplaints.Missing(Join(path, field.Name), field.Name)));
    }

    private void Items(JsonElement list, JsonTypeInfo type, string path)
    {
        foreach (var (index, item) in list.EnumerateArray().Index())
        {
            var place = $"{path}[{index}]";
            if (item.ValueKind == JsonValueKind.Null)
            {
                problems.Add(new Problem(place, "This entry is null. Leave it out or fill it in."));
            }
            else
            {
                Walk(item, type, place);
            }
        }
    }

    private void Leaf(JsonElement value, JsonTypeInfo type, string path)
    {
        try
        {
            _ = value.Deserialize(type);
        }
        catch (JsonException exception)
        {
            problems.Add(JsonComplaints.WrongForm(path.Length == 0 ? JsonComplaints.WholeBody : path, exception));
        }
    }

    private static string Join(string path, string name) => path.Length == 0 ? name : $"{path}.{name}";
}
