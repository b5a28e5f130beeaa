using KittingBee.Web.Storage;

namespace KittingBee.Web.Exchange;

/// <summary>How a class's file would come in: which of its fabrics and blocks are here already.</summary>
public sealed record MergePreview(int FabricsHere, int FabricsNew, bool SameTitle);

/// <summary>
/// Brings the class in a database beside the guild's into the guild, in one transaction. Each row gets a new number; a fabric or block that is
/// here already, alike in everything, is used instead of a second one.
/// </summary>
public static class ClassMerge
{
    private static readonly string[] ShownAgain = ["fabric", "block"];

    // Columns in which two fabrics may differ and still be the same.
    private static readonly HashSet<string> OwnStory = new(StringComparer.Ordinal) { "id", "created_at", "updated_at", "deleted_at", "version" };

    private static readonly string[] Devices = ["kit_mark", "kit_mark_same", "shortage"];

    /// <summary>Looks at what <see cref="BringIn"/> would do.</summary>
    public static MergePreview Preview(Session session)
    {
        var fabric = TableShape.All(session).Single(table => table.Name == "fabric");
        var all = session.Get<int>("SELECT count(*) FROM other.fabric");
        var here = session.Get<int>($"SELECT count(*) FROM other.fabric f WHERE EXISTS ({Same(fabric)})");
        return new(here, all - here, session.Get<int>("SELECT count(*) FROM main.class c JOIN other.class o ON o.title = c.title WHERE c.deleted_at IS NULL") > 0);
    }

    /// <summary>Brings the class in and gives its number.</summary>
    /// <param name="session">With the class's database beside it as <c>other</c>, which it may change.</param>
    /// <param name="withCloth">True where the cloth that the class set aside and left over lies on this shelf from now on.</param>
    public static long BringIn(Session session, bool withCloth)
    {
        session.Run("PRAGMA defer_foreign_keys = ON");
        NewNamesWhereTaken(session);
        var shapes = TableShape.All(session);
        var rows = new ClassRows(shapes);
        var tables = shapes.Where(table => rows.Where(table) is not null).ToList();
        session.Run("CREATE TEMP TABLE renumbered (tab TEXT NOT NULL, old INTEGER NOT NULL, new INTEGER NOT NULL, here INTEGER NOT NULL, PRIMARY KEY (tab, old))");
        foreach (var table in tables.Where(table => table.NumberKey is not null))
        {
            Number(session, table);
        }

        foreach (var table in tables)
        {
            var skipped = table.NumberKey is { } key ? $"WHERE t.\"{key}\" NOT IN (SELECT old FROM temp.renumbered WHERE tab = '{table.Name}' AND here = 1)" : "";
            var values = string.Join(", ", table.Columns.Select(column => Value(table, column, withCloth)));
            session.Run($"INSERT INTO main.\"{table.Name}\" ({table.ColumnList}) SELECT {values} FROM other.\"{table.Name}\" t {skipped}", new { session.Now });
        }

        var classId = session.Get<long>("SELECT new FROM temp.renumbered WHERE tab = 'class'");
        foreach (var table in tables.Where(rows.IsOwn))
        {
            RenumberInside(session, table, rows.Where(table)!, classId);
        }

        KitStore.BringIntoLine(session, classId);
        return classId;
    }

    private static void Number(Session session, TableShape table)
    {
        var key = table.NumberKey!;
        if (ShownAgain.Contains(table.Name))
        {
            session.Run($"INSERT INTO temp.renumbered SELECT '{table.Name}', f.id, ({Same(table)} ORDER BY m.id LIMIT 1), 1 FROM other.\"{table.Name}\" f WHERE EXISTS ({Same(table)})");
        }

        // Numbers that were used once and are free again are not given out a second time where the table remembers them.
        session.Run($"""
            INSERT INTO temp.renumbered
            SELECT '{table.Name}', t."{key}", row_number() OVER (ORDER BY t."{key}") + max(
              coalesce((SELECT max("{key}") FROM main."{table.Name}"), 0),
              coalesce((SELECT seq FROM main.sqlite_sequence WHERE name = '{table.Name}'), 0)), 0
            FROM other."{table.Name}" t WHERE t."{key}" NOT IN (SELECT old FROM temp.renumbered WHERE tab = '{table.Name}')
            """);
    }

