using System.Text.Json;
using System.Text.Json.Serialization;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>How one line of a kit stands now, as every open page is told.</summary>
/// <param name="Kit">The kit.</param>
/// <param name="Line">Its line, or <see cref="KitMark.WholeKit"/>.</param>
/// <param name="State">The furthest state that stands; empty for to cut.</param>
/// <param name="Mark">The sequence of the mark that gives it, for taking it back; 0 where none stands.</param>
/// <param name="Who">Who made that mark.</param>
/// <param name="At">When it was stored.</param>
public sealed record LineChange(long Kit, string Line, string State, long Mark, string Who, string At)
{
    public static LineChange Of(long kit, string line, KitMark? standing) => standing is null
        ? new(kit, line, "", 0, "", "")
        : new(kit, line, standing.State, standing.Sequence, standing.Who, standing.MarkedAt);
}

/// <summary>What changed on the table up to a sequence. It says how lines stand, not what was done to them, so that it can be told twice and late.</summary>
/// <param name="Sequence">The last mark that it takes in.</param>
/// <param name="Lines">The lines that changed.</param>
public sealed record TableChange(long Sequence, IReadOnlyList<LineChange> Lines)
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web) { DefaultIgnoreCondition = JsonIgnoreCondition.Never };

    /// <summary>As an event of the stream.</summary>
    public string AsEvent() => $"id: {Sequence}\nevent: table\ndata: {JsonSerializer.Serialize(this, Options)}\n\n";
}
