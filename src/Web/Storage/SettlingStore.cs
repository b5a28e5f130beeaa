using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;

namespace KittingBee.Web.Storage;

/// <summary>Cloth bought for a class, as it really was.</summary>
public sealed record FabricPurchase
{
    public long Id { get; init; }

    public long ClassId { get; init; }

    public long FabricId { get; init; }

    public Length Length { get; init; }

    /// <summary>Precuts bought; 0 for cloth by the length. <see cref="Length"/> is then the length of whole width with as much cloth.</summary>
    public int Count { get; init; }

    public decimal Paid { get; init; }

    public string Note { get; init; } = "";

    public string BoughtAt { get; init; } = "";

    public long Version { get; init; }
}

/// <summary>A length or remnant left over, as measured after the class.</summary>
public sealed record Leftover
{
    public long Id { get; init; }

    public long ClassId { get; init; }

    public long FabricId { get; init; }

    public Length Width { get; init; }

    public Length Length { get; init; }

    /// <summary>How many alike.</summary>
    public int Count { get; init; } = 1;

    public bool ToShelf { get; init; }

    public long? ShelfPieceId { get; init; }

    public string Note { get; init; } = "";

    public long Version { get; init; }

    /// <summary>Each of them as cloth.</summary>
    public IEnumerable<Cloth> Pieces() => Enumerable.Repeat(new Cloth(Width, Length), Count);
}

/// <summary>Cloth handed out uncut, beyond the plan.</summary>
public sealed record GivenOut
{
    public long Id { get; init; }

    public long ClassId { get; init; }

    public long FabricId { get; init; }

    public Length Length { get; init; }

    public string Note { get; init; } = "";
}

/// <summary>Stores what was bought for a class and what was left of it.</summary>
public sealed class SettlingStore(Database database)
{
    private const string SelectPurchases = """
        SELECT id, class_id AS ClassId, fabric_id AS FabricId, length_ticks AS Length, count, paid_cents AS Paid, note, bought_at AS BoughtAt, version
        FROM purchase WHERE class_id = @classId AND deleted_at IS NULL ORDER BY id
        """;

    private const string InsertPurchase = """
        INSERT INTO purchase (class_id, fabric_id, length_ticks, count, paid_cents, note, bought_at)
        VALUES (@ClassId, @FabricId, @Length, @Count, @Paid, @Note, @Now)
        RETURNING id
        """;

    private const string DeletePurchase = "UPDATE purchase SET deleted_at = @Now, version = version + 1 WHERE id = @id AND class_id = @classId AND deleted_at IS NULL";

    private const string RestorePurchase = "UPDATE purchase SET deleted_at = NULL, version = version + 1 WHERE id = @id AND class_id = @classId";

    private const string SelectLeftovers = """
        SELECT id, class_id AS ClassId, fabric_id AS FabricId, width_ticks AS Width, length_ticks AS Length, count, to_shelf AS ToShelf,
          shelf_piece_id AS ShelfPieceId, note, version
        FROM leftover WHERE class_id = @classId AND deleted_at IS NULL ORDER BY id
        """;

    private const string InsertLeftover = """
        INSERT INTO leftover (class_id, fabric_id, width_ticks, length_ticks, count, to_shelf, shelf_piece_id, note, measured_at)
        VALUES (@ClassId, @FabricId, @Width, @Length, @Count, @ToShelf, @ShelfPieceId, @Note, @Now)
        RETURNING id
        """;

    private const string DeleteLeftover = "UPDATE leftover SET deleted_at = @Now, version = version + 1 WHERE id = @id AND class_id = @classId AND deleted_at IS NULL";

    private const string RestoreLeftover = "UPDATE leftover SET deleted_at = NULL, version = version + 1 WHERE id = @id AND class_id = @classId";

    private const string SelectGiven = """
        SELECT id, class_id AS ClassId, fabric_id AS FabricId, length_ticks AS Length, note FROM given_out WHERE class_id = @classId AND deleted_at IS NULL ORDER BY id
        """;

    private const string InsertGiven = """
        INSERT INTO given_out (class_id, fabric_id, length_ticks, note, given_at) VALUES (@ClassId, @FabricId, @Length, @Note, @Now) RETURNING id
        """;

