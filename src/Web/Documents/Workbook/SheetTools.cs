using System.Text;
using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>What every sheet of the workbook has in common: text that stays text, tables, number formats and print set-up.</summary>
internal static class SheetTools
{
    // Column widths are set outright: measuring text needs a native library that is not there.
    private const string FillInColour = "#FBF2DD";

    /// <summary>Writes text as text, whatever it begins with.</summary>
    public static IXLCell Text(this IXLCell cell, string text)
    {
        cell.SetValue(Printable(text)).SetDataType(XLDataType.Text);
        cell.Style.NumberFormat.Format = "@";
        // Keeps "=1+1" a text even when somebody edits the cell.
        cell.Style.IncludeQuotePrefix = BeginsLikeAFormula(text);
        return cell;
    }

    /// <summary>True for a text that a careless spreadsheet would reckon.</summary>
    public static bool BeginsLikeAFormula(string text) => text is ['=' or '+' or '-' or '@', ..];

    /// <summary>A length in the class's cutting unit, as a number that can be reckoned with.</summary>
    public static IXLCell CutLength(this IXLCell cell, Length length, ClassHabits habits) => cell.Number(habits.CutNumber(length), habits.Metric ? "0.0##" : "# ??/??");

    /// <summary>The same as a bare number.</summary>
    public static decimal CutNumber(this ClassHabits habits, Length length) => habits.Metric ? length.Millimetres / 10 : length.Inches;

    /// <summary>A length in the class's shop unit, as a number that can be reckoned with.</summary>
    public static IXLCell Yardage(this IXLCell cell, Length length, ClassHabits habits) => habits.Metric
        ? cell.Number(length.Millimetres / 1000, "0.00#")
        : cell.Number(length.Yards, "# ??/??");

    /// <summary>Money to the cent.</summary>
    public static IXLCell Money(this IXLCell cell, decimal amount) => cell.Number(amount, "#,##0.00");

    /// <summary>A number with its format.</summary>
    public static IXLCell Number(this IXLCell cell, decimal value, string format)
    {
        cell.SetValue(value);
        cell.Style.NumberFormat.Format = format;
        return cell;
    }

    /// <summary>A formula with its number format.</summary>
    public static IXLCell Formula(this IXLCell cell, string formula, string format)
    {
        cell.FormulaA1 = formula;
        cell.Style.NumberFormat.Format = format;
        return cell;
    }

    /// <summary>A cell to be filled in: tinted, framed and open for typing.</summary>
    public static void FillIn(this IXLRange range)
    {
        range.Style.Fill.BackgroundColor = XLColor.FromHtml(FillInColour);
        range.Style.Border.InsideBorder = XLBorderStyleValues.Thin;
        range.Style.Border.OutsideBorder = XLBorderStyleValues.Thin;
        range.Style.Protection.Locked = false;
    }

    /// <summary>The sheet's heading in its first row, and a line of explanation below it.</summary>
    public static void Heading(this IXLWorksheet sheet, string title, string line)
    {
        sheet.Cell(1, 1).Text(title).Style.Font.SetBold().Font.SetFontSize(16);
        sheet.Cell(2, 1).Text(line).Style.Font.SetFontColor(XLColor.FromHtml("#5A544B"));
        sheet.Row(1).Height = 24;
    }

    /// <summary>Column headings of a table.</summary>
    public static void Headings(this IXLWorksheet sheet, int row, params string[] headings)
    {
        for (var index = 0; index < headings.Length; index++)
        {
            sheet.Cell(row, index + 1).Text(headings[index]);
        }
    }

    /// <summary>Makes a real table of the rows below <paramref name="headingRow"/>; one empty row where there are none.</summary>
    /// <param name="styledTo">Last row that is styled, where those after it are written later.</param>
    public static IXLTable Table(this IXLWorksheet sheet, string name, int headingRow, int lastRow, int columns, int? styledTo = null)
    {
        var table = sheet.Range(headingRow, 1, Math.Max(lastRow, headingRow + 1), columns).CreateTable(name);
        table.Theme = XLTableTheme.TableStyleLight1;
        table.ShowAutoFilter = false;
        var headings = sheet.Range(headingRow, 1, headingRow, columns);
        headings.Style.Font.SetBold().Alignment.SetWrapText().Alignment.SetVertical(XLAlignmentVerticalValues.Bottom);
        headings.Style.Border.BottomBorder = XLBorderStyleValues.Medium;
        sheet.Row(headingRow).Height = 32;
        var body = sheet.Range(headingRow + 1, 1, styledTo ?? Math.Max(lastRow, headingRow + 1), columns);
        body.Style.Alignment.SetVertical(XLAlignmentVerticalValues.Top);
        body.Style.Border.SetInsideBorder(XLBorderStyleValues.Hair).Border.SetBottomBorder(XLBorderStyleValues.Hair);
        return table;
    }

