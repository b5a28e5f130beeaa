using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>Cloth on hand: a bolt, a length or a remnant, with its size as measured.</summary>
public sealed record ShelfPiece
{
    public long Id { get; init; }

    public long FabricId { get; init; }

    /// <summary><c>bolt</c>, <c>length</c> or <c>remnant</c>.</summary>
    public string Kind { get; init; } = "remnant";

    public Length Width { get; init; }

    public Length Length { get; init; }

    /// <summary>How many alike.</summary>
    public int Count { get; init; } = 1;

    /// <summary>The class it is set aside for, so that no other counts on it.</summary>
    public long? ReservedClassId { get; init; }

    public string Note { get; init; } = "";

    public long Version { get; init; }
}

/// <summary>Stores the cloth on hand.</summary>
public sealed class ShelfStore(Database database)
{
    private const string Columns = """
        id, fabric_id AS FabricId, kind, width_ticks AS Width, length_ticks AS Length, count,
        reserved_class_id AS ReservedClassId, note, version
        """;

    private const string SelectAll = $"SELECT {Columns} FROM shelf_piece WHERE deleted_at IS NULL ORDER BY fabric_id, kind, id";

    private const string SelectForClass = $"""
        SELECT {Columns} FROM (
          SELECT p.id, p.fabric_id, p.kind, p.width_ticks, p.length_ticks, p.reserved_class_id, p.note, p.version,
            -- Less what other open classes count on.
            p.count - coalesce((
              SELECT sum(c.count) FROM shelf_claim c JOIN class k ON k.id = c.class_id
              WHERE c.shelf_piece_id = p.id AND c.class_id <> @classId AND k.status = 'open' AND k.deleted_at IS NULL), 0) AS count
          FROM shelf_piece p
          WHERE p.deleted_at IS NULL AND p.fabric_id IN @fabricIds AND (p.reserved_class_id IS NULL OR p.reserved_class_id = @classId)
            -- What this class left over is not cloth that its own plan could have used.
            AND p.id NOT IN (SELECT shelf_piece_id FROM leftover WHERE class_id = @classId AND shelf_piece_id IS NOT NULL))
        WHERE count > 0
        ORDER BY fabric_id, kind DESC, id
        """;

    private const string SelectEver = $"SELECT {Columns} FROM shelf_piece WHERE id IN @ids";

    private const string SelectOne = $"SELECT {Columns} FROM shelf_piece WHERE id = @id AND deleted_at IS NULL";

    internal const string Insert = """
        INSERT INTO shelf_piece (fabric_id, kind, width_ticks, length_ticks, count, note, created_at)
        VALUES (@FabricId, @Kind, @Width, @Length, @Count, @Note, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE shelf_piece SET kind = @Kind, width_ticks = @Width, length_ticks = @Length, count = @Count, note = @Note, version = version + 1
        WHERE id = @Id AND version = @Version AND deleted_at IS NULL
        """;

    private const string Delete = "UPDATE shelf_piece SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    private const string Restore = "UPDATE shelf_piece SET deleted_at = NULL, version = version + 1 WHERE id = @id";

    private const string SetAside = """
        UPDATE shelf_piece SET reserved_class_id = @classId, count = @taken, version = version + 1
        WHERE id = @id AND deleted_at IS NULL AND reserved_class_id IS NULL AND count >= @taken
        """;

    // What stays of several alike when some are set aside.
    private const string InsertRest = """
        INSERT INTO shelf_piece (fabric_id, kind, width_ticks, length_ticks, count, note, created_at)
        SELECT fabric_id, kind, width_ticks, length_ticks, count - @taken, note, created_at FROM shelf_piece
        WHERE id = @id AND deleted_at IS NULL AND reserved_class_id IS NULL AND count > @taken
        RETURNING id
        """;

    internal const string Release = "UPDATE shelf_piece SET reserved_class_id = NULL, version = version + 1 WHERE reserved_class_id = @classId";

    public IReadOnlyList<ShelfPiece> All() => database.Read(session => session.List<ShelfPiece>(SelectAll));

    /// <summary>What a class may count on: cloth set aside for it, and cloth set aside for nobody that no other open class's plan counts on.</summary>
    public IReadOnlyList<ShelfPiece> ForClass(long classId, IReadOnlyCollection<long> fabricIds) =>
        database.Read(session => session.List<ShelfPiece>(SelectForClass, new { classId, fabricIds }));

    /// <summary>Pieces by number, those that are cut up or taken away too.</summary>
    public IReadOnlyDictionary<long, ShelfPiece> Ever(IReadOnlyCollection<long> ids) =>
        database.Read(session => session.List<ShelfPiece>(SelectEver, new { ids })).ToDictionary(piece => piece.Id);

    public ShelfPiece? Find(long id) => database.Read(session => session.One<ShelfPiece>(SelectOne, new { id }));

    public Task<long> Add(ShelfPiece piece) => database.Write(session => session.Get<long>(Insert, Values(piece, session)));

    public Task<Saved> Save(ShelfPiece piece) => database.Write(session =>
        session.Run(Update, Values(piece, session)) == 1 ? Saved.Done
        : session.One<ShelfPiece>(SelectOne, new { id = piece.Id }) is not null ? Saved.Stale : Saved.Gone);

    public Task<bool> Remove(long id) => database.Write(session => session.Run(Delete, new { id, session.Now }) == 1);

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    /// <summary>Sets free cloth aside for a class, so many of each piece; gives for how many there was enough.</summary>
    public Task<int> Reserve(long classId, IReadOnlyDictionary<long, int> takenOfPiece) => database.Write(session => takenOfPiece.Sum(piece =>
    {
        if (session.One<long?>(InsertRest, new { id = piece.Key, taken = piece.Value }) is { } rest)
        {
            session.Run(ShelfClaimStore.MoveOthers, new { id = piece.Key, rest, classId });
        }

        return session.Run(SetAside, new { classId, id = piece.Key, taken = piece.Value });
    }));

    /// <summary>Frees everything that is set aside for a class.</summary>
    public Task<int> Free(long classId) => database.Write(session => session.Run(Release, new { classId }));

    internal static object Values(ShelfPiece piece, Session session) => new
    {
        piece.Id, piece.FabricId, piece.Kind, piece.Width, piece.Length, piece.Count, piece.Note, piece.Version, session.Now,
    };
}
