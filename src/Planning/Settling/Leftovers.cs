using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Settling;

/// <summary>What the leftovers of a fabric still make.</summary>
public static class Leftovers
{
    /// <summary>The most lines of one size that are looked at; more go by in their order.</summary>
    private const int MostSheets = 60;

    /// <summary>
    /// Leftovers as stock that the next plan uses first: free of charge, equal sizes together, largest first. Pieces with a side
    /// shorter than <paramref name="leastSide"/> are scraps and left out.
    /// </summary>
    public static IReadOnlyList<SheetStock> AsStock(IEnumerable<Cloth> left, Length leastSide, LengthStyle style = LengthStyle.Eighths) =>
    [
        .. left.Where(piece => Length.Min(piece.Width, piece.Length) >= leastSide && piece.Width.IsPositive && piece.Length.IsPositive)
            .GroupBy(piece => (piece.Width, piece.Length))
            .OrderByDescending(same => (Int128)same.Key.Width.Ticks * same.Key.Length.Ticks)
            .Take(MostSheets)
            .Select(same => new SheetStock($"Remnant {PieceNames.SizeInWords(same.Key.Width, same.Key.Length, style)}", same.Key.Width, same.Key.Length, same.Count(), 0m)),
    ];

    /// <summary>
    /// How many whole kits of this fabric the leftovers still make: a number that has a plan. Null where the kit has no pieces
    /// of it, so that the fabric sets no limit.
    /// </summary>
    /// <param name="kit">The fabric's pieces of one kit.</param>
    /// <param name="stock">The leftovers, each with a number; see <see cref="AsStock"/>.</param>
    /// <param name="directional">True where the cloth has a direction.</param>
    public static int? KitsFrom(IReadOnlyList<CutPiece> kit, IReadOnlyList<SheetStock> stock, bool directional)
    {
        if (kit.Count == 0)
        {
            return null;
        }

        var fits = kit.All(piece => stock.Any(sheet => Fits(piece, sheet, directional)));
        if (!fits)
        {
            return 0;
        }

        var request = new CuttingRequest(new CuttingStock(null, stock), kit) { Directional = directional };
        var result = Headroom.Search(request, Length.Zero, [.. stock.Select(sheet => sheet.Available ?? 0)], [.. kit.Select(piece => piece.Count)]);
        return result is { Enough: true } ? result.Further + 1 : 0;
    }

    /// <summary>How many pieces of each size the leftovers make, each size on its own.</summary>
    public static IReadOnlyList<(CutPiece Piece, int Count)> PiecesFrom(IReadOnlyList<CutPiece> pieces, IReadOnlyList<SheetStock> stock, bool directional) =>
        [.. pieces.Select(piece => (piece, KitsFrom([piece with { Count = 1 }], stock, directional) ?? 0))];

    private static bool Fits(CutPiece piece, SheetStock sheet, bool directional) =>
        (piece.Width <= sheet.Width && piece.Height <= sheet.Length)
        || (piece.MayTurn && !directional && piece.Height <= sheet.Width && piece.Width <= sheet.Length);
}
