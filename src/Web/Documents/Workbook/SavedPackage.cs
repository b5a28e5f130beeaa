using System.Text.RegularExpressions;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>Puts right what the workbook library writes in a way that spreadsheet programs ignore.</summary>
internal static partial class SavedPackage
{
    private const string PrintTitles = "_xlnm.Print_Titles";

    /// <summary>Makes the repeated heading rows absolute: "1:1" repeats nothing, "$1:$1" does.</summary>
    public static void Mend(Stream file)
    {
        file.Position = 0;
        using var document = SpreadsheetDocument.Open(file, isEditable: true);
        var workbook = document.WorkbookPart!.Workbook;
        foreach (var name in workbook.DefinedNames?.Elements<DefinedName>().Where(name => name.Name?.Value == PrintTitles) ?? [])
        {
            name.Text = RelativeRows().Replace(name.Text, "!$$$1:$$$2");
        }

        workbook.Save();
    }

    [GeneratedRegex(@"!(\d+):(\d+)")]
    private static partial Regex RelativeRows();
}
