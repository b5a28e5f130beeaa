using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Showing;

/// <summary>Cloth on hand in words.</summary>
public static class ShelfText
{
    /// <summary><c>2 remnants 12″ × 20″, blue box</c>; a bolt or length by its yardage.</summary>
    public static string Describe(ShelfPiece piece, ClassHabits habits)
    {
        var size = piece.Kind == "remnant"
            ? $"{habits.Show(piece.Width)} × {habits.Show(piece.Length)}"
            : $"{habits.ShowYardage(piece.Length)}, {habits.Show(piece.Width)} wide";
        var what = piece.Count == 1 ? $"{char.ToUpperInvariant(piece.Kind[0])}{piece.Kind[1..]}" : $"{piece.Count} {piece.Kind}s";
        return piece.Note.Length == 0 ? $"{what} {size}" : $"{what} {size}, {piece.Note}";
    }
}
