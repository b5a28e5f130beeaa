using KittingBee.Web.Backups;

namespace KittingBee.Web.Tests.Backups;

public sealed class BackupRuleTests
{
    private static readonly DateTimeOffset Now = new(2031, 4, 12, 9, 30, 0, TimeSpan.Zero);

    [Fact]
    public void Name_RoundTrips_AndOthersArePassedOver()
    {
        var folder = Directory.CreateTempSubdirectory("kitting-bee-names-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "before-migration-2030-01-02T030405-006Z.db"), "x");
            File.WriteAllText(Path.Combine(folder, "notes.db"), "x");
            File.WriteAllText(Path.Combine(folder, "000009-daily-2030-01-02T030405-006Z.db.part"), "x");
            var next = BackupFile.Next(folder, BackupReason.BeforeRestore, Now);
            Assert.Equal("000001-before-restore-2031-04-12T093000-000Z.db", Path.GetFileName(next));
            File.WriteAllText(next, "xyz");
            Assert.Equal(
                [new(Path.GetFileName(next), 1, "before-restore", Now.UtcDateTime, 3), new("before-migration-2030-01-02T030405-006Z.db", 0, "before-migration", new DateTime(2030, 1, 2, 3, 4, 5, 6, DateTimeKind.Utc), 1)],
                BackupFile.In(folder));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Rule_OverAYearOfHourlyCopies_KeepsADayTwoWeeksAndTwelveWeeks()
    {
        var copies = Enumerable.Range(0, 24 * 365).Select(hour => Copy(24 * 365 - hour, Now.AddHours(-hour))).ToList();
        var kept = copies.Except(BackupRule.Surplus(copies, Now)).ToList();
        // The last 24 hours; the last copy of each older day within 14 days; the last of each older week within 12.
        Assert.Equal(24, kept.Count(copy => copy.MadeAt > Now.UtcDateTime.AddDays(-1)));
        Assert.All(Enumerable.Range(1, 12), day => Assert.Contains(kept, copy => copy.MadeAt.Date == Now.UtcDateTime.Date.AddDays(-day) && copy.MadeAt.Hour == 23));
        Assert.InRange(kept.Count(copy => copy.MadeAt <= Now.UtcDateTime.AddDays(-14)), 9, 11);
        Assert.DoesNotContain(kept, copy => copy.MadeAt <= Now.UtcDateTime.AddDays(-84));
        Assert.InRange(kept.Count, 24 + 12 + 9, 24 + 14 + 11);
    }

    [Fact]
    public void Rule_AppliedEveryDay_NeverLosesTheWeekly()
    {
        var copies = new List<BackupFile>();
        for (var day = 0; day < 200; day++)
        {
            var now = Now.AddDays(day);
            copies.Add(Copy(day + 1, now));
            copies = [.. copies.Except(BackupRule.Surplus(copies, now))];
        }

        var end = Now.AddDays(199).UtcDateTime;
        Assert.Equal(14, copies.Count(copy => copy.MadeAt > end.AddDays(-14)));
        Assert.InRange(copies.Count(copy => copy.MadeAt <= end.AddDays(-14)), 9, 11);
    }

    [Fact]
    public void Rule_WithTheClockSetForwardByYears_KeepsTheLastFive()
    {
        var copies = Enumerable.Range(1, 30).Select(number => Copy(number, Now.AddHours(-number))).ToList();
        var kept = copies.Except(BackupRule.Surplus(copies, Now.AddYears(10)));
        Assert.Equal([26L, 27, 28, 29, 30], kept.Select(copy => copy.Number).Order());
    }

    [Fact]
    public void Rule_WithTheClockSetBack_KeepsWhatSeemsToComeFromTheFuture()
    {
        var copies = Enumerable.Range(1, 9).Select(number => Copy(number, Now.AddDays(number))).ToList();
        Assert.Empty(BackupRule.Surplus(copies, Now.AddYears(-3)));
    }

    [Fact]
    public void Due_AfterADay_AndAtOnceWhenTheClockWasSetBack()
    {
        var last = Copy(1, Now);
        Assert.True(BackupRule.IsDue(null, TimeSpan.FromDays(1), Now));
        Assert.False(BackupRule.IsDue(last, TimeSpan.FromDays(1), Now.AddHours(23)));
        Assert.True(BackupRule.IsDue(last, TimeSpan.FromDays(1), Now.AddHours(24)));
        Assert.True(BackupRule.IsDue(last, TimeSpan.FromDays(1), Now.AddDays(-40)));
    }

    private static BackupFile Copy(long number, DateTimeOffset at) => new($"{number}", number, BackupReason.Daily, at.UtcDateTime, 1);
}
