using KittingBee.Planning.Classes;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Showing;

/// <summary>Lines of a shopping list in words.</summary>
public static class ShoppingWords
{
    /// <summary>What is bought of a fabric: "1 ⅜ yd", "2 packs of 42 × 5″ square", "24 × fat quarter"; empty where nothing is.</summary>
    public static string Buy(this ClassHabits habits, ShoppingLine line) => string.Join(
        " + ",
        line.Sheets.Select(Packs).Prepend(line.Length.IsPositive ? habits.ShowYardage(line.Length) : "").Where(part => part.Length > 0));

    /// <summary>Sheets as the shop has them.</summary>
    public static string Packs(SheetsToBuy sheets) => sheets.PackSize == 1
        ? $"{sheets.Bought} × {Say(sheets.Name)}"
        : sheets.Packs == 1 ? Say($"{sheets.Packs} pack of {sheets.PackSize} × {sheets.Name}") : Say($"{sheets.Packs} packs of {sheets.PackSize} × {sheets.Name}");

    /// <summary>What is taken from the shelf; empty where nothing is.</summary>
    public static string FromShelf(ShoppingLine line) =>
        string.Join(", ", line.FromShelf.Select(sheet => sheet.Used == 1 ? Say(sheet.Name) : $"{sheet.Used} × {Say(sheet.Name)}"));
}
