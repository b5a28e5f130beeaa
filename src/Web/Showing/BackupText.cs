using System.Globalization;
using KittingBee.Web.Backups;

namespace KittingBee.Web.Showing;

/// <summary>A copy of the database in words.</summary>
public static class BackupText
{
    /// <summary><c>Saturday 13 February 2027, 16:20</c>, in this machine's time.</summary>
    public static string When(DateTime utc) => utc.ToLocalTime().ToString(Say("dddd d MMMM yyyy, HH:mm"), Language.Current.Culture);

    /// <summary>A moment as the database stores it, in this machine's time.</summary>
    public static string When(string stored) => DateTime.TryParse(stored, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out var utc) ? When(utc) : stored;

    /// <summary>The day that is so many days after a stored moment, as <c>13 February 2027</c>.</summary>
    public static string Day(string stored, int after) => DateTime.TryParse(stored, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal, out var utc)
        ? utc.AddDays(after).ToLocalTime().ToString(Say("d MMMM yyyy"), Language.Current.Culture)
        : "";

    public static string Size(long bytes) => bytes < 1_000_000
        ? string.Create(Language.Current.Culture, $"{Math.Max(1, bytes / 1000):#,##0} kB")
        : string.Create(Language.Current.Culture, $"{bytes / 1_000_000m:#,##0.0} MB");

    /// <summary><c>2 classes, 12 students</c>.</summary>
    public static string Holds(BackupContents contents) => contents.Problem is { } problem && contents.Counts.Count == 0
        ? problem
        : contents.IsEmpty ? Say("nothing yet") : $"{(contents.Counts["classes"] == 1 ? Say("1 class") : Say($"{contents.Counts["classes"]:#,##0} classes"))}, {Words.Many((int)contents.Counts["students"], "student")}";

    /// <summary>What is counted, in words.</summary>
    public static string Kind(string kind) => kind switch
    {
        "classes" => Say("classes"),
        "students" => Say("students"),
        "blocks" => Say("blocks"),
        "fabrics" => Say("fabrics"),
        "pieces on the shelf" => Say("pieces on the shelf"),
        "packing marks" => Say("packing marks"),
        _ => kind,
    };

    public static string Class(CopiedClass item) => $"{item.Title}{(item.HeldOn is { } day ? $", {day}" : "")}, {Words.Many((int)item.Students, "student")}";
}
