using ClosedXML.Excel;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>What to take from the shelf and what to buy, with room to tick and to write what was paid.</summary>
internal static class ShoppingSheet
{
    private const int Columns = 9;

    public static void Add(XLWorkbook book, string name, ClassPlan plan)
    {
        var sheet = book.AddWorksheet(name);
        var habits = plan.Habits;
        sheet.Heading("Shopping list", "Shelf first, then the shop. Tinted cells are for you: what you really bought and paid.");
        const int headings = 4;
        sheet.Headings(headings, "Got it", "Fabric", "Where from", "How much", "Unit", $"Cost ({habits.Currency})", "Really bought", $"Really paid ({habits.Currency})", "Supplier note");
        var row = headings;
        foreach (var fabric in plan.Fabrics.Where(fabric => fabric.Plan is not null))
        {
            foreach (var line in LinesOf(fabric))
            {
                row++;
                sheet.Cell(row, 1).Text("☐").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
                sheet.Cell(row, 2).Text(fabric.Name);
                sheet.Cell(row, 3).Wrap(line.Source, 23);
                if (line.Length is { } length)
                {
                    sheet.Cell(row, 4).Yardage(length, habits);
                    sheet.Cell(row, 5).Text(habits.ShopUnit());
                }
                else
                {
                    sheet.Cell(row, 4).Number(line.Count, "0");
                    sheet.Cell(row, 5).Text(line.Count == 1 ? "piece" : "pieces");
                }

                sheet.Cell(row, 6).Money(line.Cost);
                sheet.Cell(row, 9).Wrap(fabric.SupplierNote, 27);
            }
        }

        var last = Math.Max(row, headings + 1);
        sheet.Table("Shopping", headings, row, Columns);
        var filled = sheet.Range(headings + 1, 7, last, 8);
        filled.FillIn();
        filled.Style.NumberFormat.Format = "#,##0.00";
        var validation = filled.SetDataValidation();
        validation.Decimal.EqualOrGreaterThan(0);
        validation.ErrorTitle = "A number, please";
        validation.ErrorMessage = "Enter zero or more, as a plain number.";
        sheet.Cell(last + 1, 5).Text("Together").Style.Font.SetBold();
        sheet.Cell(last + 1, 6).Formula($"SUM(F{headings + 1}:F{last})", "#,##0.00").Style.Font.SetBold();
        sheet.Cell(last + 1, 8).Formula($"SUM(H{headings + 1}:H{last})", "#,##0.00").Style.Font.SetBold();
        sheet.Widths(6, 24, 24, 9, 7, 11, 11, 12, 28);
        sheet.PrintSetup(plan, headings, landscape: true);
    }

    /// <summary>Sheets used, shelf first, then the length of bolt to buy.</summary>
    private static IEnumerable<(string Source, Length? Length, int Count, decimal Cost)> LinesOf(PlannedFabric fabric)
    {
        var plan = fabric.Plan!;
        var sheetCost = 0m;
        foreach (var used in plan.Sheets.GroupBy(sheet => sheet.Sheet))
        {
            var stock = fabric.Request.Stock.Sheets[used.Key];
            var count = used.Sum(recipe => recipe.Repeat);
            var bought = stock.Price == 0 ? count : (count + stock.PackSize - 1) / stock.PackSize * stock.PackSize;
            var cost = Buying.SheetPrice(stock, count);
            sheetCost += cost;
            yield return (stock.Price == 0 ? $"shelf: {stock.Name}" : $"shop: {stock.Name}", null, bought, cost);
        }

        if (plan.Buy.Length.IsPositive)
        {
            yield return ("shop: off the bolt", plan.Buy.Length, 0, plan.Buy.Cost - sheetCost);
        }
    }
}
