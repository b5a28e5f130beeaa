using ClosedXML.Excel;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>What goes into each bag, line by line, with a cell to tick; each kit on a page of its own.</summary>
internal static class KitsSheet
{
    private const string Ticked = "✓";
    private const int Headings = 3;
    private const int TickColumn = 9;
    private static readonly double[] Widths = [10, 20, 14, 9, 20, 7, 7, 7, 8, 13];

    /// <summary>Makes the sheet; its lines are written once the workbook is saved.</summary>
    public static BulkRows Add(XLWorkbook book, string name, ClassPlan plan)
    {
        var sheet = book.AddWorksheet(name);
        var habits = plan.Habits;
        sheet.Heading(Say("Kits"), Say($"Choose {Ticked} when a line is in the bag, “{SheetWords.Short.Said}” when something is missing."));
        sheet.Headings(Headings, SheetWords.Kit.Said, Say("For"), Say("Colourway"), SheetWords.Letter.Said, SheetWords.Fabric.Said, SheetWords.Width.In(habits.CutUnit()), SheetWords.Height.In(habits.CutUnit()), Say("Pieces"), SheetWords.InTheBag.Said, Say("Note"));
        var row = Headings;
        foreach (var kit in plan.Kits)
        {
            if (row > Headings)
            {
                sheet.PageSetup.AddHorizontalPageBreak(row);
            }

            row += plan.BagOf(plan.ColourwayOf(kit)).List.Fabrics.Sum(fabric => fabric.Pieces.Count);
        }

        AddPattern(sheet, Headings + 1, habits, quoted: false);
        AddPattern(sheet, Headings + 2, habits, quoted: true);
        var table = sheet.Table("KitLines", Headings, row, Widths.Length, styledTo: Headings + 2);
        table.ShowAutoFilter = true;
        AddTicks(sheet, Headings + 1, Math.Max(row, Headings + 1));
        sheet.Widths(Widths);

        // Fitting to the width would drop the page breaks, so the columns are made to fit either paper as they are.
        sheet.PrintSetup(plan, Headings, landscape: true, fitToWidth: false);
        return new BulkRows(name, Headings + 1, Widths.Length, Lines(plan));
    }

    // One cell of each kind, for its style alone.
    private static void AddPattern(IXLWorksheet sheet, int row, ClassHabits habits, bool quoted)
    {
        foreach (var column in new[] { 2, 3, 5, 10 })
        {
            sheet.Cell(row, column).Text(quoted ? "=" : "").Style.Alignment.SetWrapText();
        }

        sheet.Cell(row, 1).Number(1, "0").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
        sheet.Cell(row, 4).Text("");
        sheet.Cell(row, 6).CutLength(Planning.Measures.Length.Zero, habits);
        sheet.Cell(row, 7).CutLength(Planning.Measures.Length.Zero, habits);
        sheet.Cell(row, 8).Number(1, "0");
        sheet.Cell(row, TickColumn).Text("").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
        sheet.Range(row, TickColumn, row, TickColumn).FillIn();
    }

    private static IEnumerable<BulkRow> Lines(ClassPlan plan)
    {
        var ofColourway = new Dictionary<long, IReadOnlyList<KitLine>>();
        foreach (var kit in plan.Kits)
        {
            var way = plan.ColourwayOf(kit);
            if (!ofColourway.TryGetValue(way?.ColourwayId ?? 0, out var lines))
            {
                ofColourway[way?.ColourwayId ?? 0] = lines = plan.LinesIn(way);
            }

            var note = kit.Note.Length > 0 ? kit.Note : null;
            foreach (var line in lines)
            {
                var (colourway, fabric) = (way?.Name ?? Say("not chosen"), (line.Fabric?.Name ?? Say("no fabric chosen")) + (line.Thing is null ? "" : $": {Say(line.Thing)}"));
                var height = new[] { (kit.Name, 2), (colourway, 3), (fabric, 5), (note ?? "", 10) }.Max(cell => SheetTools.HeightOf(cell.Item1, Widths[cell.Item2 - 1]));
                yield return new BulkRow(height, [kit.Number, kit.Name, colourway, line.Letter, fabric, plan.Habits.CutNumber(line.Width), plan.Habits.CutNumber(line.Height), line.Count, null, note]);
                note = null; // With the kit's first line only.
            }
        }
    }

    private static void AddTicks(IXLWorksheet sheet, int first, int last)
    {
        var validation = sheet.Range(first, TickColumn, last, TickColumn).SetDataValidation();
        validation.List($"\"{Ticked},{SheetWords.Short.Said}\"", true);
        validation.ErrorTitle = Say("Tick or short");
        validation.ErrorMessage = Say($"Choose {Ticked} or “{SheetWords.Short.Said}” from the list, or leave the cell empty.");
        sheet.Range(first, 1, last, Widths.Length).AddConditionalFormat()
            .WhenIsTrue($"$I{first}=\"{SheetWords.Short.Said}\"")
            .Fill.SetBackgroundColor(XLColor.FromHtml("#F8E7E2"))
            .Font.SetFontColor(XLColor.FromHtml("#9A3324"));
    }
}
