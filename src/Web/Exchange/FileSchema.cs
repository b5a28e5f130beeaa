using System.Text.Json.Nodes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Exchange;

/// <summary>The published form of a guild's or class's file, as JSON Schema 2020-12, made from the tables themselves so that it is never behind them.</summary>
public static class FileSchema
{
    public const string Address = "/schemas/guild-file.json";

    public static string Json(Database database) => database.Read(session => new JsonObject
    {
        ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
        ["$id"] = Address,
        ["title"] = "A guild or one class of Kitting Bee",
        ["description"] = $"Tables as the program keeps them. Lengths are whole ticks, 406,400 to the inch; money is whole hundredths; percentages are whole hundredths of a percent; moments are ISO 8601 in UTC. Columns that are left out take their default. Not in any file: {string.Join("; ", FileFormat.LeftOut.Select(pair => $"{pair.Key} ({pair.Value})"))}.",
        ["type"] = "object",
        ["required"] = new JsonArray("format", "version", "kind", "schema", "tables"),
        ["additionalProperties"] = false,
        ["properties"] = new JsonObject
        {
            ["format"] = new JsonObject { ["const"] = FileFormat.Name },
            ["version"] = new JsonObject { ["const"] = FileFormat.Version },
            ["kind"] = new JsonObject { ["enum"] = new JsonArray(FileFormat.Guild, FileFormat.Class) },
            ["schema"] = new JsonObject { ["type"] = "string", ["description"] = $"The newest change to the tables that the file knows; here {FileFormat.Schema}. Files of earlier ones are read, of later ones refused." },
            ["made"] = new JsonObject { ["type"] = "string", ["format"] = "date-time" },
            ["people"] = new JsonObject { ["type"] = "boolean", ["description"] = "False where names, contacts, notes and photographs were left out." },
            ["tables"] = new JsonObject
            {
                ["type"] = "object",
                ["additionalProperties"] = false,
                ["properties"] = new JsonObject(TableShape.All(session).Where(table => !KeptTables.Contains(table.Name)).Select(table => KeyValuePair.Create(table.Name, (JsonNode?)Rows(table)))),
            },
        },
    }.ToJsonString(new() { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }));

    private static JsonObject Rows(TableShape table) => new()
    {
        ["type"] = "array",
        ["items"] = new JsonObject
        {
            ["type"] = "object",
            ["additionalProperties"] = false,
            ["properties"] = new JsonObject(table.Columns.Select(column => KeyValuePair.Create(column.Name, (JsonNode?)Column(table, column)))),
        },
    };

    private static JsonObject Column(TableShape table, ColumnShape column)
    {
        var type = column.Type == "INTEGER" ? "integer" : "string";
        var shape = new JsonObject { ["type"] = column.Needed || column.Key > 0 ? type : new JsonArray(type, "null") };
        if (column.Type == "BLOB")
        {
            shape["contentEncoding"] = "base64";
        }

        if (Meaning(table, column) is { } meaning)
        {
            shape["description"] = meaning;
        }

        return shape;
    }

    private static string? Meaning(TableShape table, ColumnShape column) => column.Name switch
    {
        _ when table.References.FirstOrDefault(reference => reference.Column == column.Name) is { } reference => $"A row of {reference.Table}, by its {reference.To}.",
        _ when People.Names(table.Name, column.Name) => "Left out, or replaced, in a file without people.",
        _ when column.Name.EndsWith("_ticks", StringComparison.Ordinal) => "A length in ticks.",
        _ when column.Name.Contains("_cents", StringComparison.Ordinal) => "Money in hundredths of the currency.",
        _ when column.Name.EndsWith("_hundredths", StringComparison.Ordinal) => "Hundredths of a percent.",
        _ when NamedRows.MayStandIn(column.Name) => "JSON as text.",
        _ => null,
    };
}
