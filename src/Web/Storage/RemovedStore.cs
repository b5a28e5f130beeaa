namespace KittingBee.Web.Storage;

/// <summary>Something that was taken out and can still be put back.</summary>
public sealed record RemovedThing
{
    /// <summary><c>class</c>, <c>block</c>, <c>draft</c>, <c>project</c>, <c>fabric</c>, <c>piece</c>, <c>student</c> or <c>colourway</c>.</summary>
    public string Kind { get; init; } = "";

    public long Id { get; init; }

    /// <summary>The class that it belongs to; 0 for none.</summary>
    public long ClassId { get; init; }

    public string Name { get; init; } = "";

    /// <summary>The class's title, or the fabric that a piece is of.</summary>
    public string Of { get; init; } = "";

    public string DeletedAt { get; init; } = "";
}

/// <summary>Lists what was taken out, and lets it go for good after thirty days.</summary>
public sealed class RemovedStore(Database database, TimeProvider clock)
{
    public const int Days = 30;

    // Cloth that a closed class cut up, and a leftover that was taken back on the Settle page, are off the shelf but not taken out.
    private const string UsedPieces = """
        SELECT json_extract(t.value, '$.ShelfPieceId') FROM class c, json_each(c.frozen_json, '$.Taken') t WHERE c.frozen_json IS NOT NULL
        UNION SELECT shelf_piece_id FROM leftover WHERE shelf_piece_id IS NOT NULL AND deleted_at IS NOT NULL
        """;

    // Cloth that a stored plan was made from is still looked up.
    private const string PlannedPieces = "SELECT t.value FROM plan, json_each(plan.shelf_piece_ids) t";

    private const string Select = $"""
        SELECT * FROM (
          SELECT 'class' AS Kind, id, 0 AS ClassId, title AS Name, '' AS "Of", deleted_at AS DeletedAt FROM class
          UNION ALL SELECT 'block', id, 0, name, '', deleted_at FROM block
          UNION ALL SELECT 'draft', d.id, 0, coalesce(b.name, ''), '', d.deleted_at FROM block_draft d LEFT JOIN block b ON b.id = d.block_id
          UNION ALL SELECT 'project', p.id, 0, p.name, b.name, p.deleted_at FROM project p JOIN block b ON b.id = p.block_id
          UNION ALL SELECT 'fabric', id, 0, name, '', deleted_at FROM fabric
          UNION ALL SELECT 'piece', p.id, 0, p.kind, f.name, p.deleted_at FROM shelf_piece p JOIN fabric f ON f.id = p.fabric_id
            WHERE f.deleted_at IS NULL AND p.id NOT IN ({UsedPieces})
          UNION ALL SELECT 'student', s.id, s.class_id, s.name, c.title, s.deleted_at FROM student s JOIN class c ON c.id = s.class_id WHERE c.deleted_at IS NULL
          UNION ALL SELECT 'colourway', w.id, w.class_id, w.name, c.title, w.deleted_at FROM colourway w JOIN class c ON c.id = w.class_id WHERE c.deleted_at IS NULL)
        WHERE DeletedAt > @before ORDER BY DeletedAt DESC, Kind, Id
        """;

    private const string OldBlocks = "SELECT id FROM block WHERE deleted_at <= @before AND id NOT IN (SELECT block_id FROM block_draft WHERE block_id IS NOT NULL AND deleted_at IS NULL)";

    private const string Used = "EXISTS (SELECT 1 FROM kit_mark m JOIN kit k ON k.id = m.kit_id WHERE k.student_id = student.id UNION ALL SELECT 1 FROM shortage x JOIN kit k ON k.id = x.kit_id WHERE k.student_id = student.id)";

    private const string OldStudents = $"SELECT id FROM student WHERE deleted_at <= @before AND NOT {Used}";

    // What was packed for a student stays on record; who it was does not.
    private const string OldNames = $"SELECT id FROM student WHERE deleted_at <= @before AND {Used} AND (name <> 'Taken out' OR contact <> '' OR note <> '')";

    private const string Blank = $"UPDATE student SET name = 'Taken out', contact = '', note = '', large_print = 0, left_handed = 0, version = version + 1 WHERE id IN ({OldNames})";

