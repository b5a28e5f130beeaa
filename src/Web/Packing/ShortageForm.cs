using KittingBee.Web.Forms;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>A piece that a bag lacks, as typed.</summary>
public sealed class ShortageForm
{
    /// <summary>Report, kit and line in one, where several come together.</summary>
    public string? Order { get; set; }

    /// <summary>Key of the kit's line.</summary>
    public string? Line { get; set; }

    public string? Count { get; set; } = "1";

    public string? Reason { get; set; } = "missing";

    public string? Note { get; set; }

    public Shortage? Read(FormReader reader, Bag bag, string who)
    {
        var line = bag.Lines.FirstOrDefault(line => line.Line.Key == Line)?.Line;
        if (line is null)
        {
            reader.Wrong(nameof(Line), "Which piece is it? Choose one from the list.");
        }

        var count = reader.Whole(nameof(Count), Count, "How many", 1, line?.Count ?? 1);
        var reason = reader.Choice(nameof(Reason), Reason, "What happened", "missing", "spoiled");
        var note = reader.Optional(nameof(Note), Note, "The note", 200);
        var fabricId = line is null ? null : bag.FabricOf(line.Letter);
        if (line is not null && fabricId is null)
        {
            reader.Wrong(nameof(Line), "This kit has no colourway, so it is not known which fabric to cut: choose one on the roster first.");
        }

        return reader.IsGood && line is not null && fabricId is { } fabric
            ? new Shortage
            {
                Id = Guid.NewGuid(), ClassId = 0, KitId = bag.Kit.KitId, Letter = line.Letter, FabricId = fabric, Width = line.Width, Height = line.Height,
                Count = count, Reason = reason, Note = note, Who = who,
            }
            : null;
    }
}
