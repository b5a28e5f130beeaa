using System.Text;
using System.Text.Json.Nodes;
using KittingBee.Planning;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Blocks;

/// <summary>
/// The units of a block as lines of text, for those who type: <c>1,2 half-square-triangle A B turn 90</c>. Rows and columns
/// count from 1; <c>1-2,3</c> spans two rows. The same units as in a file, so nothing is lost either way.
/// </summary>
public static class UnitLines
{
    private static readonly (string Word, string Field)[] Sizes = [("corner", "corner"), ("cut", "cutWidth"), ("widths", "widths")];

    public static string Write(JsonArray units)
    {
        var lines = new StringBuilder();
        foreach (var unit in units.OfType<JsonObject>())
        {
            lines.Append(Span(unit, "row")).Append(',').Append(Span(unit, "column")).Append(' ').Append(Text(unit, "kind"));
            if (unit["patches"] is JsonArray patches)
            {
                lines.Append(' ').AppendJoin(" / ", patches.OfType<JsonArray>().Select(Letters));
            }
            else if (unit["fabrics"] is JsonArray fabrics)
            {
                lines.Append(' ').Append(Letters(fabrics));
            }

            if (unit["turn"] is { } turn && turn.ToString() != "0")
            {
                lines.Append(" turn ").Append(turn);
            }

            WriteSizes(lines, unit);
            lines.Append('\n');
        }

        return lines.ToString().TrimEnd('\n');
    }

    /// <summary>Reads the lines. Each problem names its line; lines that read are in the units even where others do not.</summary>
    public static (JsonArray Units, IReadOnlyList<Problem> Problems) Read(string text, LengthUnit unit)
    {
        var units = new JsonArray();
        var problems = new List<Problem>();
        var lines = text.Split('\n');
        for (var index = 0; index < lines.Length; index++)
        {
            if (string.IsNullOrWhiteSpace(lines[index]))
            {
                continue;
            }

            var reader = new UnitLineReader(lines[index].Trim(), unit);
            if (reader.Read() is { } read)
            {
                units.Add(read);
            }
            else
            {
                problems.Add(new($"units[{index}]", $"Line {index + 1}, “{Short(lines[index].Trim())}”: {reader.Error}"));
            }
        }

        return (units, problems);
    }

    private static void WriteSizes(StringBuilder lines, JsonObject unit)
    {
        foreach (var (word, field) in Sizes)
        {
            if (unit[field] is { } value)
            {
                lines.Append(' ').Append(word).Append(' ').Append(value is JsonArray list ? string.Join("; ", list.Select(Size)) : Size(value));
            }
        }

        if (unit["cutHeight"] is { } height)
        {
            lines.Append(" x ").Append(Size(height));
        }

        if (unit["count"] is { } count)
        {
            lines.Append(" count ").Append(count);
        }

        if (unit["inner"] is { } inner)
        {
            lines.Append(' ').Append(inner.ToJsonString());
        }
    }

    // A bare number in a file is inches, whatever the guild measures in.
    private static string Size(JsonNode? value) => value is JsonValue number && number.GetValueKind() == System.Text.Json.JsonValueKind.Number
        ? value + " in"
        : value?.ToString() ?? "";

    private static string Letters(JsonArray letters) => string.Join(' ', letters.Select(letter => letter?.ToString() ?? "-"));

    private static string Text(JsonObject unit, string field) => unit[field]?.ToString() ?? "";

    private static string Span(JsonObject unit, string side)
    {
        var from = Whole(unit, side, 0) + 1;
        var to = from + Whole(unit, side + "Span", 1) - 1;
        return from == to ? $"{from}" : $"{from}-{to}";
    }

    private static int Whole(JsonObject unit, string field, int otherwise) =>
        unit[field] is JsonValue value && value.TryGetValue<int>(out var whole) ? whole : otherwise;

    private static string Short(string line) => line.Length <= 40 ? line : line[..40] + "…";
}
