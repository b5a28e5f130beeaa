using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using KittingBee.Web.Uploads;

namespace KittingBee.Web.Rosters;

/// <summary>
/// Reads the first sheet of a workbook as texts, piece by piece and never more than a bounded amount: the file may come from
/// anywhere, and a small one can unpack to gigabytes or claim a million rows. Formulas are not reckoned; their stored results
/// are read as text.
/// </summary>
internal static class WorkbookRows
{
    private const long MostUnpacked = 48L * 1024 * 1024;
    private const int MostParts = 2000;
    private const int MostStrings = 200_000;
    private static string NotAWorkbook => Say("This is not a workbook that can be read, although it begins like one. Open it where it was made and save it as .xlsx or CSV.");

    private static readonly XmlReaderSettings Safe = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, IgnoreComments = true, IgnoreProcessingInstructions = true };

    public static RosterTable Read(byte[] file)
    {
        try
        {
            using var package = new ZipArchive(new MemoryStream(file, writable: false), ZipArchiveMode.Read);
            if (package.Entries.Count > MostParts)
            {
                return RosterTable.Refused(NotAWorkbook);
            }

            if (package.Entries.Any(entry => entry.Name.Equals("vbaProject.bin", StringComparison.OrdinalIgnoreCase) || entry.FullName.Contains("/macrosheets/", StringComparison.OrdinalIgnoreCase)))
            {
                return RosterTable.Refused(Say("This workbook has macros, and those are not taken. Save it as .xlsx (without macros) or as CSV."));
            }

            var budget = new Budget(MostUnpacked);
            if (SheetPath(package, budget) is not { } path || package.GetEntry(path) is not { } sheet)
            {
                return RosterTable.Refused(NotAWorkbook);
            }

            var strings = package.GetEntry("xl/sharedStrings.xml") is { } shared ? Strings(shared, budget) : [];
            return Sheet(sheet, strings, budget);
        }
        catch (TooMuchException)
        {
            return RosterTable.Refused(Say("This workbook unpacks to far more than a list of students. Copy the list alone into a new workbook, or save it as CSV."));
        }
        catch (Exception e) when (e is InvalidDataException or XmlException or IOException or NotSupportedException or FormatException or OverflowException)
        {
            return RosterTable.Refused(NotAWorkbook);
        }
    }

    private static string? SheetPath(ZipArchive package, Budget budget)
    {
        if (package.GetEntry("xl/workbook.xml") is not { } workbook || package.GetEntry("xl/_rels/workbook.xml.rels") is not { } relations)
        {
            return null;
        }

        string? id = null;
        using (var reader = Open(workbook, budget))
        {
            while (id is null && reader.Read())
            {
                if (reader is { NodeType: XmlNodeType.Element, LocalName: "sheet" })
                {
                    while (reader.MoveToNextAttribute())
                    {
                        id = reader.LocalName == "id" && reader.Prefix.Length > 0 ? reader.Value : id;
                    }
                }
            }
        }

        using var targets = Open(relations, budget);
        while (targets.Read())
        {
            if (targets is { NodeType: XmlNodeType.Element, LocalName: "Relationship" } && targets.GetAttribute("Id") == id && targets.GetAttribute("Target") is { } target)
            {
                return target.StartsWith('/') ? target[1..] : "xl/" + target;
            }
        }

        return null;
    }

    private static List<string> Strings(ZipArchiveEntry entry, Budget budget)
    {
        var strings = new List<string>();
        using var reader = Open(entry, budget);
        while (reader.Read())
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "si" })
            {
                if (strings.Count == MostStrings)
                {
                    throw new TooMuchException();
                }

                strings.Add(RosterFile.Cell(TextInside(reader)));
            }
        }

        return strings;
    }

    private static RosterTable Sheet(ZipArchiveEntry entry, List<string> strings, Budget budget)
    {
        var rows = new List<RosterRow>();
        var number = 0;
        using var reader = Open(entry, budget);
        while (reader.Read())
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "row" })
            {
                continue;
            }

            number = int.TryParse(reader.GetAttribute("r"), NumberStyles.None, CultureInfo.InvariantCulture, out var given) ? given : number + 1;
            var cells = Cells(reader, strings);
            if (cells.All(string.IsNullOrWhiteSpace))
            {
                continue;
            }

            if (rows.Count == RosterFile.MostRows)
            {
                return RosterTable.Refused(RosterFile.TooManyRows);
            }

            rows.Add(new(number, cells));
        }

        return rows.Count == 0 ? RosterTable.Refused(Say("The first sheet of the workbook has nothing in it. Put the list on the first sheet.")) : new(rows, Say("the first sheet of the workbook"), null);
    }

    private static List<string> Cells(XmlReader reader, List<string> strings)
    {
        var cells = new List<string>();
        if (reader.IsEmptyElement)
        {
            return cells;
        }

        var depth = reader.Depth;
        while (reader.Read() && reader.Depth > depth)
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "c" })
            {
                continue;
            }

            var column = ColumnOf(reader.GetAttribute("r")) ?? cells.Count;
            var text = CellText(reader, strings);
            if (column >= RosterFile.MostColumns)
            {
                continue;
            }

            while (cells.Count <= column)
            {
                cells.Add("");
            }

            cells[column] = text;
        }

        return cells;
    }

    private static string CellText(XmlReader reader, List<string> strings)
    {
        var kind = reader.GetAttribute("t");
        if (reader.IsEmptyElement)
        {
            return "";
        }

        var (value, depth) = ("", reader.Depth);
        while (reader.Read() && reader.Depth > depth)
        {
            value = reader switch
            {
                { NodeType: XmlNodeType.Element, LocalName: "v" } => TextInside(reader),
                { NodeType: XmlNodeType.Element, LocalName: "is" } => TextInside(reader),
                _ => value,
            };
        }

        return kind switch
        {
            "s" => int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var index) && index < strings.Count ? strings[index] : "",
            "b" => value == "1" ? "yes" : "no",
            "e" => "",
            "str" or "inlineStr" => RosterFile.Cell(value),
            _ => decimal.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var plain) ? plain.ToString("0.############", CultureInfo.InvariantCulture) : RosterFile.Cell(value),
        };
    }

    /// <summary>The text of an element and what is in it, without readings (ruby) beside it.</summary>
    private static string TextInside(XmlReader reader)
    {
        if (reader.IsEmptyElement)
        {
            return "";
        }

        var (text, depth) = (new StringBuilder(), reader.Depth);
        reader.Read();
        while (reader.Depth > depth)
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "rPh" })
            {
                reader.Skip(); // That is on the next node already, which may be another reading, or the end.
                continue;
            }

            if (reader.NodeType is XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace && text.Length <= RosterFile.LongestCell)
            {
                text.Append(reader.Value);
            }

            reader.Read();
        }

        return text.ToString();
    }

    private static int? ColumnOf(string? address)
    {
        var column = 0;
        foreach (var letter in (address ?? "").TakeWhile(char.IsAsciiLetterUpper).Take(3))
        {
            column = (column * 26) + letter - 'A' + 1;
        }

        return column == 0 ? null : column - 1;
    }

    private static XmlReader Open(ZipArchiveEntry entry, Budget budget) => XmlReader.Create(new BoundedStream(entry.Open(), budget), Safe);
}
