namespace KittingBee.Web.Storage;

/// <summary>A colourway of a class: which fabric each letter of the block is cut from.</summary>
public sealed record Colourway
{
    public long Id { get; init; }

    public long ClassId { get; init; }

    public string Name { get; init; } = "";

    public long Version { get; init; }

    public IReadOnlyDictionary<string, long> FabricOfLetter { get; init; } = new Dictionary<string, long>();
}

/// <summary>Stores colourways.</summary>
public sealed class ColourwayStore(Database database)
{
    private const string Select = "SELECT id, class_id AS ClassId, name, version FROM colourway WHERE class_id = @classId AND deleted_at IS NULL ORDER BY id";

    private const string SelectFabrics = """
        SELECT f.colourway_id AS ColourwayId, f.letter, f.fabric_id AS FabricId
        FROM colourway_fabric f JOIN colourway c ON c.id = f.colourway_id
        WHERE c.class_id = @classId AND c.deleted_at IS NULL ORDER BY f.letter
        """;

    private const string Insert = "INSERT INTO colourway (class_id, name) VALUES (@ClassId, @Name) RETURNING id";

    private const string Update = "UPDATE colourway SET name = @Name, version = version + 1 WHERE id = @Id AND version = @Version AND deleted_at IS NULL";

    private const string Exists = "SELECT count(*) FROM colourway WHERE id = @Id AND deleted_at IS NULL";

    private const string DeleteFabrics = "DELETE FROM colourway_fabric WHERE colourway_id = @Id";

    private const string InsertFabric = "INSERT INTO colourway_fabric (colourway_id, letter, fabric_id) VALUES (@Id, @Letter, @FabricId)";

    private const string Delete = "UPDATE colourway SET deleted_at = @Now, version = version + 1 WHERE id = @id AND class_id = @classId AND deleted_at IS NULL";

    private const string Restore = "UPDATE colourway SET deleted_at = NULL, version = version + 1 WHERE id = @id AND class_id = @classId";

    public IReadOnlyList<Colourway> ForClass(long classId) => database.Read(session => ForClass(session, classId));

    public Task<long> Add(Colourway colourway) => database.Write(session =>
    {
        var id = session.Get<long>(Insert, colourway);
        StoreFabrics(session, colourway with { Id = id });
        KitStore.BringIntoLine(session, colourway.ClassId);
        return id;
    });

    public Task<Saved> Save(Colourway colourway) => database.Write(session =>
    {
        if (session.Run(Update, colourway) != 1)
        {
            return session.Get<long>(Exists, colourway) == 1 ? Saved.Stale : Saved.Gone;
        }

        session.Run(DeleteFabrics, colourway);
        StoreFabrics(session, colourway);
        return Saved.Done;
    });

    /// <summary>Takes a colourway away; students who had it have none until they choose again.</summary>
    public Task<bool> Remove(long classId, long id) => database.Write(session =>
    {
        var removed = session.Run(Delete, new { id, classId, session.Now }) == 1;
        KitStore.BringIntoLine(session, classId);
        return removed;
    });

    public Task<bool> PutBack(long classId, long id) => database.Write(session => session.Run(Restore, new { id, classId }) == 1);

    internal static IReadOnlyList<Colourway> ForClass(Session session, long classId)
    {
        var fabrics = session.List<LetterRow>(SelectFabrics, new { classId }).ToLookup(row => row.ColourwayId);
        return [.. session.List<Colourway>(Select, new { classId })
            .Select(colourway => colourway with { FabricOfLetter = fabrics[colourway.Id].ToDictionary(row => row.Letter, row => row.FabricId) })];
    }

    /// <summary>Gives a class the colourways of another; which is which, by their numbers.</summary>
    internal static IReadOnlyDictionary<long, long> Copy(Session session, long fromClass, long toClass)
    {
        var copies = new Dictionary<long, long>();
        foreach (var way in ForClass(session, fromClass))
        {
            var id = session.Get<long>(Insert, way with { ClassId = toClass });
            StoreFabrics(session, way with { Id = id });
            copies[way.Id] = id;
        }

        return copies;
    }

    private static void StoreFabrics(Session session, Colourway colourway)
    {
        foreach (var (letter, fabricId) in colourway.FabricOfLetter)
        {
            session.Run(InsertFabric, new { colourway.Id, Letter = letter, FabricId = fabricId });
        }
    }

    private sealed record LetterRow
    {
        public long ColourwayId { get; init; }

        public string Letter { get; init; } = "";

        public long FabricId { get; init; }
    }
}
