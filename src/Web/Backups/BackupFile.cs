using System.Globalization;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Backups;

/// <summary>A copy of the whole database, as its file's name tells: its number, why it was made, and when.</summary>
/// <param name="Name">The file's name.</param>
/// <param name="Number">One more than any copy before it: the order of copies does not rest on the clock, which may be set back.</param>
/// <param name="Why">One of <see cref="BackupReason"/>.</param>
/// <param name="MadeAt">The clock's time then, UTC.</param>
/// <param name="Size">Bytes.</param>
public sealed partial record BackupFile(string Name, long Number, string Why, DateTime MadeAt, long Size)
{
    private const string Stamp = "yyyy-MM-dd'T'HHmmss-fff'Z'";

    /// <summary>The copies in a folder, newest first; other files are passed over.</summary>
    public static IReadOnlyList<BackupFile> In(string folder) => Directory.Exists(folder)
        ? [.. new DirectoryInfo(folder).EnumerateFiles("*.db").Select(file => Read(file.Name, file.Length)).OfType<BackupFile>().OrderByDescending(file => file.Number).ThenByDescending(file => file.MadeAt)]
        : [];

    /// <summary>Where the next copy in a folder goes.</summary>
    public static string Next(string folder, string why, DateTimeOffset now)
    {
        var number = In(folder).Select(file => file.Number).DefaultIfEmpty(0).Max() + 1;
        return Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{number:000000}-{why}-{now.UtcDateTime.ToString(Stamp, CultureInfo.InvariantCulture)}.db"));
    }

    /// <summary>Reads a file's name; null for one that no copy bears.</summary>
    public static BackupFile? Read(string name, long size)
    {
        var match = Form().Match(name);
        return match.Success && DateTime.TryParseExact(match.Groups["at"].Value, Stamp, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal | DateTimeStyles.AssumeUniversal, out var madeAt)
            ? new(name, match.Groups["number"].Success ? long.Parse(match.Groups["number"].Value, CultureInfo.InvariantCulture) : 0, match.Groups["why"].Value, madeAt, size)
            : null;
    }

    // Copies of an earlier program have no number.
    [GeneratedRegex("^(?:(?<number>[0-9]{6,12})-)?(?<why>[a-z]+(?:-[a-z]+)*)-(?<at>[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{6}-[0-9]{3}Z)\\.db$")]
    private static partial Regex Form();
}

/// <summary>Why a copy was made: the word in its file's name, and how a page says it.</summary>
public static class BackupReason
{
    public const string Start = "start";
    public const string Daily = "daily";
    public const string ByHand = "by-hand";
    public const string BeforeMigration = "before-migration";
    public const string BeforeEmptying = "before-emptying";
    public const string BeforeForgetting = "before-forgetting";
    public const string BeforeRestore = "before-restore";
    public const string BeforeImport = "before-import";
    public const string BeforePurge = "before-purge";

    public static string Words(string why) => why switch
    {
        Start => Say("when the program started"),
        Daily => Say("once a day"),
        ByHand => Say("by hand"),
        BeforeMigration => Say("before a newer program changed the database"),
        BeforeEmptying => Say("before the guild was emptied"),
        BeforeForgetting => Say("before people were forgotten"),
        BeforeRestore => Say("before another copy was put back"),
        BeforeImport => Say("before a file was taken in"),
        BeforePurge => Say("before what was taken out went for good"),
        _ => why.Replace('-', ' '),
    };
}
