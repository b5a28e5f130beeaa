using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Packing;

/// <summary>One line of a kit's contents: equal pieces of one letter, or what its student cuts them from. Each has a tick of its own.</summary>
/// <param name="Key">Names the line in marks; it follows from letter and size, so that it outlives a change of the roster.</param>
/// <param name="Letter">The fabric's letter.</param>
/// <param name="Name">The letter's name in the block.</param>
/// <param name="Width">Cut width.</param>
/// <param name="Height">Cut height.</param>
/// <param name="Count">Pieces in one kit.</param>
/// <param name="Thing">What it is called where its student cuts it; null for cut pieces.</param>
public sealed record PackLine(string Key, string Letter, string Name, Length Width, Length Height, int Count, Planning.Sentence? Thing = null)
{
    /// <summary>The size in words.</summary>
    public string Size(ClassHabits habits) => Thing is null ? habits.ShowPiece(Width, Height) : Say(Thing);

    /// <summary>The lines of one kit, in the order of the cut list. Pieces of equal size are one line.</summary>
    public static IReadOnlyList<PackLine> Of(CutList cutList) =>
    [
        .. from fabric in cutList.Fabrics
           from size in fabric.Pieces.GroupBy(piece => (piece.Width, piece.Height))
           select new PackLine(KeyOf(fabric.Letter, size.Key.Width, size.Key.Height), fabric.Letter, fabric.Name, size.Key.Width, size.Key.Height, size.Sum(piece => piece.Count), size.First().Thing),
    ];

    private static string KeyOf(string letter, Length width, Length height) =>
        string.Create(CultureInfo.InvariantCulture, $"{letter}-{width.Ticks}x{height.Ticks}");
}