    /// <summary>Paper, margins, footer with page numbers, repeated heading row, frozen rows above it.</summary>
    /// <param name="fitToWidth">False where the sheet has page breaks of its own: fitting would drop them.</param>
    public static void PrintSetup(this IXLWorksheet sheet, ClassPlan plan, int headingRow, bool landscape = false, bool fitToWidth = true)
    {
        var setup = sheet.PageSetup;
        setup.PaperSize = plan.Habits.PaperA4 ? XLPaperSize.A4Paper : XLPaperSize.LetterPaper;
        setup.PageOrientation = landscape ? XLPageOrientation.Landscape : XLPageOrientation.Portrait;
        if (fitToWidth)
        {
            setup.FitToPages(1, 0);
        }

        setup.Margins.SetLeft(0.5).SetRight(0.5).SetTop(0.6).SetBottom(0.7).SetFooter(0.35);
        setup.SetRowsToRepeatAtTop(headingRow, headingRow);
        setup.Footer.Left.AddText(Printable(plan.Title).Replace("&", "&&", StringComparison.Ordinal));
        setup.Footer.Center.AddText(sheet.Name.Replace("&", "&&", StringComparison.Ordinal));
        AddPageNumbers(setup.Footer.Right);
        sheet.SheetView.FreezeRows(headingRow);
    }

    // The words stand around the two numbers, which the spreadsheet program puts in.
    private static void AddPageNumbers(IXLHFItem footer)
    {
        const char page = '\u0001';
        const char pages = '\u0002';
        var text = Say($"Page {page} of {pages}");
        while (text.Length > 0)
        {
            var end = text.IndexOfAny([page, pages]);
            if (end == 0)
            {
                footer.AddText(text[0] == page ? XLHFPredefinedText.PageNumber : XLHFPredefinedText.NumberOfPages);
                text = text[1..];
            }
            else
            {
                var words = end < 0 ? text : text[..end];
                footer.AddText(words.Replace("&", "&&", StringComparison.Ordinal));
                text = text[words.Length..];
            }
        }
    }

    /// <summary>Widths of the columns from the first on, in characters.</summary>
    public static void Widths(this IXLWorksheet sheet, params double[] widths)
    {
        for (var index = 0; index < widths.Length; index++)
        {
            sheet.Column(index + 1).Width = widths[index];
        }
    }

    /// <summary>Lets a text run over several lines and makes its row high enough for them.</summary>
    public static void Wrap(this IXLCell cell, string text, double columnWidth)
    {
        cell.Text(text).Style.Alignment.SetWrapText();
        var row = cell.WorksheetRow();
        row.Height = Math.Max(row.Height, HeightOf(text, columnWidth));
    }

    /// <summary>Height in points of a row that holds a text over as many lines as it takes.</summary>
    public static double HeightOf(string text, double columnWidth)
    {
        var lines = 0;
        foreach (var line in text.AsSpan().Split('\n'))
        {
            lines += Math.Max(1, (int)Math.Ceiling((line.End.Value - line.Start.Value) / (columnWidth * 0.95)));
        }

        return Math.Max((lines * 13.5) + 4, 19);
    }

    /// <summary>The name of the class's shop unit.</summary>
    public static string ShopUnit(this ClassHabits habits) => habits.Metric ? "m" : "yd";

    /// <summary>The name of the class's cutting unit.</summary>
    public static string CutUnit(this ClassHabits habits) => habits.Metric ? "cm" : "in";

    // XML cannot hold most control characters, and a cell holds no more than 32,767 characters.
    public static string Printable(string text)
    {
        const int longest = 32_000;
        if (text.Length <= longest && !text.AsSpan().ContainsAnyExceptInRange(' ', '\uD7FF'))
        {
            return text; // Nearly all are.
        }

        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value >= 0x20 && rune.Value is not (0xFFFE or 0xFFFF) || rune.Value is '\n' or '\t')
            {
                clean.Append(rune);
            }
        }

        return clean.Length <= longest ? clean.ToString() : clean.ToString(0, longest);
    }
}
