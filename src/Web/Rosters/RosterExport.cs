using System.Text;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Rosters;

/// <summary>The roster as separated text that every spreadsheet opens, and that this program takes back.</summary>
public static class RosterExport
{
    /// <summary>UTF-8 with its mark, a heading, a row for each student.</summary>
    public static byte[] Write(IReadOnlyList<Student> students, IReadOnlyList<Colourway> colourways)
    {
        var names = colourways.ToDictionary(way => way.Id, way => way.Name);
        var text = new StringBuilder("Name,Contact,Colourway,Note,Large print,Left-handed,Waiting\r\n");
        foreach (var student in students)
        {
            var way = student.ColourwayId is { } id ? names.GetValueOrDefault(id, "") : "";
            text.AppendJoin(',', new[] { student.Name, student.Contact, way, student.Note, Flag(student.LargePrint), Flag(student.LeftHanded), Flag(student.Waiting) }.Select(Field)).Append("\r\n");
        }

        return [.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(text.ToString())];
    }

    private static string Flag(bool set) => set ? "yes" : "";

    // A spreadsheet takes a field that begins so for a formula; with an apostrophe before it, it stays text.
    private static string Field(string text)
    {
        var safe = text is ['=' or '+' or '-' or '@' or '\t' or '\r', ..] ? "'" + text : text;
        return safe.Any(letter => letter is '"' or ',' or ';' or '\r' or '\n') ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
