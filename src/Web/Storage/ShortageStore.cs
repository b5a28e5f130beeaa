using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>A piece that a kit lacks.</summary>
public sealed record Shortage
{
    public Guid Id { get; init; }

    public long ClassId { get; init; }

    public long KitId { get; init; }

    public string Letter { get; init; } = "";

    public long FabricId { get; init; }

    public Length Width { get; init; }

    public Length Height { get; init; }

    public int Count { get; init; }

    /// <summary><c>missing</c> or <c>spoiled</c>.</summary>
    public string Reason { get; init; } = "missing";

    public string Note { get; init; } = "";

    public string Who { get; init; } = "";

    public string ReportedAt { get; init; } = "";

    public string? MendedAt { get; init; }

    /// <summary><c>recut</c> from cloth, or <c>spare</c> from the spare pieces; empty while it is missing.</summary>
    public string MendedFrom { get; init; } = "";

    /// <summary>When the report was taken back; null while it stands.</summary>
    public string? WithdrawnAt { get; init; }
}

/// <summary>Stores what kits lack, from the report to the piece put in.</summary>
public sealed class ShortageStore(Database database)
{
    private const string Columns = """
        id, class_id AS ClassId, kit_id AS KitId, letter, fabric_id AS FabricId, width_ticks AS Width, height_ticks AS Height, count, reason, note, who,
        reported_at AS ReportedAt, mended_at AS MendedAt, mended_from AS MendedFrom, withdrawn_at AS WithdrawnAt
        """;

    private const string SelectClass = $"SELECT {Columns} FROM shortage WHERE class_id = @classId AND withdrawn_at IS NULL ORDER BY reported_at, id";

    private const string SelectTrail = $"SELECT {Columns} FROM shortage WHERE class_id = @classId ORDER BY reported_at DESC, id";

    private const string CountOne = "SELECT count(*) FROM shortage WHERE id = @id AND class_id = @classId";

    // A kit of another class, or a closed class, inserts nothing.
    private const string Insert = """
        INSERT INTO shortage (id, class_id, kit_id, letter, fabric_id, width_ticks, height_ticks, count, reason, note, who, reported_at)
        SELECT @Id, k.class_id, k.id, @Letter, @FabricId, @Width, @Height, @Count, @Reason, @Note, @Who, @Now
        FROM kit k JOIN class c ON c.id = k.class_id
        WHERE k.id = @KitId AND k.class_id = @ClassId AND c.status = 'open'
        ON CONFLICT (id) DO NOTHING
        """;

    private const string Mended = """
        UPDATE shortage SET mended_at = @at, mended_from = @from
        WHERE id = @id AND class_id = @classId AND withdrawn_at IS NULL AND (mended_at IS NULL) = (@at IS NOT NULL)
          AND EXISTS (SELECT 1 FROM class WHERE id = @classId AND status = 'open')
        """;

    private const string Withdrawn = """
        UPDATE shortage SET withdrawn_at = @Now
        WHERE id = @id AND class_id = @classId AND withdrawn_at IS NULL AND EXISTS (SELECT 1 FROM class WHERE id = @classId AND status = 'open')
        """;

    /// <summary>All shortages of a class, mended ones too, oldest first.</summary>
    public IReadOnlyList<Shortage> ForClass(long classId) =>
        database.Read(session => session.List<Shortage>(SelectClass, new { classId }));

    /// <summary>All reports of a class, those taken back too, newest first.</summary>
    public IReadOnlyList<Shortage> Trail(long classId) => database.Read(session => session.List<Shortage>(SelectTrail, new { classId }));

    /// <summary>True for a report that was stored before, also where it was taken back since.</summary>
    public bool Knows(long classId, Guid id) => database.Read(session => session.Get<int>(CountOne, new { id, classId }) == 1);

    /// <summary>Stores a shortage once; false when it is there already, the kit is not of this class, or the class is closed.</summary>
    public Task<bool> Report(Shortage shortage) => database.Write(session => session.Run(Insert, new
    {
        shortage.Id, shortage.ClassId, shortage.KitId, shortage.Letter, shortage.FabricId, shortage.Width, shortage.Height, shortage.Count,
        shortage.Reason, shortage.Note, shortage.Who, session.Now,
    }) == 1);

    /// <summary>Says where the piece came from that was put in (<c>recut</c> or <c>spare</c>), or with an empty text takes that back; false where it stands so already.</summary>
    public Task<bool> Mend(long classId, Guid id, string from) =>
        database.Write(session => session.Run(Mended, new { id, classId, from, at = from.Length > 0 ? session.Now : null }) == 1);

    /// <summary>Takes a report back that was made by mistake; it is not told of again, even if it is sent once more.</summary>
    public Task<bool> Withdraw(long classId, Guid id) => database.Write(session => session.Run(Withdrawn, new { id, classId, session.Now }) == 1);
}
