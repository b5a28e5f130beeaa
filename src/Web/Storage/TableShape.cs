namespace KittingBee.Web.Storage;

/// <summary>A column as the database declares it.</summary>
public sealed record ColumnShape
{
    public string Name { get; init; } = "";

    /// <summary><c>INTEGER</c>, <c>TEXT</c> or <c>BLOB</c>.</summary>
    public string Type { get; init; } = "";

    public bool Needed { get; init; }

    /// <summary>Its place in the primary key from 1; 0 outside it.</summary>
    public int Key { get; init; }
}

/// <summary>A column that names a row of another table.</summary>
public sealed record ReferenceShape
{
    public string Column { get; init; } = "";

    public string Table { get; init; } = "";

    /// <summary>The other table's column.</summary>
    public string To { get; init; } = "";
}

/// <summary>A table as the database declares it, so that what is copied is never short of a column that was added later.</summary>
public sealed record TableShape(string Name, IReadOnlyList<ColumnShape> Columns, IReadOnlyList<ReferenceShape> References)
{
    private const string SelectTables = ".sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> 'SchemaVersions' ORDER BY rowid";

    private const string SelectColumns = "SELECT name, type, \"notnull\" AS Needed, pk AS Key FROM pragma_table_info(@table, @schema) ORDER BY cid";

    private const string SelectReferences = "SELECT \"from\" AS \"Column\", \"table\", coalesce(\"to\", 'id') AS \"To\" FROM pragma_foreign_key_list(@table, @schema) ORDER BY id, seq";

    /// <summary>The column that is the row's own number, or null where it has none or bears that of another row.</summary>
    public string? NumberKey => Columns.Where(column => column.Key > 0).ToList() is [{ Type: "INTEGER" } key] && References.All(reference => reference.Column != key.Name) ? key.Name : null;

    /// <summary>True where a row cannot be without what the column names.</summary>
    public bool Needs(ReferenceShape reference) => Columns.Any(column => column.Name == reference.Column && (column.Needed || column.Key > 0));

    public bool Has(string column) => Columns.Any(own => own.Name == column);

    public string ColumnList => string.Join(", ", Columns.Select(column => $"\"{column.Name}\""));

    /// <summary>The tables of a schema (<c>main</c>, or the one beside it), in the order in which they were made.</summary>
    public static IReadOnlyList<TableShape> All(Session session, string schema = "main") => [.. session
        .List<string>($"SELECT name FROM {schema}{SelectTables}")
        .Select(table => new TableShape(
            table,
            session.List<ColumnShape>(SelectColumns, new { table, schema }),
            session.List<ReferenceShape>(SelectReferences, new { table, schema })))];
}
