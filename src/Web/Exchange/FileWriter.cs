using System.Text.Encodings.Web;
using System.Text.Json;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Exchange;

/// <summary>Writes the guild or one class as one file.</summary>
public sealed class FileWriter(Database database)
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Everything in the guild, its rows under their own numbers.</summary>
    public byte[] Guild(bool people) => database.Read(session => Write(FileFormat.Guild, people, session.Now, TableShape.All(session)
        .Where(table => !KeptTables.Contains(table.Name) && (people || !People.IsLeftOut(table.Name)))
        .Select(table => (table, Rows(session, table, "1", null))).ToList(), renumber: false));

    /// <summary>
    /// One class with all that it needs; null where there is none. Its rows are numbered from 1 in each table, so that the same class
    /// gives the same file wherever it is kept. People who were taken off the roster are left out in any case.
    /// </summary>
    public byte[]? Class(long classId, bool people) => database.Read(session =>
    {
        if (session.One<long?>("SELECT id FROM class WHERE id = @classId AND deleted_at IS NULL", new { classId }) is null)
        {
            return null;
        }

        var tables = TableShape.All(session);
        var rows = new ClassRows(tables);
        return Write(FileFormat.Class, people, session.Now, tables
            .Where(table => rows.Where(table) is not null && (people || !People.IsLeftOut(table.Name)))
            .Select(table => (table, Rows(session, table, rows.Where(table)!, classId))).ToList(), renumber: true);
    });

    private static IReadOnlyList<IDictionary<string, object?>> Rows(Session session, TableShape table, string where, long? classId)
    {
        var order = string.Join(", ", table.Columns.Where(column => column.Key > 0).OrderBy(column => column.Key).Select(column => $"\"{column.Name}\""));
        return [.. session.List<dynamic>($"SELECT {table.ColumnList} FROM \"{table.Name}\" WHERE {where} ORDER BY {(order.Length == 0 ? "rowid" : order)}", new { classId }).Cast<IDictionary<string, object?>>()];
    }

    private static byte[] Write(string kind, bool people, string now, IReadOnlyList<(TableShape Table, IReadOnlyList<IDictionary<string, object?>> Rows)> tables, bool renumber)
    {
        var numbers = renumber
            ? tables.Where(item => item.Table.NumberKey is not null).ToDictionary(item => item.Table.Name, item => item.Rows.Select((row, at) => (Old: (long)row[item.Table.NumberKey!]!, New: at + 1L)).ToDictionary(pair => pair.Old, pair => pair.New))
            : null;
        using var file = new MemoryStream();
        using (var json = new Utf8JsonWriter(file, Options))
        {
            json.WriteStartObject();
            json.WriteString("format", FileFormat.Name);
            json.WriteNumber("version", FileFormat.Version);
            json.WriteString("kind", kind);
            json.WriteString("schema", FileFormat.Schema);
            json.WriteString("made", now);
            json.WriteBoolean("people", people);
            json.WriteStartObject("tables");
            foreach (var (table, rows) in tables)
            {
                json.WriteStartArray(table.Name);
                for (var at = 0; at < rows.Count; at++)
                {
                    json.WriteStartObject();
                    var hide = !people || (kind == FileFormat.Class && table.Name == "student" && rows[at]["deleted_at"] is not null);
                    foreach (var column in table.Columns)
                    {
                        var value = Renumbered(table, column.Name, rows[at][column.Name], numbers);
                        WriteValue(json, column.Name, hide ? People.Without(table.Name, column.Name, value, at + 1) : value);
                    }

                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }

        return file.ToArray();
    }

    private static object? Renumbered(TableShape table, string column, object? value, Dictionary<string, Dictionary<long, long>>? numbers)
    {
        if (numbers is null || value is null)
        {
            return value;
        }

        long? New(string other, long number) => numbers.TryGetValue(other, out var ofTable) && ofTable.TryGetValue(number, out var to) ? to : null;
        return value switch
        {
            long number when column == table.NumberKey => New(table.Name, number),
            long number when table.References.FirstOrDefault(reference => reference.Column == column) is { } reference => New(reference.Table, number),
            string text when NamedRows.MayStandIn(column) => NamedRows.Renumber(column, text, New),
            _ => value,
        };
    }

    private static void WriteValue(Utf8JsonWriter json, string name, object? value)
    {
        switch (value)
        {
            case null: json.WriteNull(name); break;
            case long number: json.WriteNumber(name, number); break;
            case byte[] bytes: json.WriteBase64String(name, bytes); break;
            default: json.WriteString(name, (string)value); break;
        }
    }
}
