using System.Text.Json;
using System.Text.Json.Nodes;

namespace KittingBee.Web.Exchange;

/// <summary>Numbers of rows that stand inside a stored JSON text, such as the shelf pieces of a plan.</summary>
public static class NamedRows
{
    private const string PieceList = "shelf_piece_ids";

    private static readonly Dictionary<string, string> TableOf = new(StringComparer.OrdinalIgnoreCase)
    {
        ["FabricId"] = "fabric", ["ShelfPieceId"] = "shelf_piece", ["ColourwayId"] = "colourway", ["KitId"] = "kit", ["StudentId"] = "student", ["ClassId"] = "class", ["BlockId"] = "block",
    };

    /// <summary>True for a column that may hold such numbers.</summary>
    public static bool MayStandIn(string column) => column == PieceList || column.EndsWith("_json", StringComparison.Ordinal);

    /// <summary>The text with other numbers; the very same text where there are none in it.</summary>
    /// <exception cref="JsonException">The text is no JSON.</exception>
    public static string Renumber(string column, string text, Func<string, long, long?> other)
    {
        var root = JsonNode.Parse(text);
        var changed = false;
        if (column == PieceList && root is JsonArray list)
        {
            for (var at = 0; at < list.Count; at++)
            {
                if (list[at] is JsonValue value && value.TryGetValue<long>(out var number) && other("shelf_piece", number) is { } to)
                {
                    list[at] = to;
                    changed |= to != number;
                }
            }
        }
        else
        {
            Walk(root);
        }

        return changed ? root!.ToJsonString() : text;

        void Walk(JsonNode? node)
        {
            if (node is JsonArray array)
            {
                foreach (var item in array)
                {
                    Walk(item);
                }
            }
            else if (node is JsonObject thing)
            {
                foreach (var (name, value) in thing.ToList())
                {
                    if (TableOf.TryGetValue(name, out var table) && value is JsonValue one && one.TryGetValue<long>(out var number))
                    {
                        if (other(table, number) is { } to && to != number)
                        {
                            thing[name] = to;
                            changed = true;
                        }
                    }
                    else
                    {
                        Walk(value);
                    }
                }
            }
        }
    }
}
