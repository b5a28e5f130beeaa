using System.Globalization;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Showing;

/// <summary>A class in words.</summary>
public static class ClassText
{
    /// <summary><c>Saturday 13 February 2027, 10 to 4</c>.</summary>
    public static string When(ClassRecord record)
    {
        var day = record.HeldOn is { } date ? Day(date) : Say("No date yet");
        return record.HeldTime.Length == 0 ? day : $"{day}, {record.HeldTime}";
    }

    /// <summary><c>Saturday 13 February 2027</c>, as the reader's language writes it.</summary>
    public static string Day(DateOnly date) => date.ToString(Say("dddd d MMMM yyyy"), Language.Current.Culture);

    /// <summary>A moment as the database stores it, by this machine's clock: <c>13 February 2027, 16:20</c>.</summary>
    public static string Moment(string stored) => Local(stored).ToString(Say("d MMMM yyyy, HH:mm"), Language.Current.Culture);

    /// <summary>The day of a moment as the database stores it, by this machine's clock: <c>13 February 2027</c>.</summary>
    public static string DayOf(string stored) => Local(stored).ToString(Say("d MMMM yyyy"), Language.Current.Culture);

    /// <summary>That a class which is back has lost cloth to another meanwhile; empty where it has not.</summary>
    public static string PlannedAnew(IReadOnlyList<string> fabrics) => fabrics.Count == 0
        ? ""
        : " " + (fabrics.Count == 1
            ? Say($"Another class has cloth that it counted on by now: {fabrics[0]} is planned anew, so print what you printed of it again.")
            : Say($"Another class has cloth that it counted on by now: {string.Join(", ", fabrics)} are planned anew, so print what you printed of them again."));

    // Stored moments are UTC; the program runs on the teacher's own machine, so its clock is theirs.
    private static DateTime Local(string stored) => DateTime.Parse(stored, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal).ToLocalTime();
}
