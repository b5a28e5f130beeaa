using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Tests.Storage;

/// <summary>A migrated database in a folder of its own, without the program around it.</summary>
internal sealed class TemporaryGuild : IDisposable
{
    public TemporaryGuild(bool migrate = true)
    {
        Database = new Database(Path.Combine(Folder, "guild.db"), TimeProvider.System);
        if (migrate)
        {
            Migrations.Apply(Database, Backups);
        }
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("kitting-bee-storage-").FullName;

    public string Backups => Path.Combine(Folder, "backups");

    public Database Database { get; }

    public T Scalar<T>(string sql) => Database.Read(session => session.Get<T>(sql));

    public Task<int> Run(string sql) => Database.Write(session => session.Run(sql));

    public void Dispose()
    {
        Database.Dispose();
        SqliteConnection.ClearAllPools();
        Directory.Delete(Folder, recursive: true);
    }
}
