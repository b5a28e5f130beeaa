using System.Text.Json;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Reads fields of JSON objects; what does not read becomes a problem that names the field.</summary>
internal sealed class JsonFields
{
    private const int LongestQuote = 40;

    /// <summary>Lengths beyond this many inches are slips; it keeps every sum in range.</summary>
    private const decimal MostInches = 1_000_000m;

    private readonly List<Problem> problems = [];

    public IReadOnlyList<Problem> Problems => problems;

    public static string Shown(JsonElement element) => Short(element.GetRawText());

    public static string Short(string text) => text.Length <= LongestQuote ? text : text[..LongestQuote] + "…";

    public void Add(string path, string name, Sentence message) => problems.Add(new(Join(path, name), message));

    public void Missing(string path, string name) => Add(path, name, $"\"{name}\" is missing. Give it.");

    public bool IsObject(JsonElement element, string path, Sentence what, string[] known)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            problems.Add(new(path.TrimEnd('.'), $"{Shown(element)} stands where {what} should. Write {what} as {{ … }}."));
            return false;
        }

        foreach (var field in element.EnumerateObject().Where(field => !known.Contains(field.Name, StringComparer.Ordinal)))
        {
            Add(path, Short(field.Name), $"\"{Short(field.Name)}\" is not a field of {what}. Its fields are {string.Join(", ", known.Where(name => name[0] != '$'))}.");
        }

        return true;
    }

    public string? Text(JsonElement element, string name, string path, bool required)
    {
        if (!Has(element, name, path, required, out var field))
        {
            return null;
        }

        if (field.ValueKind == JsonValueKind.String)
        {
            return field.GetString();
        }

        Add(path, name, $"\"{name}\" is {Shown(field)}. Give a text in quotes.");
        return null;
    }

    public int? Whole(JsonElement element, string name, string path)
    {
        if (!Has(element, name, path, required: false, out var field))
        {
            return null;
        }

        if (field.ValueKind == JsonValueKind.Number && field.TryGetInt32(out var whole))
        {
            return whole;
        }

        Add(path, name, $"\"{name}\" is {Shown(field)}. Give a whole number.");
        return null;
    }

    public Length? Length(JsonElement element, string name, string path, bool required = false) =>
        Has(element, name, path, required, out var field) ? Length(field, Join(path, name)) : null;

    public bool? YesOrNo(JsonElement element, string name, string path)
    {
        if (!Has(element, name, path, required: false, out var field))
        {
            return null;
        }

        if (field.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return field.GetBoolean();
        }

        Add(path, name, $"\"{name}\" is {Shown(field)}. Give true or false.");
        return null;
    }

    /// <summary>Reads an object that may be missing.</summary>
    public T? Part<T>(JsonElement element, string name, Sentence what, string[] known, Func<JsonElement, string, T> read)
        where T : class =>
        Has(element, name, "", required: false, out var field) && IsObject(field, name, what, known) ? read(field, name) : null;

    public IReadOnlyList<Length>? Lengths(JsonElement element, string name, string path, bool required) =>
        Items(element, name, path, required, (item, place) => Length(item, place) is { } length ? new Boxed(length) : null)
            ?.Select(boxed => boxed.Length).ToList();

    public IReadOnlyList<string?>? Letters(JsonElement element, string name, string path)
    {
        if (!Has(element, name, path, required: false, out var field) || !IsArray(field, Join(path, name)))
        {
            return null;
        }

        return [.. field.EnumerateArray().Select((item, index) => Letter(item, $"{Join(path, name)}[{index}]"))];
    }

    public IReadOnlyList<string>? Texts(JsonElement element, string path) => IsArray(element, path)
        ? [.. element.EnumerateArray().Select((item, index) => Letter(item, $"{path}[{index}]") ?? "")]
        : null;

    /// <summary>Reads each item of an array; null when the array or any item is bad.</summary>
    public IReadOnlyList<T>? Items<T>(JsonElement element, string name, string path, bool required, Func<JsonElement, string, T?> read)
        where T : class
    {
        if (!Has(element, name, path, required, out var field) || !IsArray(field, Join(path, name)))
        {
            return null;
        }

        var items = field.EnumerateArray().Select((item, index) => read(item, $"{Join(path, name)}[{index}]")).ToList();
        return items.Contains(null) ? null : [.. items.Select(item => item!)];
    }

    private static string Join(string path, string name) => path.Length == 0 || path[^1] == '.' ? path + name : $"{path}.{name}";

    private bool Has(JsonElement element, string name, string path, bool required, out JsonElement field)
    {
        var has = element.TryGetProperty(name, out field) && field.ValueKind != JsonValueKind.Null;
        if (!has && required)
        {
            Missing(path, name);
        }

        return has;
    }

    private bool IsArray(JsonElement element, string path)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            return true;
        }

        problems.Add(new(path, $"{Shown(element)} stands where a list should. Write it in [ … ]."));
        return false;
    }

    private string? Letter(JsonElement element, string path)
    {
        if (element.ValueKind is JsonValueKind.String or JsonValueKind.Null)
        {
            return element.GetString();
        }

        problems.Add(new(path, $"{Shown(element)} is not a fabric's letter. Give a letter in quotes."));
        return null;
    }

    private Length? Length(JsonElement element, string path)
    {
        if (element.ValueKind == JsonValueKind.String)
        {
            var reading = LengthText.Read(element.GetString());
            if (reading.IsLength)
            {
                return reading.Value;
            }

            problems.Add(new(path, reading.Why!));
            return null;
        }

        if (element.ValueKind == JsonValueKind.Number && element.TryGetDecimal(out var inches) && Math.Abs(inches) <= MostInches)
        {
            return Measures.Length.FromInches(inches);
        }

        problems.Add(new(path, $"{Shown(element)} is not a length. Give inches as a number such as 4.5, or a text such as \"4 1/2\"."));
        return null;
    }

    private sealed record Boxed(Length Length);
}
