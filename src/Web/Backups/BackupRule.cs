namespace KittingBee.Web.Backups;

/// <summary>
/// Which copies stay: all of the last day, the last one of each day for 14 days, the last one of each week for 12 weeks, and
/// the five made last whatever the clock says.
/// </summary>
public static class BackupRule
{
    public const int Days = 14;
    public const int Weeks = 12;

    /// <summary>Kept by their number: a clock that was wrong by years must not take the only good copies away.</summary>
    public const int AlwaysKept = 5;

    // 1 January 2001 was a Monday.
    private static readonly DateTime FirstMonday = new(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>The copies that may go.</summary>
    public static IReadOnlyList<BackupFile> Surplus(IReadOnlyList<BackupFile> copies, DateTimeOffset now)
    {
        var newest = copies.OrderByDescending(copy => copy.Number).ThenByDescending(copy => copy.MadeAt).ToList();
        var kept = newest.Take(AlwaysKept).ToHashSet();
        var (days, weeks) = (new HashSet<DateTime>(), new HashSet<int>());
        foreach (var copy in newest)
        {
            // A copy from the future was made before the clock was set back, and counts as of today.
            var age = now.UtcDateTime - copy.MadeAt;
            if (age < TimeSpan.FromDays(1)
                || (age < TimeSpan.FromDays(Days) && days.Add(copy.MadeAt.Date))
                || (age < TimeSpan.FromDays(7 * Weeks) && weeks.Add((copy.MadeAt - FirstMonday).Days / 7)))
            {
                kept.Add(copy);
            }

            days.Add(copy.MadeAt.Date);
            weeks.Add((copy.MadeAt - FirstMonday).Days / 7);
        }

        return [.. newest.Where(copy => !kept.Contains(copy))];
    }

    /// <summary>True where the last copy is older than that, or from a future that the clock was set back from.</summary>
    public static bool IsDue(BackupFile? last, TimeSpan age, DateTimeOffset now) =>
        last is null || now.UtcDateTime - last.MadeAt >= age || last.MadeAt > now.UtcDateTime.AddMinutes(1);
}
