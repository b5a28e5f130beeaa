using System.Globalization;
using System.Text;

namespace KittingBee.Web.Documents.Labels;

/// <summary>
/// How wide a text is at most in the sans-serif fonts of common systems, as a multiple of its height. Estimated on the safe side, since
/// the server cannot know which font the browser has: widths are those of the widest of these fonts, DejaVu Sans, rounded up.
/// </summary>
public static class TextWidths
{
    private const decimal Bold = 1.13m;
    private const decimal Wide = 1.05m;
    private const decimal Other = 0.8m;

    /// <summary>Width of a whole text.</summary>
    public static decimal Of(string text, bool bold) => text.EnumerateRunes().Sum(Of) * (bold ? Bold : 1);

    /// <summary>As much of a text as has room, with "…" where something is left out; empty where not even that has room.</summary>
    public static string Shortened(string text, decimal room, bool bold)
    {
        if (Of(text, bold) <= room)
        {
            return text;
        }

        var shown = new StringInfo(text); // By letters as people see them: never through the middle of one.
        for (var length = shown.LengthInTextElements - 1; length > 0; length--)
        {
            var shorter = shown.SubstringByTextElements(0, length).TrimEnd() + "…";
            if (Of(shorter, bold) <= room)
            {
                return shorter;
            }
        }

        return "";
    }

    /// <summary>The text in lines that have room, broken between words where it can be; the last is shortened where there are too many.</summary>
    public static IReadOnlyList<string> Lines(string text, decimal room, int most, bool bold)
    {
        var lines = new List<string>();
        var rest = text.Trim();
        while (rest.Length > 0 && lines.Count < most)
        {
            var line = lines.Count == most - 1 ? rest : Beginning(rest, room, bold);
            lines.Add(Shortened(line, room, bold));
            rest = rest[line.Length..].TrimStart();
        }

        return [.. lines.Where(line => line.Length > 0)];
    }

    private static string Beginning(string text, decimal room, bool bold)
    {
        if (Of(text, bold) <= room)
        {
            return text;
        }

        var end = 0;
        for (var space = text.IndexOf(' ', StringComparison.Ordinal); space > 0 && Of(text[..space], bold) <= room; space = text.IndexOf(' ', space + 1))
        {
            end = space;
        }

        if (end > 0)
        {
            return text[..end];
        }

        // A word, or a script without spaces, that is longer than the line.
        var letters = StringInfo.ParseCombiningCharacters(text);
        var last = letters.LastOrDefault(start => start > 0 && Of(text[..start], bold) <= room);
        return last == 0 ? text : text[..last];
    }

    private static decimal Of(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format => 0,
        UnicodeCategory.SpaceSeparator when rune.Value < 0x3000 => 0.35m,
        _ when "ijlI.,:;'’!|".Contains(rune.ToString(), StringComparison.Ordinal) => 0.36m,
        _ when "ftr()-[]/".Contains(rune.ToString(), StringComparison.Ordinal) => 0.43m,
        _ when "mMwW@%&…—".Contains(rune.ToString(), StringComparison.Ordinal) => 1.01m,

        // East Asian scripts and pictures take a full square (Unicode Standard Annex 11, widths W and F).
        _ when rune.Value is >= 0x1100 and <= 0x115F or >= 0x2E80 and <= 0xA4CF or >= 0xAC00 and <= 0xD7A3 or >= 0xF900 and <= 0xFAFF or >= 0xFE30 and <= 0xFE6F or >= 0xFF00 and <= 0xFF60 or >= 0x1F000 => Wide,
        UnicodeCategory.LowercaseLetter or UnicodeCategory.DecimalDigitNumber when rune.Value < 0x250 => 0.65m,
        _ => Other,
    };
}
