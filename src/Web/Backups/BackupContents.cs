using Dapper;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Backups;

/// <summary>A class in a copy.</summary>
public sealed record CopiedClass
{
    public long Id { get; init; }

    public string Title { get; init; } = "";

    public string? HeldOn { get; init; }

    public long Students { get; init; }

    /// <summary>Differs where anything of the class differs.</summary>
    public string Print { get; init; } = "";
}

/// <summary>What is in a database file, whatever its age.</summary>
/// <param name="Problem">Why it cannot be put back, or null.</param>
public sealed record BackupContents(string? Problem, string Guild, IReadOnlyList<CopiedClass> Classes, IReadOnlyDictionary<string, long> Counts)
{
    private const string SelectClasses = """
        SELECT c.id, c.title, c.held_on AS HeldOn,
          (SELECT count(*) FROM student s WHERE s.class_id = c.id AND s.deleted_at IS NULL) AS Students,
          c.version || '/' || c.status
            || '/' || (SELECT count(*) || ',' || total(version) FROM student WHERE class_id = c.id)
            || '/' || (SELECT count(*) || ',' || total(version) FROM colourway WHERE class_id = c.id)
            || '/' || (SELECT count(*) || ',' || coalesce(max(sequence), 0) FROM kit_mark WHERE class_id = c.id)
            || '/' || (SELECT count(*) || ',' || count(mended_at) FROM shortage WHERE class_id = c.id)
            || '/' || (SELECT count(*) || ',' || total(version) FROM purchase WHERE class_id = c.id)
            || '/' || (SELECT count(*) || ',' || total(version) FROM leftover WHERE class_id = c.id) AS Print
        FROM class c WHERE c.deleted_at IS NULL ORDER BY c.held_on DESC, c.id DESC
        """;

    // What is counted, and how a page calls it.
    private static readonly (string Words, string Sql)[] Counted =
    [
        ("classes", "SELECT count(*) FROM class WHERE deleted_at IS NULL"),
        ("students", "SELECT count(*) FROM student s JOIN class c ON c.id = s.class_id WHERE s.deleted_at IS NULL AND c.deleted_at IS NULL"),
        ("blocks", "SELECT count(*) FROM block WHERE deleted_at IS NULL"),
        ("fabrics", "SELECT count(*) FROM fabric WHERE deleted_at IS NULL"),
        ("pieces on the shelf", "SELECT count(*) FROM shelf_piece WHERE deleted_at IS NULL"),
        ("packing marks", "SELECT count(*) FROM kit_mark"),
    ];

    public static IReadOnlyList<string> Kinds => [.. Counted.Select(kind => kind.Words)];

    public bool IsEmpty => Guild.Length == 0 && Counts.Values.All(count => count == 0);

    /// <summary>Looks into a file.</summary>
    /// <param name="file">The database file.</param>
    /// <param name="whole">True to check every page of it as well, which takes longer.</param>
    public static BackupContents Read(string file, bool whole)
    {
        try
        {
            if (whole && DatabaseFile.Fault(file) is { } fault)
            {
                return Broken(Say($"This copy is damaged ({fault}). Choose another one."));
            }

            using var connection = DatabaseFile.OpenToRead(file);
            var known = Migrations.Scripts().Select(script => script.Name).ToHashSet(StringComparer.Ordinal);
            var newer = connection.Query<string>("SELECT ScriptName FROM SchemaVersions").Any(name => !known.Contains(name));
            return new(
                newer ? Say("This copy was made by a newer Kitting Bee than this one. Start the newer program to put it back.") : null,
                connection.QuerySingleOrDefault<string>("SELECT name FROM guild") ?? "",
                connection.Query<CopiedClass>(SelectClasses).AsList(),
                Counted.ToDictionary(kind => kind.Words, kind => connection.QuerySingle<long>(kind.Sql)));
        }
        catch (SqliteException e)
        {
            return Broken(Say($"This file cannot be read as a copy of a guild ({e.Message}). Choose another one."));
        }
    }

    private static BackupContents Broken(string problem) => new(problem, "", [], new Dictionary<string, long>());
}

/// <summary>What putting a copy in the place of the present guild would change.</summary>
/// <param name="Gone">Classes that are here and not in the copy.</param>
/// <param name="Back">Classes that are in the copy and not here.</param>
/// <param name="Changed">Classes that would be as they were.</param>
public sealed record BackupDifference(IReadOnlyList<CopiedClass> Gone, IReadOnlyList<CopiedClass> Back, IReadOnlyList<CopiedClass> Changed)
{
    public static BackupDifference Between(BackupContents now, BackupContents then)
    {
        var (here, there) = (now.Classes.ToDictionary(item => item.Id), then.Classes.ToDictionary(item => item.Id));
        return new(
            [.. now.Classes.Where(item => !there.ContainsKey(item.Id))],
            [.. then.Classes.Where(item => !here.ContainsKey(item.Id))],
            [.. then.Classes.Where(item => here.TryGetValue(item.Id, out var own) && own != item)]);
    }
}
