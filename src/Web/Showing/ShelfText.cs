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
            : Say($"{habits.ShowYardage(piece.Length)}, {habits.Show(piece.Width)} wide");
        var what = (piece.Kind, piece.Count) switch
        {
            ("remnant", 1) => Say($"Remnant {size}"),
            ("length", 1) => Say($"Length {size}"),
            (_, 1) => Say($"Bolt {size}"),
            ("remnant", _) => $"{Many(piece.Count, "remnant")} {size}",
            ("length", _) => $"{Many(piece.Count, "length")} {size}",
            _ => $"{Many(piece.Count, "bolt")} {size}",
        };
        return piece.Note.Length == 0 ? what : $"{what}, {piece.Note}";
    }

    /// <summary><c>$12.50 a yard</c>.</summary>
    public static string Price(Fabric fabric, string currency)
    {
        var price = MoneyText.Write(fabric.Price, currency);
        return fabric.PricePer == "metre" ? Say($"{price} a metre") : Say($"{price} a yard");
    }
}
