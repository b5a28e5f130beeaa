using ClosedXML.Excel;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>What to take from the shelf and what to buy, with room to tick and to write what was paid.</summary>
internal static class ShoppingSheet
{
    private const int Columns = 9;

    public static void Add(XLWorkbook book, string name, ClassPlan plan, ShoppingList list)
    {
        var sheet = book.AddWorksheet(name);
        var habits = plan.Habits;
        sheet.Heading(Say("Shopping list"), Say("Shelf first, then the shop. Tinted cells are for you: what you really bought and paid."));
        const int headings = 4;
        sheet.Headings(headings, Say("Got it"), Say("Fabric"), Say("Where from"), Say("How much"), Say("Unit"), Say($"Cost ({habits.Currency})"), Say("Really bought"), Say($"Really paid ({habits.Currency})"), Say("Supplier note"));
        var row = headings;
        foreach (var line in list.Lines)
        {
            foreach (var (source, length, count, cost) in PartsOf(line))
            {
                row++;
                sheet.Cell(row, 1).Text("☐").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
                sheet.Cell(row, 2).Wrap(line.Name, 23);
                sheet.Cell(row, 3).Wrap(source, 23);
                if (length is { } bolt)
                {
                    sheet.Cell(row, 4).Yardage(bolt, habits);
                    sheet.Cell(row, 5).Text(habits.ShopUnit());
                }
                else
                {
                    sheet.Cell(row, 4).Number(count, "0");
                    sheet.Cell(row, 5).Text(count == 1 ? Say("piece") : Say("pieces"));
                }

                sheet.Cell(row, 6).Money(cost);
                sheet.Cell(row, 9).Wrap(line.SupplierNote, 27);
            }
        }

        var last = Math.Max(row, headings + 1);
        sheet.Table("Shopping", headings, row, Columns);
        var filled = sheet.Range(headings + 1, 7, last, 8);
        filled.FillIn();
        filled.Style.NumberFormat.Format = "#,##0.00";
        var validation = filled.SetDataValidation();
        validation.Decimal.EqualOrGreaterThan(0);
        validation.ErrorTitle = Say("A number, please");
        validation.ErrorMessage = Say("Enter zero or more, as a plain number.");
        sheet.Cell(last + 1, 5).Text(Say("Together")).Style.Font.SetBold();
        sheet.Cell(last + 1, 6).Formula($"SUM(F{headings + 1}:F{last})", "#,##0.00").Style.Font.SetBold();
        sheet.Cell(last + 1, 8).Formula($"SUM(H{headings + 1}:H{last})", "#,##0.00").Style.Font.SetBold();
        sheet.Widths(10, 24, 24, 9, 10, 11, 11, 12, 28);
        sheet.PrintSetup(plan, headings, landscape: true);
    }

    private static IEnumerable<(string Source, Length? Length, int Count, decimal Cost)> PartsOf(ShoppingLine line) =>
    [
        .. line.FromShelf.Select(sheet => (Say($"shelf: {sheet.Name}"), (Length?)null, sheet.Used, 0m)),
        .. line.Sheets.Select(sheet => (Say($"shop: {Showing.ShoppingWords.Packs(sheet)}"), (Length?)null, sheet.Bought, sheet.Cost)),
        .. line.Length.IsPositive ? [(Say("shop: off the bolt"), (Length?)line.Length, 0, line.LengthCost)] : Array.Empty<(string, Length?, int, decimal)>(),
    ];
}
