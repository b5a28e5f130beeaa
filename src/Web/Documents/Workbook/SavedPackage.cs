using System.Text.RegularExpressions;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>Puts right what the workbook library writes in a way that spreadsheet programs ignore.</summary>
internal static partial class SavedPackage
{
    /// <summary>The font of all sheets; its widths are the same in every spreadsheet program.</summary>
    public const string FontName = "Arial";

    /// <summary>Its size in points.</summary>
    public const double FontSize = 10;

    private const string PrintTitles = "_xlnm.Print_Titles";

    /// <summary>Makes the repeated heading rows absolute ("1:1" repeats nothing, "$1:$1" does) and the default font our own, and writes the rows that were kept back.</summary>
    public static void Mend(Stream file, BulkRows rows)
    {
        file.Position = 0;
        using var document = SpreadsheetDocument.Open(file, isEditable: true);
        var workbook = document.WorkbookPart!.Workbook;
        foreach (var name in workbook.DefinedNames?.Elements<DefinedName>().Where(name => name.Name?.Value == PrintTitles) ?? [])
        {
            name.Text = RelativeRows().Replace(name.Text, "!$$$1:$$$2");
        }

        workbook.Save();
        rows.WriteInto(document.WorkbookPart);
        MendDefaultFont(document.WorkbookPart);
    }

    // Column widths are counted in digits of the default font. The library leaves one there that many machines lack.
    private static void MendDefaultFont(WorkbookPart workbook)
    {
        var styles = workbook.WorkbookStylesPart!.Stylesheet;
        var font = styles.Fonts!.Elements<Font>().First();
        font.FontName!.Val = FontName;
        font.FontSize!.Val = FontSize;
        styles.Save();
    }

    [GeneratedRegex(@"!(\d+):(\d+)")]
    private static partial Regex RelativeRows();
}
