using System.Text.RegularExpressions;
using KittingBee.Web.Backups;
using KittingBee.Web.Packing;
using KittingBee.Web.Running;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Exchange;

/// <summary>A file that was read and waits to be taken in.</summary>
public sealed record WaitingFile(string Id, FileHead Head, BackupContents Contents, MergePreview? Merge);

/// <summary>Files that were read and are looked at before they are taken in. They wait in the data folder until the program starts anew, the latest few of them.</summary>
public sealed partial class Incoming(Database database, DataFolder folder, BackupBook backups, Restoring restoring, MarkDesk marks)
{
    private const int MostWaiting = 5;

    private string Place => Path.Combine(folder.Path, "incoming");

    /// <summary>Reads a file, and keeps what was read until <see cref="Take"/>.</summary>
    /// <exception cref="FileRefusedException">It cannot be taken in; nothing was kept.</exception>
    public async Task<string> Read(ReadOnlyMemory<byte> file)
    {
        Directory.CreateDirectory(Place);
        foreach (var old in new DirectoryInfo(Place).EnumerateDirectories().OrderByDescending(one => one.LastWriteTimeUtc).Skip(MostWaiting - 1))
        {
            old.Delete(recursive: true);
        }

        var id = Guid.NewGuid().ToString("N");
        Directory.CreateDirectory(Path.Combine(Place, id));
        try
        {
            var head = await FileReader.Read(file, DatabaseOf(id));
            await File.WriteAllTextAsync(HeadOf(id), System.Text.Json.JsonSerializer.Serialize(head));
            return id;
        }
        catch
        {
            Forget(id);
            throw;
        }
    }

    /// <summary>What would happen; null where nothing waits under that name.</summary>
    public async Task<WaitingFile?> Find(string? id)
    {
        if (id is null || !Name().IsMatch(id) || !File.Exists(HeadOf(id)))
        {
            return null;
        }

        var head = System.Text.Json.JsonSerializer.Deserialize<FileHead>(await File.ReadAllTextAsync(HeadOf(id)))!;
        return new(id, head, BackupContents.Read(DatabaseOf(id), whole: false), head.Kind == FileFormat.Class ? await database.WriteBeside(DatabaseOf(id), ClassMerge.Preview) : null);
    }

    /// <summary>Takes the file in, all of it or nothing; gives the copy made before, and the class's number where it is one.</summary>
    /// <exception cref="BackupException">It could not be done, and the guild is as it was.</exception>
    public async Task<(BackupFile Before, long ClassId)> Take(WaitingFile waiting, bool withCloth)
    {
        if (waiting.Head.Kind == FileFormat.Guild)
        {
            var replaced = await restoring.Replace(DatabaseOf(waiting.Id), BackupReason.BeforeImport);
            Forget(waiting.Id);
            return (replaced, 0);
        }

        try
        {
            var before = backups.Make(BackupReason.BeforeImport);
            var classId = await database.WriteBeside(DatabaseOf(waiting.Id), session => ClassMerge.BringIn(session, withCloth));
            marks.Forget(classId);
            Forget(waiting.Id);
            return (before, classId);
        }
        catch (SqliteException e)
        {
            throw new BackupException(Say($"The class was not taken in, and the guild is as it was. {StorageFaults.Explain(e) ?? e.Message}"), e);
        }
    }

    public void Forget(string id)
    {
        if (Name().IsMatch(id) && Directory.Exists(Path.Combine(Place, id)))
        {
            Directory.Delete(Path.Combine(Place, id), recursive: true);
        }
    }

    /// <summary>Takes away what waited when the program was stopped.</summary>
    public static void Clear(DataFolder folder)
    {
        var place = Path.Combine(folder.Path, "incoming");
        if (Directory.Exists(place))
        {
            Directory.Delete(place, recursive: true);
        }
    }

    private string DatabaseOf(string id) => Path.Combine(Place, id, "file.db");

    private string HeadOf(string id) => Path.Combine(Place, id, "head.json");

    [GeneratedRegex("^[0-9a-f]{32}$")]
    private static partial Regex Name();
}
