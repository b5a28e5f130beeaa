using ClosedXML.Excel;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>The cutting ticket of one fabric: every strip in cut order, with a box for each repeat.</summary>
internal static class TicketSheet
{
    private const int Columns = 9;
    private const int MostBoxes = 40;

    public static void Add(XLWorkbook book, string name, string tableName, ClassPlan plan, Ticket ticket)
    {
        var sheet = book.AddWorksheet(name);
        var habits = plan.Habits;
        var fabric = ticket.Fabric;
        sheet.Heading($"{fabric.Name} ({string.Join(", ", fabric.Letters)})", Needs(habits, ticket));
        sheet.Cell(3, 1).Text(Manner(ticket));
        const int headings = 5;
        sheet.Headings(headings, Say("Step"), Say("Cut from"), Say($"Strip ({habits.CutUnit()})"), Say("How many"), Say("Tick each"), Say("Sub-cuts of each strip"), Say("What comes out"), Say("Layers"), Say($"Used so far ({habits.CutUnit()})"));
        var row = headings;
        foreach (var step in ticket.Steps)
        {
            row++;
            sheet.Cell(row, 1).Number(step.Line.Number, "0").Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Center);
            sheet.Cell(row, 2).Wrap(step.Lengthwise ? Say($"{step.CutFrom}, strips along its length") : step.CutFrom, 12);
            sheet.Cell(row, 3).CutLength(step.Line.Strip.Height, habits);
            sheet.Cell(row, 4).Number(step.Line.Ticks, "0");
            sheet.Cell(row, 5).Wrap(Boxes(step.Line.Ticks), 13);
            sheet.Cell(row, 6).Wrap(string.Join("\n", habits.ShowSubCuts(step.Line.Strip)), 36);
            sheet.Cell(row, 7).Wrap(string.Join("\n", step.Out.Select(piece => habits.ShowPieces(piece.Count, piece.Width, piece.Height))), 21);
            sheet.Cell(row, 8).Wrap(TicketWords.ShowLayers(step.Line), 14);
            sheet.Cell(row, 9).CutLength(step.Line.UsedSoFar, habits);
        }

        sheet.Table(tableName, headings, row, Columns);
        sheet.Cell(row + 2, 1).Text(Cautions.RotaryCutter);
        sheet.Range(row + 2, 1, row + 2, Columns).Merge().Style.Alignment.SetWrapText();
        sheet.Row(row + 2).Height = 46;
        sheet.Widths(7.5, 13, 9, 7, 14, 38, 22, 14, 10);
        sheet.PrintSetup(plan, headings, landscape: true);
    }

    private static string Needs(ClassHabits habits, Ticket ticket)
    {
        var shelf = ticket.Plan.Sheets.Count > 0 ? Say("Cut the pieces from the shelf first.") + " " : "";
        return ticket.Plan.Buy.Length.IsPositive ? shelf + Say($"Buy {habits.ShowYardage(ticket.Plan.Buy.Length)}; {ticket.Plan.Strokes} strokes of the cutter.") : shelf + Say($"Nothing to buy off the bolt; {ticket.Plan.Strokes} strokes of the cutter.");
    }

    private static string Manner(Ticket ticket) =>
        (ticket.Fabric.Request.Directional ? Say("The fabric has a direction: turn no piece.") + " " : "") + Say($"Stack up to {ticket.Fabric.Request.Layers} layers, and no more than your cutter’s maker allows.");

    private static string Boxes(long count) => count <= MostBoxes ? string.Join(' ', Enumerable.Repeat("☐", (int)count)) : Say($"{count} strips: keep a tally");
}
