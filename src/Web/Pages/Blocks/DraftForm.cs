using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>The editor's fields as typed. With the script, the units come as <see cref="Json"/>; without it, as lines.</summary>
public sealed class DraftForm
{
    public string? Name { get; set; }

    public string? Columns { get; set; }

    public string? Rows { get; set; }

    public string? Fabrics { get; set; }

    /// <summary>A unit on each line.</summary>
    public string? Units { get; set; }

    /// <summary>The whole sketch, from the script.</summary>
    public string? Json { get; set; }

    public long Version { get; set; }

    /// <summary>Replace the block though it was changed since.</summary>
    public bool Overwrite { get; set; }

    public static DraftForm Of(BlockSketch sketch, long version) => new()
    {
        Name = sketch.Name,
        Columns = sketch.Columns,
        Rows = sketch.Rows,
        Fabrics = sketch.Fabrics,
        Units = UnitLines.Write(sketch.Units),
        Version = version,
    };

    /// <summary>What was drawn, and which lines do not read.</summary>
    public (BlockSketch Sketch, IReadOnlyList<string> Wrong) Read(ClassHabits habits)
    {
        if (!string.IsNullOrEmpty(Json))
        {
            return BlockSketch.Parse(Json) is { } sent ? (sent, []) : (Fields([]), [Say("The drawing did not come through whole. Load the page again: the draft holds what was kept last.")]);
        }

        var (units, problems) = UnitLines.Read(Units ?? "", habits.Metric ? LengthUnit.Centimetre : LengthUnit.Inch);
        return (Fields(units), [.. problems.Select(problem => Say(problem.Said))]);
    }

    private BlockSketch Fields(System.Text.Json.Nodes.JsonArray units) => new()
    {
        Name = (Name ?? "").Trim(),
        Columns = (Columns ?? "").Trim(),
        Rows = (Rows ?? "").Trim(),
        Fabrics = (Fabrics ?? "").ReplaceLineEndings("\n").Trim(),
        Units = units,
    };
}
