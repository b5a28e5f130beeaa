using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Documents;

/// <summary>A class as a calendar file, by RFC 5545 (Internet Calendaring and Scheduling Core Object Specification).</summary>
public static partial class CalendarFile
{
    // RFC 5545, 3.1: lines of text should not be longer than 75 octets, excluding the line break.
    private const int LongestLine = 75;

    /// <summary>The file, or null where the class has no date yet.</summary>
    /// <param name="record">The class.</param>
    /// <param name="students">How many are coming.</param>
    /// <param name="now">The moment it is written.</param>
    public static string? Of(ClassRecord record, int students, DateTimeOffset now)
    {
        if (record.HeldOn is not { } day)
        {
            return null;
        }

        var about = Say($"{record.BlockName}. {students} on the roster.") + (record.HeldTime.Length == 0 ? "" : " " + Say($"Time: {record.HeldTime}."));
        var lines = new List<string>
        {
            "BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Kitting Bee//Classes//EN", "CALSCALE:GREGORIAN", "BEGIN:VEVENT",
            $"UID:class-{record.Id.ToString(CultureInfo.InvariantCulture)}-{day:yyyyMMdd}@kitting-bee.invalid",
            $"DTSTAMP:{now.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture)}",
        };
        lines.AddRange(When(day, record.HeldTime));
        lines.Add("SUMMARY:" + Escaped(record.Title));
        lines.Add("DESCRIPTION:" + Escaped(about));
        if (record.Place.Length > 0)
        {
            lines.Add("LOCATION:" + Escaped(record.Place));
        }

        lines.Add("END:VEVENT");
        lines.Add("END:VCALENDAR");
        return string.Concat(lines.Select(line => Folded(line) + "\r\n"));
    }

    // "10 to 4", "10:00-16:00", "7 to 9.30": hours of the guild's own clock, so the times float (3.3.5, form 1). Where the text
    // says something else, the event takes the whole day, and the text stands in the description.
    private static string[] When(DateOnly day, string time)
    {
        if (Hours().Match(time.Trim()) is { Success: true } match && Clock(match, 1) is { } start && Clock(match, 3) is { } end)
        {
            // "10 to 4" ends in the afternoon.
            end = end <= start && end.Hour < 12 ? end.AddHours(12) : end;
            if (end > start)
            {
                return [$"DTSTART:{day:yyyyMMdd}T{start:HHmm}00", $"DTEND:{day:yyyyMMdd}T{end:HHmm}00"];
            }
        }

        return [$"DTSTART;VALUE=DATE:{day:yyyyMMdd}", $"DTEND;VALUE=DATE:{day.AddDays(1):yyyyMMdd}"];
    }

    private static TimeOnly? Clock(Match match, int group)
    {
        var hour = int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);
        var minute = match.Groups[group + 1].Success ? int.Parse(match.Groups[group + 1].Value, CultureInfo.InvariantCulture) : 0;
        return hour < 24 && minute < 60 ? new TimeOnly(hour, minute) : null;
    }

    // 3.3.11: backslash, semicolon and comma are escaped, a line break is written \n.
    private static string Escaped(string text)
    {
        var plain = text.ReplaceLineEndings("\n").Replace("\\", "\\\\", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal)
            .Replace(",", "\\,", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);
        return string.Concat(plain.Where(letter => !char.IsControl(letter)));
    }

    // 3.1: a long line goes on after a line break and one space; never inside a character.
    private static string Folded(string line)
    {
        var folded = new StringBuilder();
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LongestLine)
            {
                folded.Append("\r\n ");
                octets = 1;
            }

            folded.Append(rune);
            octets += rune.Utf8SequenceLength;
        }

        return folded.ToString();
    }

    [GeneratedRegex(@"^(\d{1,2})(?:[:.](\d{2}))?\s*(?:to|until|bis|–|-)\s*(\d{1,2})(?:[:.](\d{2}))?(?:\s*Uhr)?$", RegexOptions.IgnoreCase)]
    private static partial Regex Hours();
}