    /// <summary>What was taken out within the last thirty days, latest first.</summary>
    public IReadOnlyList<RemovedThing> All() => database.Read(session => session.List<RemovedThing>(Select, new { before = Before() }));

    /// <summary>True where <see cref="Purge"/> would find something.</summary>
    public bool IsAnythingOld() => database.Read(session => Old(TableShape.All(session)).Select(old => old.Rows).Append(OldNames)
        .Any(sql => session.Get<long>($"SELECT count(*) FROM ({sql})", new { before = Before() }) > 0));

    /// <summary>
    /// Lets go of what was taken out more than thirty days ago and that nothing else needs; gives how many things went. A class goes with
    /// all that is its own. Make a copy first.
    /// </summary>
    public Task<int> Purge() => database.Write(session =>
    {
        session.Run("PRAGMA defer_foreign_keys = ON");
        var (before, tables, gone) = (Before(), TableShape.All(session), 0);
        gone += session.Run(Blank, new { before });
        var old = Old(tables);
        session.Run($"DELETE FROM kit WHERE student_id IN ({OldStudents})", new { before });
        session.Run($"DELETE FROM block_draft WHERE block_id IN ({old.Single(item => item.Table == "block").Rows})", new { before });
        foreach (var (table, rows) in old)
        {
            gone += session.Run($"DELETE FROM \"{table}\" WHERE id IN ({rows})", new { before });
            LetGoOfWhatIsGone(session, tables);
        }

        return gone;
    });

    // In the order in which they can go.
    private static IReadOnlyList<(string Table, string Rows)> Old(IReadOnlyList<TableShape> tables) =>
    [
        ("class", "SELECT id FROM class WHERE deleted_at <= @before"),
        ("project", "SELECT id FROM project WHERE deleted_at <= @before"),
        ("block", $"{OldBlocks} AND {NothingNames("block", tables, needed: true)}"),
        ("block_draft", "SELECT id FROM block_draft WHERE deleted_at <= @before"),
        ("colourway", "SELECT id FROM colourway WHERE deleted_at <= @before"),
        ("student", OldStudents),
        ("shelf_piece", $"SELECT id FROM shelf_piece WHERE deleted_at <= @before AND id NOT IN ({UsedPieces} UNION {PlannedPieces}) AND {NothingNames("shelf_piece", tables)}"),
        ("fabric", $"SELECT id FROM fabric WHERE deleted_at <= @before AND {NothingNames("fabric", tables)}"),
    ];

    private static string NothingNames(string table, IReadOnlyList<TableShape> tables, bool needed = false) => string.Join(" AND ", tables
        .SelectMany(other => other.References.Where(reference => reference.Table == table && (!needed || other.Needs(reference))).Select(reference => $"NOT EXISTS (SELECT 1 FROM \"{other.Name}\" WHERE \"{other.Name}\".\"{reference.Column}\" = \"{table}\".id)"))
        .DefaultIfEmpty("1"));

    /// <summary>Rows that cannot be without what is gone go too; those that can forget it.</summary>
    private static void LetGoOfWhatIsGone(Session session, IReadOnlyList<TableShape> tables)
    {
        static string Missing(TableShape table, ReferenceShape reference) =>
            $"\"{reference.Column}\" IS NOT NULL AND \"{reference.Column}\" NOT IN (SELECT \"{reference.To}\" FROM \"{reference.Table}\")";
        IEnumerable<(TableShape Table, ReferenceShape Reference)> All(bool needed) => tables.SelectMany(table => table.References
            .Where(reference => table.Needs(reference) == needed)
            .Select(reference => (table, reference)));
        while (All(needed: true).Sum(item => session.Run($"DELETE FROM \"{item.Table.Name}\" WHERE {Missing(item.Table, item.Reference)}")) > 0)
        {
        }

        foreach (var (table, reference) in All(needed: false))
        {
            // Nobody's access grows because the class that it was limited to is gone.
            session.Run(KeptTables.Contains(table.Name)
                ? $"DELETE FROM \"{table.Name}\" WHERE {Missing(table, reference)}"
                : $"UPDATE \"{table.Name}\" SET \"{reference.Column}\" = NULL WHERE {Missing(table, reference)}");
        }
    }

    private string Before() => Database.Stamp(clock.GetUtcNow().AddDays(-Days));
}