    private static string Same(TableShape table) =>
        $"SELECT m.id FROM main.\"{table.Name}\" m WHERE m.deleted_at IS NULL AND {string.Join(" AND ", table.Columns.Where(column => !OwnStory.Contains(column.Name)).Select(column => $"m.\"{column.Name}\" IS f.\"{column.Name}\""))}";

    private static string Value(TableShape table, ColumnShape column, bool withCloth)
    {
        static string New(string table, string column) => $"(SELECT new FROM temp.renumbered WHERE tab = '{table}' AND old = t.\"{column}\")";
        if (column.Name == table.NumberKey)
        {
            return New(table.Name, column.Name);
        }

        if (column.Type == "INTEGER" && table.References.FirstOrDefault(reference => reference.Column == column.Name) is { } reference)
        {
            return New(reference.Table, column.Name);
        }

        // Cloth that stayed where the class was is known to its plan and accounts, and lies on no shelf here.
        return table.Name == "shelf_piece" && column.Name == "deleted_at" && !withCloth ? "coalesce(t.deleted_at, @Now)" : $"t.\"{column.Name}\"";
    }

    private static void RenumberInside(Session session, TableShape table, string where, long classId)
    {
        foreach (var column in table.Columns.Where(column => column.Type == "TEXT" && NamedRows.MayStandIn(column.Name)))
        {
            var keys = table.Columns.Where(own => own.Key > 0).Select(own => own.Name).ToList();
            var list = string.Join(", ", keys.Select(key => $"\"{key}\""));
            foreach (IDictionary<string, object?> row in session.List<dynamic>($"SELECT {list}, \"{column.Name}\" AS stored_text FROM main.\"{table.Name}\" WHERE ({where}) AND \"{column.Name}\" IS NOT NULL", new { classId }))
            {
                var text = (string)row["stored_text"]!;
                var renumbered = NamedRows.Renumber(column.Name, text, (other, old) => session.One<long?>("SELECT new FROM temp.renumbered WHERE tab = @other AND old = @old", new { other, old }));
                if (!ReferenceEquals(renumbered, text))
                {
                    var values = new Dapper.DynamicParameters(keys.Select(key => KeyValuePair.Create(key, row[key])));
                    values.Add("renumbered", renumbered);
                    session.Run($"UPDATE main.\"{table.Name}\" SET \"{column.Name}\" = @renumbered WHERE {string.Join(" AND ", keys.Select(key => $"\"{key}\" = @{key}"))}", values);
                }
            }
        }
    }

    /// <summary>Where the class is here already, what must be unique gets new names; codes on bags stay as they are wherever they can.</summary>
    private static void NewNamesWhereTaken(Session session)
    {
        foreach (var id in session.List<long>("SELECT id FROM other.kit WHERE code IN (SELECT code FROM main.kit)"))
        {
            session.Run("UPDATE other.kit SET code = @code WHERE id = @id", new { id, code = KitStore.NewCode() });
        }

        var ids = Devices.SelectMany(table => session.List<string>($"SELECT id FROM other.\"{table}\" WHERE id IN (SELECT id FROM main.\"{table}\")")).Distinct().ToList();
        foreach (var old in ids)
        {
            var values = new { old, id = Guid.NewGuid().ToString("D") };
            foreach (var table in Devices)
            {
                session.Run($"UPDATE other.\"{table}\" SET id = @id WHERE id = @old", values);
            }

            session.Run("UPDATE other.kit_mark SET undoes = @id WHERE undoes = @old", values);
            session.Run("UPDATE other.kit_mark_same SET mark_id = @id WHERE mark_id = @old", values);
        }
    }
}
