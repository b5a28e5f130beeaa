using System.Globalization;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Showing;

/// <summary>A class in words.</summary>
public static class ClassText
{
    /// <summary><c>Saturday 13 February 2027, 10 to 4</c>.</summary>
    public static string When(ClassRecord record)
    {
        var day = record.HeldOn?.ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture) ?? "No date yet";
        return record.HeldTime.Length == 0 ? day : $"{day}, {record.HeldTime}";
    }

    /// <summary><c>1 kit</c>, <c>12 kits</c>.</summary>
    public static string Many(int count, string thing) => count == 1 ? $"1 {thing}" : string.Create(CultureInfo.InvariantCulture, $"{count:#,##0} {thing}s");
}
