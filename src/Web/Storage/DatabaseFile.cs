using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Storage;

/// <summary>A database file that is not the guild's own: a copy, or one made from a file that was taken in.</summary>
public static class DatabaseFile
{
    /// <summary>Opens a file to look at it; nothing is written, not even beside it.</summary>
    public static SqliteConnection OpenToRead(string file)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Mode = SqliteOpenMode.ReadOnly, Pooling = false, DefaultTimeout = 30 }.ConnectionString);
        try
        {
            connection.Open();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>What SQLite finds wrong with a file; null where it is whole.</summary>
    public static string? Fault(string file)
    {
        try
        {
            using var connection = OpenToRead(file);
            using var check = connection.CreateCommand();
            check.CommandText = "PRAGMA integrity_check(1)";
            return check.ExecuteScalar() as string is var answer && answer == "ok" ? null : answer ?? "no answer";
        }
        catch (SqliteException e)
        {
            return e.Message;
        }
    }

    /// <summary>Waits until the disk has the file.</summary>
    public static void ToDisk(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.ReadWrite);
        stream.Flush(flushToDisk: true);
    }

    /// <summary>Deletes a database file and what SQLite keeps beside it.</summary>
    public static void Delete(string file)
    {
        foreach (var part in new[] { "", "-wal", "-shm", "-journal" })
        {
            File.Delete(file + part);
        }
    }
}
