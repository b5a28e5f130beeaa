using ClosedXML.Excel;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>The class at a glance: what, when, how many kits, each fabric's length and cost.</summary>
internal static class SummarySheet
{
    public static void Add(XLWorkbook book, string name, ClassPlan plan)
    {
        var sheet = book.AddWorksheet(name);
        var habits = plan.Habits;
        sheet.Heading(plan.Title, WhenAndWhere(plan));
        Fact(sheet, 3, Say("Block or pattern"), plan.BlockName);
        Fact(sheet, 4, Say("Kits"), Kits(plan));
        Fact(sheet, 5, Say("Seam allowance"), habits.Show(plan.Rules.SeamAllowance));

        const int headings = 7;
        sheet.Headings(headings, Say("Fabric"), Say("Letters"), Say($"Usable width ({habits.CutUnit()})"), Say($"Strips take ({habits.CutUnit()})"), Say($"Buy ({habits.ShopUnit()})"),
            Say($"Cost ({habits.Currency})"), Say($"One size a strip ({habits.ShopUnit()})"), Say($"Saved ({habits.Currency})"));
        var row = headings;
        foreach (var fabric in plan.Fabrics)
        {
            row++;
            sheet.Cell(row, 1).Wrap(fabric.Name, 25);
            sheet.Cell(row, 2).Text(string.Join(", ", fabric.Letters));
            if (fabric.Request.Stock.Bolt is { } bolt)
            {
                sheet.Cell(row, 3).CutLength(bolt.UsableWidth, habits);
            }

            if (fabric is { IsBought: true, Plan: { } precuts })
            {
                sheet.Cell(row, 1).Wrap(Say($"{fabric.Name}: {fabric.Request.Pieces.Sum(piece => piece.Count)} × {fabric.Request.Stock.Sheets[0].Name}, bought"), 25);
                sheet.Cell(row, 6).Money(precuts.Buy.Cost);
            }
            else if (fabric.Plan is { } cutting)
            {
                sheet.Cell(row, 4).CutLength(cutting.Length, habits);
                sheet.Cell(row, 5).Yardage(cutting.Buy.Length, habits);
                sheet.Cell(row, 6).Money(cutting.Buy.Cost);
                sheet.Cell(row, 7).Yardage(cutting.OneSizePerStrip.Length, habits);
                sheet.Cell(row, 8).Money(cutting.OneSizePerStrip.Cost - cutting.Buy.Cost);
            }
        }

        sheet.Table("Fabrics", headings, row, 8);
        sheet.Widths(26, 11, 9, 9, 9, 10, 10, 9);
        AddProblems(sheet, row + 2, plan);
        sheet.PrintSetup(plan, headings);
    }

    private static string WhenAndWhere(ClassPlan plan) => string.Join(" · ", new[]
    {
        plan.HeldOn is { } day ? Showing.ClassText.Day(day) : null, plan.HeldTime, plan.Place,
    }.Where(part => !string.IsNullOrWhiteSpace(part)));

    private static string Kits(ClassPlan plan)
    {
        int Count(KitRole role) => plan.Kits.Count(kit => kit.Role == role);
        var counted = new[]
        {
            (Count: Count(KitRole.Student), Words: Many(Count(KitRole.Student), "student")),
            (Count: Count(KitRole.Open), Words: Say($"{Count(KitRole.Open)} to claim")),
            (Count: Count(KitRole.Spare), Words: Many(Count(KitRole.Spare), "spare")),
            (Count: Count(KitRole.Sample), Words: Many(Count(KitRole.Sample), "sample")),
        }.Where(part => part.Count > 0).Select(part => part.Words);
        return $"{plan.Kits.Count}: {string.Join(", ", counted)}";
    }

    private static void Fact(IXLWorksheet sheet, int row, string what, string value)
    {
        sheet.Cell(row, 1).Text(what).Style.Font.SetBold();
        sheet.Cell(row, 2).Text(value);
    }

    private static void AddProblems(IXLWorksheet sheet, int row, ClassPlan plan)
    {
        foreach (var problem in plan.Problems.Concat(plan.Fabrics.SelectMany(fabric => fabric.Problems)))
        {
            sheet.Cell(row++, 1).Text(Say(problem.Said)).Style.Font.SetFontColor(XLColor.FromHtml("#9A3324"));
        }
    }
}
