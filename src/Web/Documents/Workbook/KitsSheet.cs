using ClosedXML.Excel;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>What goes into each bag, line by line, with a cell to tick; each kit on a page of its own.</summary>
internal static class KitsSheet
{
    private const string Ticked = "✓";
    private const string Short = "short";
    private const int Columns = 10;
    private const int TickColumn = 9;

    public static void Add(XLWorkbook book, string name, ClassPlan plan)
    {
        var sheet = book.AddWorksheet(name);
        var habits = plan.Habits;
        sheet.Heading("Kits", $"Choose {Ticked} when a line is in the bag, \"{Short}\" when something is missing.");
        const int headings = 3;
        sheet.Headings(headings, "Kit", "For", "Colourway", "Letter", "Fabric", $"Width ({habits.CutUnit()})", $"Height ({habits.CutUnit()})", "Pieces", "In the bag", "Note");
        var row = headings;
        foreach (var kit in plan.Kits)
        {
            if (row > headings)
            {
                sheet.PageSetup.AddHorizontalPageBreak(row);
            }

            row = AddKit(sheet, row, plan, kit);
        }

        var last = Math.Max(row, headings + 1);
        var table = sheet.Table("KitLines", headings, row, Columns);
        table.ShowAutoFilter = true;
        AddTicks(sheet, headings + 1, last);
        sheet.Widths(5, 22, 14, 6, 22, 7, 7, 7, 8, 17);
        // Fitting to the width would drop the page breaks, so the columns are made to fit either paper as they are.
        sheet.PrintSetup(plan, headings, landscape: true, fitToWidth: false);
    }

    private static int AddKit(IXLWorksheet sheet, int row, ClassPlan plan, PlannedKit kit)
    {
        var note = kit.Note;
        var colourway = plan.ColourwayOf(kit)?.Name ?? "not chosen";
        foreach (var line in plan.LinesOf(kit))
        {
            row++;
            sheet.Cell(row, 1).Number(kit.Number, "0").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
            sheet.Cell(row, 2).Wrap(kit.Name, 22);
            sheet.Cell(row, 3).Wrap(colourway, 14);
            sheet.Cell(row, 4).Text(line.Letter);
            sheet.Cell(row, 5).Wrap(line.Fabric?.Name ?? "no fabric chosen", 22);
            sheet.Cell(row, 6).CutLength(line.Width, plan.Habits);
            sheet.Cell(row, 7).CutLength(line.Height, plan.Habits);
            sheet.Cell(row, 8).Number(line.Count, "0");
            sheet.Cell(row, TickColumn).Text("").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
            if (note.Length > 0)
            {
                sheet.Cell(row, 10).Wrap(note, 17);
                note = "";
            }
        }

        return row;
    }

    private static void AddTicks(IXLWorksheet sheet, int first, int last)
    {
        var ticks = sheet.Range(first, TickColumn, last, TickColumn);
        ticks.FillIn();
        var validation = ticks.SetDataValidation();
        validation.List($"\"{Ticked},{Short}\"", true);
        validation.ErrorTitle = "Tick or short";
        validation.ErrorMessage = $"Choose {Ticked} or \"{Short}\" from the list, or leave the cell empty.";
        sheet.Range(first, 1, last, Columns).AddConditionalFormat()
            .WhenIsTrue($"$I{first}=\"{Short}\"")
            .Fill.SetBackgroundColor(XLColor.FromHtml("#F8E7E2"))
            .Font.SetFontColor(XLColor.FromHtml("#9A3324"));
    }
}
