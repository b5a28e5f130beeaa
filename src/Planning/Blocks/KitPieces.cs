namespace KittingBee.Planning.Blocks;

/// <summary>Gathers the pieces of all units into one list for each fabric.</summary>
internal static class KitPieces
{
    /// <summary>
    /// Equal pieces of one fabric become one line that names every use. Largest first; fabrics that need no piece are left
    /// out.
    /// </summary>
    public static IReadOnlyList<FabricCutList> Of(IReadOnlyList<BlockFabric> fabrics, IEnumerable<MadePiece> pieces)
    {
        var byLetter = pieces.Select(Flat).ToLookup(piece => piece.Letter);
        return
        [
            .. fabrics.Where(fabric => byLetter.Contains(fabric.Letter)).Select(fabric => new FabricCutList(
                fabric.Letter,
                fabric.Name,
                [
                    .. byLetter[fabric.Letter]
                        .GroupBy(piece => (piece.Width, piece.Height, piece.IsStrip))
                        .Select(group => new KitPiece(
                            group.Key.Width,
                            group.Key.Height,
                            group.Sum(piece => piece.Count),
                            [.. group.Select(piece => piece.Use).Distinct()]))
                        .OrderByDescending(piece => piece.Height)
                        .ThenByDescending(piece => piece.Width),
                ])),
        ];
    }

    /// <summary>The longer side across, save for a strip, which lies as it is sewn.</summary>
    private static MadePiece Flat(MadePiece piece) =>
        piece.IsStrip || piece.Width >= piece.Height ? piece : piece with { Width = piece.Height, Height = piece.Width };
}
