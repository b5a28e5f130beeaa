using System.Text;
using KittingBee.Web.Documents;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Documents;

/// <summary>The rules are those of RFC 5545; the section stands beside each.</summary>
public sealed class CalendarFileTests
{
    private static readonly DateTimeOffset Now = new(2031, 1, 2, 3, 4, 5, TimeSpan.FromHours(2));

    private static ClassRecord Class(string time = "10 to 4", string title = "Lantern, star; and \\ more\nsewing") =>
        new() { Id = 7, Title = title, BlockName = "Star", HeldOn = new DateOnly(2031, 4, 12), HeldTime = time, Place = "Hall B, upstairs" };

    [Fact]
    public void File_HasWhatEveryEventNeeds()
    {
        var file = CalendarFile.Of(Class(), 12, Now)!;
        Assert.StartsWith("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:", file, StringComparison.Ordinal); // 3.4, 3.6, 3.7
        Assert.EndsWith("END:VEVENT\r\nEND:VCALENDAR\r\n", file, StringComparison.Ordinal);
        Assert.Contains("\r\nDTSTAMP:20310102T010405Z\r\n", file, StringComparison.Ordinal); // 3.8.7.2: in UTC
        Assert.Single(Lines(file), line => line.StartsWith("UID:", StringComparison.Ordinal)); // 3.6.1
        Assert.DoesNotContain("\n", file.Replace("\r\n", "", StringComparison.Ordinal), StringComparison.Ordinal); // 3.1
    }

    [Fact]
    public void Text_IsEscaped() // 3.3.11
    {
        var lines = Lines(CalendarFile.Of(Class(), 12, Now)!);
        Assert.Contains(@"SUMMARY:Lantern\, star\; and \\ more\nsewing", lines);
        Assert.Contains(@"LOCATION:Hall B\, upstairs", lines);
    }

    [Theory]
    [InlineData("10 to 4", "DTSTART:20310412T100000", "DTEND:20310412T160000")]
    [InlineData("10:00 to 16:00", "DTSTART:20310412T100000", "DTEND:20310412T160000")]
    [InlineData("7 to 9.30", "DTSTART:20310412T070000", "DTEND:20310412T093000")]
    [InlineData("9:15-12", "DTSTART:20310412T091500", "DTEND:20310412T120000")]
    [InlineData("after lunch", "DTSTART;VALUE=DATE:20310412", "DTEND;VALUE=DATE:20310413")] // 3.6.1: the end is not in it
    [InlineData("25 to 26", "DTSTART;VALUE=DATE:20310412", "DTEND;VALUE=DATE:20310413")]
    [InlineData("", "DTSTART;VALUE=DATE:20310412", "DTEND;VALUE=DATE:20310413")]
    public void Time_IsTakenWhereItCanBeRead(string time, string start, string end)
    {
        var lines = Lines(CalendarFile.Of(Class(time), 12, Now)!);
        Assert.Contains(start, lines);
        Assert.Contains(end, lines);
    }

    [Fact]
    public void LongLines_AreFoldedBetweenCharacters() // 3.1: 75 octets, not counting the line break
    {
        var title = string.Concat(Enumerable.Repeat("Üçgen 星形 🪡 ", 30)).Trim();
        var file = CalendarFile.Of(Class(title: title), 12, Now)!;
        Assert.All(file.Split("\r\n"), line => Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.DoesNotContain('\uFFFD', file);
        Assert.Contains("SUMMARY:" + title, Lines(file));
    }

    [Fact]
    public void ClassWithoutADate_HasNoFile() => Assert.Null(CalendarFile.Of(Class() with { HeldOn = null }, 12, Now));

    // Unfolded as a reader does it.
    private static string[] Lines(string file) => file.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n");
}
