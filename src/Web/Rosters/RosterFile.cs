using System.Buffers.Binary;
using System.Text;

namespace KittingBee.Web.Rosters;

/// <summary>A file read as rows of texts, or why it cannot be.</summary>
/// <param name="Rows">Rows that are not blank, with their number in the file.</param>
/// <param name="ReadAs">What the file was taken for.</param>
/// <param name="Problem">What is wrong and what to do, or null.</param>
public sealed record RosterTable(IReadOnlyList<RosterRow> Rows, string ReadAs, string? Problem)
{
    public static RosterTable Refused(string problem) => new([], "", problem);
}

/// <summary>A row of a file.</summary>
public sealed record RosterRow(int Number, IReadOnlyList<string> Cells);

/// <summary>Reads a roster file that people export from somewhere: separated text in any common encoding, or a workbook.</summary>
public static class RosterFile
{
    /// <summary>Largest file taken. A list of two thousand people is a tenth of it.</summary>
    public const int LargestFile = 4 * 1024 * 1024;

    /// <summary>Most rows read: the most students and a heading.</summary>
    public const int MostRows = Classes.RosterLines.Most + 1;

    /// <summary>Most columns read.</summary>
    public const int MostColumns = 40;

    /// <summary>Longest text of a cell that is kept.</summary>
    public const int LongestCell = 1000;

    private static readonly byte[] OldOfficeFile = [0xD0, 0xCF, 0x11, 0xE0];

    public static string TooManyRows => Say($"The file has more than {MostRows - 1:#,##0} rows, and a class takes that many students. Split the list, or delete what is not a student.");

    /// <summary>What is said of a file of more than <see cref="LargestFile"/> bytes.</summary>
    public static string TooLarge(long length) =>
        Say($"The file has {length / 1024m / 1024m:0.#} MB, and {LargestFile / 1024 / 1024} MB is the most. Save only the list, without pictures, or save it as CSV.");

    public static RosterTable Read(byte[] file)
    {
        if (file.Length == 0)
        {
            return RosterTable.Refused(Say("The file is empty. Choose the file that has the list in it."));
        }

        if (file.Length > LargestFile)
        {
            return RosterTable.Refused(TooLarge(file.Length));
        }

        if (file.AsSpan().StartsWith("PK"u8))
        {
            return WorkbookRows.Read(file);
        }

        if (file.AsSpan().StartsWith(OldOfficeFile))
        {
            return RosterTable.Refused(Say("This is a workbook of the old kind (.xls), or one with a password. Save it as .xlsx without a password, or as CSV."));
        }

        return Decode(file) is var (text, readAs) && text is not null
            ? Separated(text, readAs)
            : RosterTable.Refused(Say("This is neither a workbook (.xlsx) nor a text that can be read. Save the list as CSV in UTF-8, or as .xlsx."));
    }

    private static (string? Text, string ReadAs) Decode(byte[] file)
    {
        if (file.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            return (Strictly(new UTF8Encoding(false, true), file.AsSpan(3)), Say("text in UTF-8"));
        }

        if (file.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
        {
            return (Strictly(new UnicodeEncoding(false, false, true), file.AsSpan(2)), Say("text in UTF-16"));
        }

        if (file.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            return (Strictly(new UnicodeEncoding(true, false, true), file.AsSpan(2)), Say("text in UTF-16"));
        }

        if (file.AsSpan().Contains((byte)0))
        {
            // UTF-16 without its mark has a zero beside each letter of ours, always on the same side.
            return LooksLikeUtf16(file) is { } bigEndian ? (Strictly(new UnicodeEncoding(bigEndian, false, true), file), Say("text in UTF-16")) : (null, "");
        }

        if (Strictly(new UTF8Encoding(false, true), file) is { } text)
        {
            return (text, Say("text in UTF-8"));
        }

        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var windows = Encoding.GetEncoding(1252, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback);
        return (Strictly(windows, file), Say("text in Windows-1252, the letters of western Europe"));
    }

    private static bool? LooksLikeUtf16(byte[] file)
    {
        if (file.Length % 2 != 0)
        {
            return null;
        }

        int low = 0, high = 0;
        for (var at = 0; at + 1 < Math.Min(file.Length, 2000); at += 2)
        {
            var unit = BinaryPrimitives.ReadUInt16LittleEndian(file.AsSpan(at));
            low += unit is > 0 and < 256 ? 1 : 0;
            high += unit != 0 && unit % 256 == 0 ? 1 : 0;
        }

        var half = Math.Min(file.Length, 2000) / 4;
        return low > half ? false : high > half ? true : null;
    }

    private static string? Strictly(Encoding encoding, ReadOnlySpan<byte> bytes)
    {
        try
        {
            var text = encoding.GetString(bytes);

            // Control characters other than tab and line breaks are no list.
            return text.Any(letter => char.IsControl(letter) && letter is not ('\t' or '\r' or '\n')) ? null : text;
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    private static RosterTable Separated(string text, string readAs)
    {
        var first = text[..Math.Min(text.Length, 4000)];
        var between = "\t;,".MaxBy(mark => first.Count(letter => letter == mark));
        var rows = new List<RosterRow>();
        foreach (var (number, cells) in SeparatedText.Rows(text, between))
        {
            if (cells is null)
            {
                return RosterTable.Refused(Say($"A quotation mark that begins in line {number} is never closed. Mend it, or paste the list instead."));
            }

            if (cells.All(string.IsNullOrWhiteSpace))
            {
                continue;
            }

            if (rows.Count == MostRows)
            {
                return RosterTable.Refused(TooManyRows);
            }

            rows.Add(new(number, [.. cells.Take(MostColumns).Select(Cell)]));
        }

        return rows.Count == 0 ? RosterTable.Refused(Say("The file has no row with anything in it.")) : new(rows, readAs, null);
    }

    /// <summary>A cell as kept: one line, and without the mark that an export puts before what a spreadsheet would take for a formula.</summary>
    internal static string Cell(string? text)
    {
        var line = string.Join(' ', (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        line = line is ['\'', '=' or '+' or '-' or '@', ..] ? line[1..] : line;
        return line.Length > LongestCell ? line[..LongestCell] : line;
    }
}
