namespace KittingBee.Web.Storage;

/// <summary>
/// Tables that say who may use this program on this machine. They are neither put back from a copy nor sent in a file: an old
/// copy must not bring back a password that was changed or a telephone that was cut off.
/// </summary>
public static class KeptTables
{
    public static bool Contains(string table) => table.StartsWith("share_", StringComparison.Ordinal) || table == "kit_link";

    // What tells that a number means the same class or bag after the rows under it changed: numbers are used again, these are not.
    private static string Identity(string table) => table switch
    {
        "class" => "created_at",
        "kit" => "code",
        _ => "id",
    };

    /// <summary>Puts aside who may reach what, before the rows that it refers to change places.</summary>
    internal static void PutAside(Session session, IReadOnlyList<TableShape> tables)
    {
        foreach (var table in Referring(tables))
        {
            var identities = string.Concat(table.References.Select((reference, at) =>
                $", (SELECT CAST(r.\"{Identity(reference.Table)}\" AS TEXT) FROM main.\"{reference.Table}\" r WHERE r.\"{reference.To}\" = t.\"{reference.Column}\") AS identity_{at}"));
            session.Run($"CREATE TEMP TABLE \"aside_{table.Name}\" AS SELECT t.*{identities} FROM main.\"{table.Name}\" t");
            session.Run($"DELETE FROM main.\"{table.Name}\"");
        }
    }

    /// <summary>Takes back what was put aside, except where the class or bag is not there any more or another one has its number.</summary>
    internal static void TakeBack(Session session, IReadOnlyList<TableShape> tables)
    {
        foreach (var table in Referring(tables))
        {
            var same = string.Join(" AND ", table.References.Select((reference, at) =>
                $"(t.\"{reference.Column}\" IS NULL OR t.identity_{at} = (SELECT CAST(r.\"{Identity(reference.Table)}\" AS TEXT) FROM main.\"{reference.Table}\" r WHERE r.\"{reference.To}\" = t.\"{reference.Column}\"))"));
            session.Run($"INSERT INTO main.\"{table.Name}\" ({table.ColumnList}) SELECT {table.ColumnList} FROM temp.\"aside_{table.Name}\" t WHERE {same}");
        }
    }

    private static IEnumerable<TableShape> Referring(IReadOnlyList<TableShape> tables) => tables.Where(table => Contains(table.Name) && table.References.Count > 0);
}
