using System.Text;

namespace KittingBee.Web.Classes;

/// <summary>
/// Parts a line of a pasted list. A tab separates, else a semicolon, else a comma; one that stands in quotation marks does not:
/// <c>"O'Brien, Zoë", Dawn</c> has two parts. In quotation marks two of them stand for one, as spreadsheets write them.
/// </summary>
public static class RosterParts
{
    private const string Separators = "\t;,";

    /// <summary>The parts, trimmed, and what stands between them; null where a quotation mark is opened and not closed.</summary>
    public static (IReadOnlyList<string> Parts, char Between)? Of(string line)
    {
        (IReadOnlyList<string> Parts, char Between)? found = null;
        foreach (var between in Separators)
        {
            if (Split(line, between) is not { } parts)
            {
                return null;
            }

            found = (parts, between);
            if (parts.Count > 1)
            {
                break;
            }
        }

        return found;
    }

    private static List<string>? Split(string line, char between)
    {
        var (parts, part, quoted) = (new List<string>(), new StringBuilder(), false);
        for (var at = 0; at < line.Length; at++)
        {
            var letter = line[at];
            if (letter == '"' && quoted && at + 1 < line.Length && line[at + 1] == '"')
            {
                part.Append('"');
                at++;
            }
            else if (letter == '"' && (quoted || MayOpen(line[..at])))
            {
                quoted = !quoted;
            }
            else if (letter == between && !quoted)
            {
                parts.Add(part.ToString().Trim());
                part.Clear();
            }
            else
            {
                part.Append(letter);
            }
        }

        parts.Add(part.ToString().Trim());
        return quoted ? null : parts;
    }

    // Only where a part may begin: the inch mark of a 5" ruler opens nothing.
    private static bool MayOpen(string before) => before.TrimEnd(' ') is var text && (text.Length == 0 || Separators.Contains(text[^1], StringComparison.Ordinal));
}
