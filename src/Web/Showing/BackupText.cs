using System.Globalization;
using KittingBee.Web.Backups;

namespace KittingBee.Web.Showing;

/// <summary>A copy of the database in words.</summary>
public static class BackupText
{
    /// <summary><c>Saturday 13 February 2027, 16:20</c>, in this machine's time.</summary>
    public static string When(DateTime utc) => utc.ToLocalTime().ToString("dddd d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A moment as the database stores it, in this machine's time.</summary>
    public static string When(string stored) => DateTime.TryParse(stored, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out var utc) ? When(utc) : stored;

    /// <summary>The day that is so many days after a stored moment, as <c>13 February 2027</c>.</summary>
    public static string Day(string stored, int after) => DateTime.TryParse(stored, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out var utc)
        ? utc.AddDays(after).ToLocalTime().ToString("d MMMM yyyy", CultureInfo.InvariantCulture)
        : "";

    public static string Size(long bytes) => bytes < 1_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Max(1, bytes / 1000):#,##0} kB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes / 1_000_000m:#,##0.0} MB");

    /// <summary><c>2 classes, 12 students</c>.</summary>
    public static string Holds(BackupContents contents) => contents.Problem is { } problem && contents.Counts.Count == 0
        ? problem
        : contents.IsEmpty ? "nothing yet" : $"{Many(contents, "classes", "class")}, {Many(contents, "students", "student")}";

    public static string Class(CopiedClass item) => $"{item.Title}{(item.HeldOn is { } day ? $", {day}" : "")}, {Words.Many((int)item.Students, "student")}";

    private static string Many(BackupContents contents, string many, string one) =>
        contents.Counts[many] == 1 ? $"1 {one}" : string.Create(CultureInfo.InvariantCulture, $"{contents.Counts[many]:#,##0} {many}");
}
