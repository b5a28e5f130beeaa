using ClosedXML.Excel;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>To be filled in after the class: what was bought, spoiled and left of each fabric. The difference reckons itself.</summary>
internal static class SettleSheet
{
    private const int Columns = 9;

    public static void Add(XLWorkbook book, string name, ClassPlan plan)
    {
        var sheet = book.AddWorksheet(name);
        var unit = plan.Habits.ShopUnit();
        sheet.Heading(Say("Settle"), plan.Habits.Metric
            ? Say("Fill in the tinted cells after the class, in metres of the whole width. Difference = bought − planned − spoiled − left.")
            : Say("Fill in the tinted cells after the class, in yards of the whole width. Difference = bought − planned − spoiled − left."));
        const int headings = 4;
        sheet.Headings(headings, SheetWords.Fabric.Said, Say($"Planned ({unit})"), Say($"To buy ({unit})"), SheetWords.Bought.In(unit), SheetWords.Paid.In(plan.Habits.Currency), SheetWords.Spoiled.In(unit), SheetWords.Left.In(unit), Say($"Difference ({unit})"), SheetWords.Remnants.Said);
        var row = headings;
        foreach (var fabric in plan.Fabrics.Where(fabric => fabric.HasTicket))
        {
            row++;
            sheet.Cell(row, 1).Text(fabric.Name);
            // Strips end where they end, so the length is rarely a whole eighth.
            sheet.Cell(row, 2).Number(plan.Habits.Metric ? fabric.Plan!.Length.Millimetres / 1000 : fabric.Plan!.Length.Yards, "0.000");
            sheet.Cell(row, 3).Yardage(fabric.Plan.Buy.Length, plan.Habits);
            sheet.Cell(row, 8).Formula($"IF(COUNT(D{row},G{row})=2,D{row}-B{row}-N(F{row})-G{row},\"\")", "0.000");
            sheet.Cell(row, 9).Text("");
        }

        var last = Math.Max(row, headings + 1);
        sheet.Table("Settle", headings, row, Columns);
        var numbers = sheet.Range(headings + 1, 4, last, 7);
        numbers.FillIn();
        numbers.Style.NumberFormat.Format = "#,##0.00#";
        var validation = numbers.SetDataValidation();
        validation.Decimal.EqualOrGreaterThan(0);
        validation.ErrorTitle = Say("A number, please");
        validation.ErrorMessage = Say("Enter zero or more, as a plain number.");
        sheet.Range(headings + 1, 9, last, 9).FillIn();
        sheet.Widths(26, 11, 11, 11, 11, 11, 11, 12, 30);
        sheet.PrintSetup(plan, headings, landscape: true);
    }
}