    private const string DeleteGiven = "UPDATE given_out SET deleted_at = @at, version = version + 1 WHERE id = @id AND class_id = @classId";

    private const string ShelfDeleted = """
        UPDATE shelf_piece SET deleted_at = @at, version = version + 1
        WHERE id = (SELECT shelf_piece_id FROM leftover WHERE id = @id AND class_id = @classId)
        """;

    public IReadOnlyList<FabricPurchase> Purchases(long classId) =>
        database.Read(session => session.List<FabricPurchase>(SelectPurchases, new { classId }));

    /// <summary>Stores one purchase that several classes share, each its part, all or none.</summary>
    public Task<int> AddPurchases(IReadOnlyList<FabricPurchase> parts) => database.Write(session => parts.Count(bought => Add(session, bought) > 0));

    public Task<long> AddPurchase(FabricPurchase bought) => database.Write(session => Add(session, bought));

    public Task<bool> RemovePurchase(long classId, long id) =>
        database.Write(session => session.Run(DeletePurchase, new { id, classId, session.Now }) == 1);

    public Task<bool> PutBackPurchase(long classId, long id) =>
        database.Write(session => session.Run(RestorePurchase, new { id, classId }) == 1);

    public IReadOnlyList<GivenOut> Given(long classId) => database.Read(session => session.List<GivenOut>(SelectGiven, new { classId }));

    public Task<long> AddGiven(GivenOut given) => database.Write(session => Add(session, given));

    public Task<bool> RemoveGiven(long classId, long id, bool removed) =>
        database.Write(session => session.Run(DeleteGiven, new { id, classId, at = removed ? session.Now : null }) == 1);

    public IReadOnlyList<Leftover> Leftovers(long classId) =>
        database.Read(session => session.List<Leftover>(SelectLeftovers, new { classId }));

    /// <summary>Stores a leftover, and puts it on the shelf as a remnant where it goes there and its photographed note beside it, in one transaction.</summary>
    public Task<long> AddLeftover(Leftover left, Photo? photo = null) => database.Write(session =>
    {
        var id = Add(session, left);
        if (photo is not null)
        {
            PhotoStore.Put(session, left.ClassId, id, photo);
        }

        return id;
    });

    /// <summary>Stores what a filled-in sheet says, all of it or nothing.</summary>
    public Task<int> AddAll(IReadOnlyList<FabricPurchase> bought, IReadOnlyList<GivenOut> given, IReadOnlyList<Leftover> left) => database.Write(session =>
    {
        foreach (var item in bought)
        {
            Add(session, item);
        }

        foreach (var item in given)
        {
            Add(session, item);
        }

        foreach (var item in left)
        {
            Add(session, item);
        }

        return bought.Count + given.Count + left.Count;
    });

    /// <summary>Takes a leftover back, and its remnant off the shelf.</summary>
    public Task<bool> RemoveLeftover(long classId, long id) => database.Write(session =>
    {
        session.Run(ShelfDeleted, new { id, classId, at = session.Now });
        return session.Run(DeleteLeftover, new { id, classId, session.Now }) == 1;
    });

    public Task<bool> PutBackLeftover(long classId, long id) => database.Write(session =>
    {
        session.Run(ShelfDeleted, new { id, classId, at = (string?)null });
        return session.Run(RestoreLeftover, new { id, classId }) == 1;
    });

    private static long Add(Session session, FabricPurchase bought) => session.Get<long>(InsertPurchase, new
    {
        bought.ClassId, bought.FabricId, bought.Length, bought.Count, bought.Paid, bought.Note, session.Now,
    });

    private static long Add(Session session, GivenOut given) =>
        session.Get<long>(InsertGiven, new { given.ClassId, given.FabricId, given.Length, given.Note, session.Now });

    private static long Add(Session session, Leftover left)
    {
        long? shelfPieceId = left.ToShelf
            ? session.Get<long>(ShelfStore.Insert, ShelfStore.Values(
                new ShelfPiece { FabricId = left.FabricId, Kind = "remnant", Width = left.Width, Length = left.Length, Count = left.Count, Note = left.Note }, session))
            : null;
        return session.Get<long>(InsertLeftover, new
        {
            left.ClassId, left.FabricId, left.Width, left.Length, left.Count, left.ToShelf, ShelfPieceId = shelfPieceId, left.Note, session.Now,
        });
    }
}
