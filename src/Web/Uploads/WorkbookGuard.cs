using System.Globalization;
using System.IO.Compression;
using System.Xml;

namespace KittingBee.Web.Uploads;

/// <summary>
/// Looks through a workbook before a library that holds all of it in memory may open it: how much it unpacks to, how many cells and rows it has,
/// and that no part defines entities or holds a program. Reads piece by piece and keeps nothing.
/// </summary>
public static class WorkbookGuard
{
    /// <summary>Most bytes unpacked. The workbook of a class of five hundred unpacks to some 5 MB.</summary>
    public const long MostUnpacked = 32L * 1024 * 1024;

    /// <summary>Most cells in all sheets. A class of five hundred with twelve pieces each has some 60,000.</summary>
    public const int MostCells = 200_000;

    /// <summary>The last row that may be used.</summary>
    public const int LastRow = 20_000;

    private const int MostParts = 500;

    private static readonly XmlReaderSettings Safe = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null };

    /// <summary>What is wrong with it and what to do; null for one that may be opened.</summary>
    public static string? Fault(Stream file)
    {
        try
        {
            file.Position = 0;
            using var package = new ZipArchive(file, ZipArchiveMode.Read, leaveOpen: true);
            if (package.Entries.Count > MostParts || package.GetEntry("[Content_Types].xml") is null)
            {
                return NotAWorkbook;
            }

            if (package.Entries.Any(IsProgram))
            {
                return Say("The workbook has macros or outside links, and those are not taken. Save it as .xlsx without them, and choose it again.");
            }

            var budget = new Budget(MostUnpacked);
            var cells = 0;
            foreach (var entry in package.Entries)
            {
                using var part = new BoundedStream(entry.Open(), budget);
                if (!entry.Name.EndsWith(".xml", StringComparison.OrdinalIgnoreCase) && !entry.Name.EndsWith(".rels", StringComparison.OrdinalIgnoreCase))
                {
                    part.CopyTo(Stream.Null);
                }
                else if (!Look(part, ref cells))
                {
                    return TooMuch;
                }
            }

            return null;
        }
        catch (TooMuchException)
        {
            return TooMuch;
        }
        catch (Exception e) when (e is InvalidDataException or XmlException or IOException or NotSupportedException)
        {
            return NotAWorkbook;
        }
        finally
        {
            file.Position = 0;
        }
    }

    private static string NotAWorkbook => Say("The file cannot be read as an .xlsx workbook: save it as one from the spreadsheet program, and choose it again.");

    private static string TooMuch => Say("The workbook holds far more than a class’s does. Choose the one that was saved from this class.");

    private static bool IsProgram(ZipArchiveEntry entry) =>
        entry.Name.Equals("vbaProject.bin", StringComparison.OrdinalIgnoreCase)
        || entry.FullName.Contains("macrosheets/", StringComparison.OrdinalIgnoreCase)
        || entry.FullName.Contains("externalLinks/", StringComparison.OrdinalIgnoreCase)
        || entry.FullName.Contains("embeddings/", StringComparison.OrdinalIgnoreCase);

    private static bool Look(Stream part, ref int cells)
    {
        using var reader = XmlReader.Create(part, Safe);
        while (reader.Read())
        {
            if (reader.NodeType != XmlNodeType.Element)
            {
                continue;
            }

            if (reader.LocalName is "c" or "si" or "xf" && ++cells > MostCells)
            {
                return false;
            }

            if (reader.LocalName == "row" && int.TryParse(reader.GetAttribute("r"), NumberStyles.None, CultureInfo.InvariantCulture, out var row) && row > LastRow)
            {
                return false;
            }
        }

        return true;
    }
}
