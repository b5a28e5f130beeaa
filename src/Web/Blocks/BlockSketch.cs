using System.Text.Json;
using System.Text.Json.Nodes;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Blocks;

/// <summary>A block as it stands in the editor: sizes and fabrics as typed, units as in a file. It may be wrong; nothing is lost.</summary>
public sealed record BlockSketch
{
    public string Name { get; init; } = "";

    /// <summary>Column widths in one line, for <see cref="SizeList"/>.</summary>
    public string Columns { get; init; } = "";

    /// <summary>Row heights in one line.</summary>
    public string Rows { get; init; } = "";

    /// <summary>A letter and a name on each line, for <see cref="FabricLines"/>.</summary>
    public string Fabrics { get; init; } = "";

    /// <summary>The units, as in a block's JSON.</summary>
    public JsonArray Units { get; init; } = [];

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web) { MaxDepth = 40 };

    /// <summary>The sketch of a block, in sizes that read back exactly.</summary>
    public static BlockSketch Of(Block block, ClassHabits habits) => new()
    {
        Name = block.Name,
        Columns = Sizes(block.Columns, habits),
        Rows = Sizes(block.Rows, habits),
        Fabrics = FabricLines.Write(block.Fabrics),
        Units = JsonNode.Parse(BlockJson.Write(block))!["units"]!.DeepClone().AsArray(),
    };

    /// <summary>Reads what an editor sent; null where it is no sketch at all.</summary>
    public static BlockSketch? Parse(string? json)
    {
        try
        {
            return json is null or { Length: > BlockJson.LongestText } ? null : JsonSerializer.Deserialize<BlockSketch>(json, Options);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public string ToJson() => JsonSerializer.Serialize(this, Options);

    /// <summary>Reads the sketch as a block; the form only, not yet whether it can be cut.</summary>
    public BlockReading Read(ClassHabits habits)
    {
        var unit = habits.Metric ? LengthUnit.Centimetre : LengthUnit.Inch;
        var (columns, columnProblem) = SizeList.Read(Columns, unit, "columns");
        var (rows, rowProblem) = SizeList.Read(Rows, unit, "rows");
        var units = BlockJson.Read(new JsonObject
        {
            ["name"] = Name,
            ["columns"] = new JsonArray(),
            ["rows"] = new JsonArray(),
            ["fabrics"] = new JsonArray(),
            ["units"] = Units.DeepClone(),
        }.ToJsonString());
        var problems = new[] { columnProblem, rowProblem }.OfType<Problem>().Concat(units.Problems).ToList();
        return problems.Count > 0 || units.Block is not { } block
            ? new(null, problems)
            : new(block with { Columns = columns, Rows = rows, Fabrics = FabricLines.Read(Fabrics) }, []);
    }

    private static string Sizes(IEnumerable<Length> sizes, ClassHabits habits) =>
        string.Join(", ", sizes.Select(size => habits.InField(size).TrimEnd('″').Replace("\u00A0cm", "", StringComparison.Ordinal)));
}
