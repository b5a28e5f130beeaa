using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Tests.Storage;

public sealed class MigrationsTests
{
    [Fact]
    public void Apply_NewDatabase_IsWholeAndStrict()
    {
        using var guild = new TemporaryGuild();
        Assert.Equal("ok", guild.Scalar<string>("PRAGMA integrity_check"));
        Assert.Equal("wal", guild.Scalar<string>("PRAGMA journal_mode"));
        Assert.Equal(1, guild.Scalar<int>("PRAGMA foreign_keys"));
        Assert.Equal(2, guild.Scalar<int>("PRAGMA synchronous"));
        Assert.Equal(0, guild.Scalar<int>("SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND schema = 'main' AND strict = 0 AND name NOT LIKE 'sqlite_%' AND name <> 'SchemaVersions'"));
        Assert.False(Directory.Exists(guild.Backups) && Directory.EnumerateFiles(guild.Backups).Any(), "A new database needs no copy.");
    }

    [Fact]
    public async Task Apply_ExistingDatabase_PutsACopyAsideFirst()
    {
        using var guild = new TemporaryGuild(migrate: false);
        var scripts = Migrations.Scripts();
        Migrations.Apply(guild.Database, guild.Backups, [scripts[0]]);
        await guild.Run("INSERT INTO guild (id, name, units, paper, currency) VALUES (1, 'Before', 'inches', 'letter', 'USD')");

        Migrations.Apply(guild.Database, guild.Backups, [.. scripts, new("db/9999_more.sql", "CREATE TABLE more (id INTEGER PRIMARY KEY) STRICT;")]);

        var copy = Assert.Single(Directory.GetFiles(guild.Backups));
        using var old = new Database(copy, TimeProvider.System);
        Assert.Equal("Before", old.Read(session => session.Get<string>("SELECT name FROM guild")));
        Assert.Equal(0, old.Read(session => session.Get<int>("SELECT count(*) FROM sqlite_schema WHERE name = 'more'")));
        Assert.Equal(1, guild.Scalar<int>("SELECT count(*) FROM sqlite_schema WHERE name = 'more'"));
    }

    [Fact]
    public void Apply_NothingNew_MakesNoCopy()
    {
        using var guild = new TemporaryGuild();
        Migrations.Apply(guild.Database, guild.Backups);
        Assert.False(Directory.Exists(guild.Backups) && Directory.EnumerateFiles(guild.Backups).Any());
    }

    [Fact]
    public void Apply_DatabaseOfANewerProgram_IsRefusedAndLeftAlone()
    {
        using var guild = new TemporaryGuild(migrate: false);
        Migrations.Apply(guild.Database, guild.Backups, [.. Migrations.Scripts(), new("db/9999_tomorrow.sql", "CREATE TABLE tomorrow (id INTEGER PRIMARY KEY) STRICT;")]);

        var refused = Assert.Throws<DatabaseException>(() => Migrations.Apply(guild.Database, guild.Backups));

        Assert.Contains("newer Kitting Bee", refused.Message, StringComparison.Ordinal);
        Assert.Contains("9999_tomorrow", refused.Message, StringComparison.Ordinal);
        Assert.Contains("--data", refused.Message, StringComparison.Ordinal);
        Assert.Equal(1, guild.Scalar<int>("SELECT count(*) FROM sqlite_schema WHERE name = 'tomorrow'"));
    }

    [Fact]
    public void Apply_FileThatIsNoDatabase_IsRefusedAndLeftAlone()
    {
        using var guild = new TemporaryGuild(migrate: false);
        var bytes = Enumerable.Range(0, 8192).Select(i => (byte)(i * 31)).ToArray();
        File.WriteAllBytes(guild.Database.File, bytes);
        Assert.Throws<DatabaseException>(() => Migrations.Apply(guild.Database, guild.Backups));
        Assert.Equal(bytes, File.ReadAllBytes(guild.Database.File));
    }

    [Fact]
    public async Task Apply_DamagedDatabase_IsRefused()
    {
        using var guild = new TemporaryGuild();
        for (var i = 0; i < 200; i++)
        {
            await new FabricStore(guild.Database).Add(new Fabric { Name = $"Fabric {i}", Colour = "#aabbcc", UsableWidth = Length.FromInches(40), Increment = Length.FromInches(9), SupplierNote = new string('x', 300) });
        }

        await guild.Run("PRAGMA user_version = 1");
        using (var connection = guild.Database.Open())
        using (var checkpoint = connection.CreateCommand())
        {
            checkpoint.CommandText = "PRAGMA wal_checkpoint(TRUNCATE)";
            checkpoint.ExecuteNonQuery();
        }

        SqliteConnection.ClearAllPools();
        using (var file = File.OpenWrite(guild.Database.File))
        {
            file.Position = file.Length - 4096;
            file.Write(new byte[4096]);
        }

        var refused = Assert.Throws<DatabaseException>(() => Migrations.Apply(guild.Database, guild.Backups));
        Assert.Contains(guild.Database.File, refused.Message, StringComparison.Ordinal);
    }
}
