using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>How far a kit has come.</summary>
public enum BagStage
{
    /// <summary>Something of it is still to cut.</summary>
    ToCut,

    /// <summary>All of it is cut.</summary>
    Cut,

    /// <summary>All of it is in the bag.</summary>
    Bagged,

    /// <summary>Somebody looked it over.</summary>
    Checked,

    /// <summary>The student has it.</summary>
    HandedOver,
}

/// <summary>Stages in words.</summary>
public static class BagWords
{
    public static string Of(BagStage stage) => stage switch
    {
        BagStage.HandedOver => Say("handed over"),
        BagStage.Checked => Say("checked"),
        BagStage.Bagged => Say("bagged"),
        BagStage.Cut => Say("cut"),
        _ => Say("to cut"),
    };

    /// <summary>Every stage in order, for a page that says them anew as marks come in.</summary>
    public static string All => string.Join('|', Enum.GetValues<BagStage>().Select(Of));
}

/// <summary>One line of one bag as it stands.</summary>
/// <param name="Line">What it is.</param>
/// <param name="Mark">The standing mark, or null where it is still to cut.</param>
public sealed record BagLine(PackLine Line, KitMark? Mark)
{
    public string State => Mark?.State ?? "";
}

/// <summary>One kit on the packing table.</summary>
/// <param name="Kit">Whose it is.</param>
/// <param name="Colourway">Its colourway, or null where none is chosen.</param>
/// <param name="Lines">Its contents.</param>
/// <param name="Whole">The standing mark of the whole kit: checked or handed over.</param>
/// <param name="Shortages">What it lacks and has not got yet.</param>
public sealed record Bag(PlannedKit Kit, PlannedColourway? Colourway, IReadOnlyList<BagLine> Lines, KitMark? Whole, IReadOnlyList<Shortage> Shortages)
{
    public BagStage Stage => Whole?.State switch
    {
        KitState.HandedOver => BagStage.HandedOver,
        KitState.Checked => BagStage.Checked,
        _ when Lines.Count > 0 && Lines.All(line => line.State == KitState.Bagged) => BagStage.Bagged,
        _ when Lines.Count > 0 && Lines.All(line => line.Mark is not null) => BagStage.Cut,
        _ => BagStage.ToCut,
    };

    /// <summary>Lines that are not in the bag although the kit was called checked or handed over.</summary>
    public int Lacking => Whole is null ? 0 : Lines.Count(line => line.State != KitState.Bagged);

    public bool IsShort => Shortages.Count > 0 || Lacking > 0;

    /// <summary>The fabric of a letter, or null without a colourway.</summary>
    public long? FabricOf(string letter) => Colourway?.FabricOfLetter.TryGetValue(letter, out var id) == true ? id : null;
}

/// <summary>All bags of a class as they stand at one moment.</summary>
/// <param name="Lines">The lines that kits have; those in one colourway may have others than those in another.</param>
/// <param name="All">By number.</param>
/// <param name="Sequence">The last mark that is in it.</param>
public sealed record Bags(IReadOnlyList<PackLine> Lines, IReadOnlyList<Bag> All, long Sequence)
{
    public static Bags Of(ClassPlan plan, PackingTable table, IReadOnlyList<Shortage> shortages)
    {
        var ways = plan.Colourways.ToDictionary(way => way.ColourwayId);
        var linesOf = ways.Values.ToDictionary(way => way.ColourwayId, way => PackLine.Of(plan.BagOf(way).List));
        var pieces = PackLine.Of(plan.CutList);
        var (standing, sequence) = table.Snapshot();
        var open = shortages.Where(shortage => shortage.MendedAt is null).ToLookup(shortage => shortage.KitId);
        return new(
            linesOf.Count == 0 ? pieces : [.. linesOf.Values.SelectMany(lines => lines).DistinctBy(line => line.Key)],
            [.. plan.Kits.OrderBy(kit => kit.Number).Select(kit => new Bag(
                kit,
                kit.ColourwayId is { } id ? ways.GetValueOrDefault(id) : null,
                [.. LinesOf(kit).Select(line => new BagLine(line, standing.GetValueOrDefault((kit.KitId, line.Key))))],
                standing.GetValueOrDefault((kit.KitId, KitMark.WholeKit)),
                [.. open[kit.KitId]]))],
            sequence);

        IReadOnlyList<PackLine> LinesOf(PlannedKit kit) => kit.ColourwayId is { } id && linesOf.TryGetValue(id, out var own) ? own : pieces;
    }

    /// <summary>Kits that have come at least so far.</summary>
    public int AtLeast(BagStage stage) => All.Count(bag => bag.Stage >= stage);

    /// <summary>The next bag to pack after a number, from the start again at the end; null when all are packed.</summary>
    public Bag? NextToPack(int number) =>
        All.OrderBy(bag => bag.Kit.Number <= number).ThenBy(bag => bag.Kit.Number)
            .FirstOrDefault(bag => bag.Kit.Number != number && bag.Stage < BagStage.Bagged);
}
