using System.Globalization;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Storage;

/// <summary>What came of saving something that people edit.</summary>
public enum Saved
{
    /// <summary>It is stored.</summary>
    Done,

    /// <summary>Somebody else saved it since it was read; nothing was stored.</summary>
    Stale,

    /// <summary>It is not there any more.</summary>
    Gone,
}

/// <summary>The guild's SQLite database: opens connections, and lets one writer in at a time.</summary>
public sealed class Database : IDisposable
{
    private readonly TimeProvider clock;

    // SQLite takes one writer at a time. Waiting here is fair and never fails; waiting inside SQLite polls and may time out.
    private readonly SemaphoreSlim gate = new(1, 1);

    public Database(string file, TimeProvider clock)
    {
        TypeHandlers.Register();
        this.clock = clock;
        File = file;
    }

    public string File { get; }

    /// <summary>How long to wait for another program that holds the database.</summary>
    public TimeSpan Patience { get; set; } = TimeSpan.FromSeconds(10);

    private string ConnectionString => new SqliteConnectionStringBuilder { DataSource = File, ForeignKeys = true, DefaultTimeout = (int)Math.Ceiling(Patience.TotalSeconds) }.ConnectionString;

    /// <summary>A connection with the settings that every use needs.</summary>
    public SqliteConnection Open() => Open(ConnectionString);

    private SqliteConnection Open(string connectionString)
    {
        var connection = new SqliteConnection(connectionString);
        try
        {
            connection.Open();
            using var settings = connection.CreateCommand();
            settings.CommandText = string.Create(CultureInfo.InvariantCulture, $"PRAGMA busy_timeout = {(int)Patience.TotalMilliseconds}; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;");
            settings.ExecuteNonQuery();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Reads in one snapshot.</summary>
    public T Read<T>(Func<Session, T> read)
    {
        using var connection = Open();
        using var transaction = connection.BeginTransaction(deferred: true);
        return read(new Session(connection, transaction, Now()));
    }

    /// <summary>Writes all or nothing; returns once the disk has it. Keep the work inside short.</summary>
    public async Task<T> Write<T>(Func<Session, T> write)
    {
        await gate.WaitAsync();
        try
        {
            using var connection = Open();
            using var transaction = connection.BeginTransaction(deferred: false);
            var result = write(new Session(connection, transaction, Now()));
            transaction.Commit();
            return result;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>
    /// Writes all or nothing with another database file beside it, under the schema name <c>other</c>; that file is only read.
    /// </summary>
    public async Task<T> WriteBeside<T>(string file, Func<Session, T> write)
    {
        await gate.WaitAsync();
        try
        {
            // A connection of its own: one from the pool would keep the other file.
            using var connection = Open(ConnectionString + ";Pooling=False");
            Run(connection, "ATTACH DATABASE $file AS other", file);
            using var transaction = connection.BeginTransaction(deferred: false);
            var result = write(new Session(connection, transaction, Now()));
            transaction.Commit();
            return result;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>
    /// Copies the whole database into a new file while it is in use. The file has its name only once it is whole, checked and
    /// on the disk; whatever stops the copying leaves at most a <c>.part</c> beside it.
    /// </summary>
    /// <exception cref="DatabaseException">The copy is damaged, as the database itself must be then.</exception>
    public void CopyTo(string file)
    {
        var part = file + ".part";
        System.IO.File.Delete(part);
        try
        {
            using (var connection = Open())
            {
                Run(connection, "VACUUM INTO $file", part);
            }

            if (DatabaseFile.Fault(part) is { } fault)
            {
                throw new DatabaseException($"The copy of the database is damaged ({fault}), and so the database is too. Stop the program, and look at the copies in the backups folder.");
            }

            DatabaseFile.ToDisk(part);
            System.IO.File.Move(part, file);
        }
        catch
        {
            System.IO.File.Delete(part);
            throw;
        }
    }

    public DateTimeOffset Moment() => clock.GetUtcNow();

    /// <summary>The current moment as the database stores it.</summary>
    public string Now() => Stamp(clock.GetUtcNow());

    /// <summary>A moment as the database stores it; such texts sort by time.</summary>
    public static string Stamp(DateTimeOffset moment) => moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    private static void Run(SqliteConnection connection, string sql, string file)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.Parameters.AddWithValue("$file", file);
        command.ExecuteNonQuery();
    }

    public void Dispose()
    {
        gate.Dispose();
        using var connection = new SqliteConnection(ConnectionString);
        SqliteConnection.ClearPool(connection);
    }
}
