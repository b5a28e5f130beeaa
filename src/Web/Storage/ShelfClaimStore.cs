namespace KittingBee.Web.Storage;

/// <summary>So many of a piece on the shelf that an open class's plan counts on.</summary>
public sealed record ShelfClaim
{
    public long ClassId { get; init; }

    public long ShelfPieceId { get; init; }

    public int Count { get; init; }
}

/// <summary>Another class counted on the same cloth first: the plan has to be made anew without it.</summary>
public sealed class ClothTakenException() : Exception("Another class's plan took the cloth in the meantime.");

/// <summary>Stores which class counts on which cloth of the shelf. A claim ends when its class is closed or removed.</summary>
public sealed class ShelfClaimStore(Database database)
{
    private const string SelectOpen = """
        SELECT c.class_id AS ClassId, c.shelf_piece_id AS ShelfPieceId, c.count
        FROM shelf_claim c JOIN class k ON k.id = c.class_id
        WHERE k.status = 'open' AND k.deleted_at IS NULL ORDER BY c.class_id, c.shelf_piece_id
        """;

    private const string SelectClass = "SELECT class_id AS ClassId, shelf_piece_id AS ShelfPieceId, count FROM shelf_claim WHERE class_id = @classId";

    private const string Insert = "INSERT INTO shelf_claim (class_id, shelf_piece_id, count) VALUES (@ClassId, @ShelfPieceId, @Count)";

    internal const string DeleteClass = "DELETE FROM shelf_claim WHERE class_id = @classId";

    private const string Overclaimed = """
        SELECT count(*) FROM shelf_piece p
        WHERE p.id IN @pieces AND (p.deleted_at IS NOT NULL OR (p.reserved_class_id IS NOT NULL AND p.reserved_class_id <> @classId) OR p.count < (
          SELECT sum(c.count) FROM shelf_claim c JOIN class k ON k.id = c.class_id
          WHERE c.shelf_piece_id = p.id AND k.status = 'open' AND k.deleted_at IS NULL))
        """;

    // What stays of several alike when some are set aside has a new number: the others' claims go with it.
    internal const string MoveOthers = "UPDATE shelf_claim SET shelf_piece_id = @rest WHERE shelf_piece_id = @id AND class_id <> @classId";

    public IReadOnlyList<ShelfClaim> OfOpenClasses() => database.Read(session => session.List<ShelfClaim>(SelectOpen));

    public IReadOnlyList<ShelfClaim> OfClass(long classId) => database.Read(session => session.List<ShelfClaim>(SelectClass, new { classId }));

    /// <summary>Puts a class's claims in place of those that it had.</summary>
    /// <exception cref="ClothTakenException">There is not enough of a piece beside what other classes claim; nothing was stored.</exception>
    public Task<int> Replace(long classId, IReadOnlyDictionary<long, int> countOfPiece) => database.Write(session =>
    {
        session.Run(DeleteClass, new { classId });
        foreach (var (piece, count) in countOfPiece)
        {
            session.Run(Insert, new { ClassId = classId, ShelfPieceId = piece, Count = count });
        }

        if (countOfPiece.Count > 0 && session.Get<int>(Overclaimed, new { pieces = countOfPiece.Keys, classId }) > 0)
        {
            throw new ClothTakenException();
        }

        return countOfPiece.Count;
    });
}
