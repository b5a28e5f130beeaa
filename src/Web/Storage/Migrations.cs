using System.Reflection;
using DbUp;
using DbUp.Engine;
using KittingBee.Web.Backups;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Storage;

/// <summary>A database that this program must not or cannot open; the message says what to do.</summary>
public sealed class DatabaseException(string message, Exception? inner = null) : Exception(message, inner);

/// <summary>Brings the database up to the program's schema, with a copy put aside first.</summary>
public static class Migrations
{
    private const string Prefix = "db/";

    /// <summary>Applies what is missing. A database that a newer program made, a damaged one, or a file that is none, is refused and left as it is.</summary>
    /// <param name="database">The database; its file is made where there is none.</param>
    /// <param name="backups">Folder for the copy.</param>
    /// <param name="scripts">Names and texts in order; the program's own when null.</param>
    public static void Apply(Database database, string backups, IReadOnlyList<SqlScript>? scripts = null)
    {
        scripts ??= Scripts();
        try
        {
            var applied = Applied(database);
            if (applied.Except(scripts.Select(script => script.Name)).Order(StringComparer.Ordinal).LastOrDefault() is { } unknown)
            {
                throw new DatabaseException(
                    $"The database {database.File} was made by a newer Kitting Bee (it has the change {Path.GetFileNameWithoutExtension(unknown)}). Nothing was touched. Start the newer program, or choose another folder with --data.");
            }

            if (applied.Count > 0 && scripts.Any(script => !applied.Contains(script.Name)))
            {
                Directory.CreateDirectory(backups);
                database.CopyTo(BackupFile.Next(backups, BackupReason.BeforeMigration, database.Moment()));
            }

            Upgrade(database, scripts);
        }
        catch (SqliteException e)
        {
            throw new DatabaseException($"The database {database.File} cannot be opened: {e.Message} {StorageFaults.Explain(e) ?? "Nothing was changed."} Copies are kept in {backups}.", e);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new DatabaseException($"The database {database.File} was not opened, because no copy of it could be made first. {StorageFaults.Explain(e)} Copies are kept in {backups}.", e);
        }
    }

    /// <summary>The migrations built into the program, in order.</summary>
    public static IReadOnlyList<SqlScript> Scripts()
    {
        var assembly = Assembly.GetExecutingAssembly();
        return [.. assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .Order(StringComparer.Ordinal)
            .Select(name =>
            {
                using var stream = assembly.GetManifestResourceStream(name)!;
                return SqlScript.FromStream(name, stream);
            })];
    }

    private static HashSet<string> Applied(Database database)
    {
        using var connection = database.Open();
        using var check = connection.CreateCommand();
        check.CommandText = "PRAGMA quick_check(1)";
        if (check.ExecuteScalar() is not "ok")
        {
            throw new DatabaseException($"The database {database.File} is damaged. Nothing was changed. Put the newest copy from the backups folder in its place.");
        }

        check.CommandText = "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'SchemaVersions'";
        if (check.ExecuteScalar() is 0L)
        {
            return [];
        }

        check.CommandText = "SELECT ScriptName FROM SchemaVersions";
        using var rows = check.ExecuteReader();
        var names = new HashSet<string>(StringComparer.Ordinal);
        while (rows.Read())
        {
            names.Add(rows.GetString(0));
        }

        return names;
    }

    private static void Upgrade(Database database, IReadOnlyList<SqlScript> scripts)
    {
        var connectionString = new SqliteConnectionStringBuilder { DataSource = database.File, ForeignKeys = true, Pooling = false, DefaultTimeout = (int)Math.Ceiling(database.Patience.TotalSeconds) }.ConnectionString;
        var result = DeployChanges.To.SqliteDatabase(connectionString)
            .WithScripts(scripts)
            .WithVariablesDisabled()
            .WithTransactionPerScript()
            .LogToNowhere()
            .Build()
            .PerformUpgrade();
        if (!result.Successful)
        {
            throw new DatabaseException($"The database {database.File} could not be brought up to date: {result.Error.Message} {StorageFaults.Explain(result.Error)} The copy made before is in the backups folder.", result.Error);
        }
    }
}
