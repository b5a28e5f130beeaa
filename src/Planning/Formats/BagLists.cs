using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>
/// What goes into the bags of one colourway, written as a cut list: pieces where the teacher cuts them, and strips, squares,
/// quarters or a length where the student does. Whatever follows from a cut list (demand, shopping, packing) follows from it.
/// </summary>
public static class BagLists
{
    /// <summary>
    /// The cut list with its handed-out fabrics in place of their pieces. A fabric that serves several letters lies in the bag
    /// once, under the first of them; the others then have no pieces.
    /// </summary>
    /// <param name="perKit">The cut list of one kit.</param>
    /// <param name="fabricOfLetter">The colourway.</param>
    /// <param name="handedOut">By fabric, what is handed out in this colourway; fabrics that are not in it are cut into pieces.</param>
    /// <param name="style">How lengths are written.</param>
    public static CutList For(
        CutList perKit, IReadOnlyDictionary<string, long> fabricOfLetter, IReadOnlyDictionary<long, HandedOut> handedOut, LengthStyle style = LengthStyle.Eighths)
    {
        if (handedOut.Count == 0)
        {
            return perKit;
        }

        var given = new HashSet<long>();
        return perKit with
        {
            Fabrics =
            [
                .. perKit.Fabrics.Select(list =>
                    list.Pieces.Count == 0 || !fabricOfLetter.TryGetValue(list.Letter, out var fabric) || !handedOut.TryGetValue(fabric, out var thing)
                        ? list
                        : list with { Pieces = given.Add(fabric) ? [new KitPiece(thing.Width, thing.Height, thing.Count, [$"to cut into {thing.PiecesInWords(style)}"], thing.InWords(style))] : [] }),
            ],
        };
    }

    /// <summary>All that one kit needs of the fabric of some letters, equal sizes together.</summary>
    public static IReadOnlyList<CutPiece> PiecesOf(CutList perKit, IReadOnlyCollection<string> letters, LengthStyle style = LengthStyle.Eighths) =>
    [
        .. from list in perKit.Fabrics
           where letters.Contains(list.Letter)
           from piece in list.Pieces
           group (list.Letter, piece.Count) by (piece.Width, piece.Height) into size
           orderby size.Key.Height descending, size.Key.Width descending
           select new CutPiece(
               $"{string.Join(", ", size.Select(part => part.Letter).Distinct())}: {PieceNames.Size(size.Key.Width, size.Key.Height, style)}",
               size.Key.Width, size.Key.Height, size.Sum(part => part.Count)),
    ];
}
