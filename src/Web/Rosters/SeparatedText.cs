using System.Text;

namespace KittingBee.Web.Rosters;

/// <summary>
/// Reads separated text by RFC 4180: a field in quotation marks may hold the separator, line breaks, and a quotation mark
/// written twice. A mark inside a field that did not begin with one is an ordinary letter, as people type it.
/// </summary>
internal static class SeparatedText
{
    /// <summary>Each row with the number of the line that it begins in; its cells are null where a quotation mark is never closed.</summary>
    public static IEnumerable<(int Line, IReadOnlyList<string>? Cells)> Rows(string text, char between)
    {
        var (cells, cell, quoted, line, first) = (new List<string>(), new StringBuilder(), false, 1, 1);
        for (var at = 0; at < text.Length; at++)
        {
            var letter = text[at];
            line += letter == '\n' || (letter == '\r' && !text.AsSpan(at + 1).StartsWith("\n")) ? 1 : 0;
            if (quoted)
            {
                if (letter != '"')
                {
                    cell.Append(letter);
                }
                else if (text.AsSpan(at + 1).StartsWith("\""))
                {
                    cell.Append(letter);
                    at++;
                }
                else
                {
                    quoted = false;
                }
            }
            else if (letter == '"' && string.IsNullOrWhiteSpace(cell.ToString()))
            {
                (quoted, _) = (true, cell.Clear());
            }
            else if (letter == between)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else if (letter is '\r' or '\n')
            {
                cells.Add(cell.ToString());
                cell.Clear();
                yield return (first, cells);
                (cells, first) = ([], line);
            }
            else
            {
                cell.Append(letter);
            }
        }

        if (quoted)
        {
            yield return (first, null);
        }
        else if (cell.Length > 0 || cells.Count > 0)
        {
            cells.Add(cell.ToString());
            yield return (first, cells);
        }
    }
}
