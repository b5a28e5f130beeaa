using System.Globalization;
using System.Text;
using System.Text.Json;
using KittingBee.Web.Backups;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Exchange;

/// <summary>A file that cannot be taken in; the message names the place and the remedy.</summary>
public sealed class FileRefusedException(string message, Exception? inner = null) : Exception(message, inner);

/// <summary>What the beginning of a file says of it.</summary>
public sealed record FileHead(string Kind, bool People, string Made);

/// <summary>
/// Reads a guild's or class's file into a database of its own, with the tables as they were when the file was written, and brings
/// that up to date as any old database is. The guild is not touched: what the database refuses, the guild never sees.
/// </summary>
public static class FileReader
{
    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 8, AllowDuplicateProperties = false };

    /// <summary>Reads a file into a new database.</summary>
    /// <param name="file">The bytes, as they were sent.</param>
    /// <param name="database">Where the new database goes; nothing may be there yet.</param>
    /// <exception cref="FileRefusedException">The file is none, or what it holds cannot be.</exception>
    public static async Task<FileHead> Read(ReadOnlyMemory<byte> file, string database)
    {
        try
        {
            using var json = JsonDocument.Parse(file.Span.StartsWith(Encoding.UTF8.Preamble) ? file[Encoding.UTF8.Preamble.Length..] : file, Strict);
            var (head, scripts, tables) = Head(json.RootElement);
            var scratch = Path.GetDirectoryName(database)!;
            using var target = new Database(database, TimeProvider.System);
            Migrations.Apply(target, scratch, scripts);
            await target.Write(session => Fill(session, tables));
            Migrations.Apply(target, scratch);
            if (BackupContents.Read(database, whole: false).Problem is { } problem)
            {
                throw new FileRefusedException(problem);
            }

            ContentCheck.Check(target, head.Kind);
            return head;
        }
        catch (JsonException e)
        {
            throw new FileRefusedException(Say($"This is not a file of Kitting Bee, or it was cut short (line {(e.LineNumber ?? 0) + 1} cannot be read). Choose the file that was saved from a guild or a class."), e);
        }
        catch (Exception e) when (e is SqliteException or InvalidOperationException or FormatException or DatabaseException)
        {
            throw new FileRefusedException(Say($"The file’s contents cannot be: {e.Message} Nothing was taken in. Save the file anew from where it was made."), e);
        }
    }

    private static (FileHead Head, IReadOnlyList<DbUp.Engine.SqlScript> Scripts, JsonElement Tables) Head(JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object || Text(root, "format") != FileFormat.Name || !root.TryGetProperty("tables", out var tables) || tables.ValueKind != JsonValueKind.Object)
        {
            throw new FileRefusedException(Say("This is not a file of a guild or a class. A single block is brought in on the Blocks page, a roster on the Roster page of its class."));
        }

        if (!root.TryGetProperty("version", out var version) || version.ValueKind != JsonValueKind.Number || !version.TryGetInt32(out var number) || number != FileFormat.Version)
        {
            throw new FileRefusedException(Say($"The file has version {(version.ValueKind == JsonValueKind.Undefined ? Say("none") : Shown(version.ToString()))}, and this program reads version {FileFormat.Version}. Start a newer Kitting Bee, or save the file anew with the one that made it."));
        }

        var kind = Text(root, "kind");
        if (kind is not (FileFormat.Guild or FileFormat.Class))
        {
            throw new FileRefusedException(Say($"The file says it holds “{Shown(kind)}”; a guild or a class can be taken in."));
        }

        var scripts = Migrations.Scripts();
        var schema = Text(root, "schema");
        var last = scripts.ToList().FindIndex(script => FileFormat.SchemaOf(script.Name) == schema);
        return last < 0
            ? throw new FileRefusedException(Say($"The file was made by a newer Kitting Bee (its tables are those of {Shown(schema)}). Start that one or a newer one to take it in."))
            : (new FileHead(kind, root.TryGetProperty("people", out var people) && people.ValueKind == JsonValueKind.True, Text(root, "made")), [.. scripts.Take(last + 1)], tables);
    }

    private static int Fill(Session session, JsonElement tables)
    {
        session.Run("PRAGMA defer_foreign_keys = ON");
        var shapes = TableShape.All(session).Where(table => !FileFormat.LeftOut.ContainsKey(table.Name)).ToDictionary(table => table.Name);
        var count = 0;
        foreach (var table in tables.EnumerateObject())
        {
            if (!shapes.TryGetValue(table.Name, out var shape) || table.Value.ValueKind != JsonValueKind.Array)
            {
                throw new FileRefusedException(Say($"The file has a table “{Shown(table.Name)}”, and its version has no such table. Nothing was taken in."));
            }

            var at = 0;
            foreach (var row in table.Value.EnumerateArray())
            {
                at++;
                Insert(session, shape, row, Say($"Table {shape.Name}, row {at}"));
                count++;
            }
        }

        if (session.List<string>("SELECT DISTINCT \"table\" || ' ' || parent FROM pragma_foreign_key_check") is [var lost, ..] && lost.Split(' ') is [var child, var parent])
        {
            throw new FileRefusedException(Say($"The table {child} names a row of {parent} that is not in the file. Nothing was taken in."));
        }

        return count;
    }

    private static void Insert(Session session, TableShape table, JsonElement row, string place)
    {
        if (row.ValueKind != JsonValueKind.Object)
        {
            throw new FileRefusedException(Say($"{place}: it must be an object with a value for each column."));
        }

        var values = new Dictionary<string, object?>(StringComparer.Ordinal);
        foreach (var field in row.EnumerateObject())
        {
            if (table.Columns.FirstOrDefault(column => column.Name == field.Name) is not { } column)
            {
                throw new FileRefusedException(Say($"{place}: there is no column “{Shown(field.Name)}”."));
            }

            values[column.Name] = Value(column, field.Value, place);
        }

        try
        {
            var names = values.Keys.ToList();
            session.Run(
                $"INSERT INTO \"{table.Name}\" ({string.Join(", ", names.Select(name => $"\"{name}\""))}) VALUES ({string.Join(", ", names.Select((_, at) => $"@v{at}"))})",
                new Dapper.DynamicParameters(names.Select((name, at) => KeyValuePair.Create($"v{at}", values[name]))));
        }
        catch (SqliteException e)
        {
            throw new FileRefusedException(Say($"{place}: {e.Message} Nothing was taken in."), e);
        }
    }

    private static object? Value(ColumnShape column, JsonElement value, string place) => (column.Type, value.ValueKind) switch
    {
        (_, JsonValueKind.Null) => null,
        ("INTEGER", JsonValueKind.Number) when value.TryGetInt64(out var number) => number,
        ("TEXT", JsonValueKind.String) => value.GetString(),
        ("BLOB", JsonValueKind.String) when value.TryGetBytesFromBase64(out var bytes) => bytes,
        _ => throw new FileRefusedException(Say($"{place}: {column.Name} is {Shown(value.GetRawText())}, and must be {column.Type switch { "INTEGER" => Say("a whole number"), "BLOB" => Say("bytes in base64"), _ => Say("a text") }}.")),
    };

    private static string Text(JsonElement root, string name) => root.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString()! : "";

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "…" : text;
}
