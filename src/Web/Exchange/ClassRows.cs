using KittingBee.Web.Storage;

namespace KittingBee.Web.Exchange;

/// <summary>
/// Which rows of the guild's tables a class's file has: those that are the class's own, and those that they name. Worked out
/// from the tables themselves, so that a table added later comes along.
/// </summary>
public sealed class ClassRows(IReadOnlyList<TableShape> tables)
{
    // Cloth that is set aside, and cloth that a stored plan was made from.
    private const string ClothOfTheClass = """
        reserved_class_id = @classId
        OR id IN (SELECT t.value FROM plan, json_each(plan.shelf_piece_ids) t WHERE plan.class_id = @classId)
        """;

    /// <summary>The condition that selects a table's rows, with <c>@classId</c>; null for a table of which a class has none.</summary>
    public string? Where(TableShape table) => KeptTables.Contains(table.Name) || FileFormat.OnlyInGuild.Contains(table.Name) ? null : Own(table) ?? Named(table);

    /// <summary>True where the rows cannot be without a class.</summary>
    public bool IsOwn(TableShape table) => Own(table) is not null;

    private string? Own(TableShape table) => table switch
    {
        { Name: "class" } => "id = @classId",
        _ when table.Has("class_id") => "class_id = @classId",
        _ => table.References.Where(table.Needs)
            .Select(reference => Find(reference.Table) is { } other && other != table && Own(other) is { } where ? $"\"{reference.Column}\" IN (SELECT \"{reference.To}\" FROM \"{other.Name}\" WHERE {where})" : null)
            .FirstOrDefault(where => where is not null),
    };

    private string? Named(TableShape table)
    {
        var by = tables
            .Where(other => other != table && other.References.Any(reference => reference.Table == table.Name) && Where(other) is not null)
            .SelectMany(other => other.References.Where(reference => reference.Table == table.Name).Select(reference => $"id IN (SELECT \"{reference.Column}\" FROM \"{other.Name}\" WHERE {Where(other)})"));
        List<string> ways = table.Name == "shelf_piece" ? [ClothOfTheClass, .. by] : [.. by];
        return ways.Count == 0 ? null : string.Join(" OR ", ways);
    }

    private TableShape? Find(string name) => tables.FirstOrDefault(table => table.Name == name);
}
