using KittingBee.Web.Packing;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Backups;

/// <summary>
/// Puts a copy in the place of the present guild. The copy's rows are brought in by one transaction of the database itself: whatever
/// stops it, a killed program or a full disk, either all of it happened or nothing.
/// </summary>
public sealed class Restoring(Database database, DataFolder folder, BackupBook backups, MarkDesk marks, Devices devices)
{
    /// <summary>Called with the name of each step as it is reached; tests stop the work there.</summary>
    public Action<string>? Reached { get; set; }

    /// <summary>Puts a copy back; gives the copy of the state before, which puts that back in turn.</summary>
    public Task<BackupFile> Restore(BackupFile copy) => Replace(backups.PathOf(copy), BackupReason.BeforeRestore);

    /// <summary>Puts a database file in the place of the guild, brought up to this program's schema first.</summary>
    /// <exception cref="BackupException">It could not be done, and the guild is as it was.</exception>
    public async Task<BackupFile> Replace(string file, string why)
    {
        using var work = new WorkFolder(folder);
        try
        {
            var prepared = Prepare(file, work);
            Reached?.Invoke("prepared");
            var before = backups.Make(why);
            Reached?.Invoke("copied aside");
            await database.WriteBeside(prepared, BringIn);
            Reached?.Invoke("brought in");
            marks.ForgetAll();
            await devices.ReadAnew();
            return before;
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException or DatabaseException)
        {
            throw new BackupException(Say($"It could not be put in place, and the guild is as it was. {StorageFaults.Explain(e)}"), e);
        }
    }

    private static string Prepare(string file, WorkFolder work)
    {
        var prepared = work.File("prepared.db");
        File.Copy(file, prepared);
        using (var copy = new Database(prepared, TimeProvider.System))
        {
            Migrations.Apply(copy, work.Path);
        }

        return DatabaseFile.Fault(prepared) is { } fault ? throw new DatabaseException(Say($"The copy is damaged ({fault}).")) : prepared;
    }

    private int BringIn(Session session)
    {
        // Whole tables change places, so what refers to what is checked at the end.
        session.Run("PRAGMA defer_foreign_keys = ON");
        var tables = TableShape.All(session);
        var there = TableShape.All(session, "other").Select(table => table.Name).ToHashSet(StringComparer.Ordinal);
        KeptTables.PutAside(session, tables);
        foreach (var table in tables.Where(table => !KeptTables.Contains(table.Name)))
        {
            session.Run($"DELETE FROM main.\"{table.Name}\"");
            if (there.Contains(table.Name))
            {
                // Sequences of marks go on where they were: open pages ask for what came after the last they saw.
                session.Run($"INSERT INTO main.\"{table.Name}\" ({table.ColumnList}) SELECT {table.ColumnList} FROM other.\"{table.Name}\"");
            }

            Reached?.Invoke(table.Name);
        }

        KeptTables.TakeBack(session, tables);
        return tables.Count;
    }
}
