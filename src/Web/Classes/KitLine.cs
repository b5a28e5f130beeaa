using System.Globalization;
using KittingBee.Planning;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Classes;

/// <summary>One line of a kit: equal pieces of one fabric that go into the bag, or strips, squares and the like that its student cuts pieces from.</summary>
/// <param name="Key">The same for as long as letter and size are; packing marks refer to it.</param>
/// <param name="Letter">Letter in the block.</param>
/// <param name="Fabric">The real fabric, or null where the kit's colourway has none for the letter.</param>
/// <param name="Width">Cut width.</param>
/// <param name="Height">Cut height.</param>
/// <param name="Count">Pieces in the bag.</param>
/// <param name="Uses">What they are for.</param>
/// <param name="Thing">What it is called where its student cuts it; null for cut pieces.</param>
public sealed record KitLine(string Key, string Letter, PlannedFabric? Fabric, Length Width, Length Height, int Count, IReadOnlyList<Sentence> Uses, Sentence? Thing = null)
{
    /// <summary>The size as people say it: "4½″ square", "2½″ × 4½″" or "2½″ strip, 40″ long".</summary>
    public string Size(ClassHabits habits) => Thing is null ? habits.ShowPiece(Width, Height) : Say(Thing);
}

/// <summary>What goes into each bag.</summary>
public static class KitLines
{
    /// <summary>The lines of one kit in the block's order, in its own colourway's fabrics.</summary>
    public static IReadOnlyList<KitLine> LinesOf(this ClassPlan plan, PlannedKit kit) => plan.LinesIn(plan.ColourwayOf(kit));

    /// <summary>The lines of any kit in a colourway: the same for all of them.</summary>
    public static IReadOnlyList<KitLine> LinesIn(this ClassPlan plan, PlannedColourway? colourway)
    {
        var fabrics = plan.FabricsOf(colourway);
        return [.. plan.BagOf(colourway).List.Fabrics.SelectMany(list => list.Pieces.Select(piece => new KitLine(
            KeyOf(list.Letter, piece.Width, piece.Height),
            list.Letter,
            fabrics.GetValueOrDefault(list.Letter),
            piece.Width,
            piece.Height,
            piece.Count,
            piece.Uses,
            piece.Thing)))];
    }

    /// <summary>Letter to fabric for a colourway; letters without one are left out.</summary>
    public static IReadOnlyDictionary<string, PlannedFabric> FabricsOf(this ClassPlan plan, PlannedColourway? colourway)
    {
        var byId = plan.Fabrics.ToDictionary(fabric => fabric.FabricId);
        return (colourway?.FabricOfLetter ?? new Dictionary<string, long>())
            .Where(pair => byId.ContainsKey(pair.Value))
            .ToDictionary(pair => pair.Key, pair => byId[pair.Value]);
    }

    /// <summary>A size as people say it: "4½″ square" or "2½″ × 4½″".</summary>
    public static string ShowPiece(this ClassHabits habits, Length width, Length height) =>
        width == height ? Say($"{habits.Show(width)} square") : $"{habits.Show(width)} × {habits.Show(height)}";

    /// <summary>So many of a size: "28 of 5¼″ square".</summary>
    public static string ShowPieces(this ClassHabits habits, long count, Length width, Length height) =>
        Say($"{count:0} of {habits.ShowPiece(width, height)}");

    private static string KeyOf(string letter, Length width, Length height) =>
        string.Create(CultureInfo.InvariantCulture, $"{letter}-{width.Ticks}x{height.Ticks}");
}
