using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>A mark on a kit: a line ticked or unticked, or the whole kit at a stage.</summary>
public sealed record KitMark
{
    /// <summary>Order in which marks were stored; a device that was away asks for those after the last it saw.</summary>
    public long Sequence { get; init; }

    /// <summary>Made by the device, so that a mark sent twice counts once.</summary>
    public Guid Id { get; init; }

    public long ClassId { get; init; }

    public long KitId { get; init; }

    /// <summary>The key of a kit's line, or <see cref="WholeKit"/>.</summary>
    public string Line { get; init; } = WholeKit;

    /// <summary>A line: <c>cut</c> or <c>bagged</c>. The whole kit: <c>checked</c> or <c>handed-over</c>.</summary>
    public string State { get; init; } = "";

    public string Who { get; init; } = "";

    public string MarkedAt { get; init; } = "";

    /// <summary>The mark that this one takes back, or null.</summary>
    public Guid? Undoes { get; init; }

    public const string WholeKit = "kit";
}

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
}

/// <summary>Stores packing marks and shortages. A mark is on the disk before it is acknowledged.</summary>
public sealed class PackingStore(Database database)
{
    private const string Columns = """
        sequence, id, class_id AS ClassId, kit_id AS KitId, line, state, who, marked_at AS MarkedAt, undoes
        """;

    private const string SelectAfter = $"SELECT {Columns} FROM kit_mark WHERE class_id = @classId AND sequence > @sequence ORDER BY sequence";

    private const string SelectOne = $"SELECT {Columns} FROM kit_mark WHERE id = @id";

    // A kit of another class, or an undo of a mark that is not there, inserts nothing.
    private const string Insert = """
        INSERT INTO kit_mark (id, class_id, kit_id, line, state, who, marked_at, undoes)
        SELECT @Id, class_id, id, @Line, @State, @Who, @Now, @Undoes FROM kit
        WHERE id = @KitId AND class_id = @ClassId AND (@Undoes IS NULL OR EXISTS (SELECT 1 FROM kit_mark m WHERE m.id = @Undoes AND m.kit_id = @KitId))
        ON CONFLICT (id) DO NOTHING
        """;

    private const string ShortageColumns = """
        id, class_id AS ClassId, kit_id AS KitId, letter, fabric_id AS FabricId, width_ticks AS Width, height_ticks AS Height, count, reason, note, who,
        reported_at AS ReportedAt, mended_at AS MendedAt
        """;

    private const string SelectShortages = $"SELECT {ShortageColumns} FROM shortage WHERE class_id = @classId ORDER BY reported_at, id";

    private const string InsertShortage = """
        INSERT INTO shortage (id, class_id, kit_id, letter, fabric_id, width_ticks, height_ticks, count, reason, note, who, reported_at)
        SELECT @Id, class_id, id, @Letter, @FabricId, @Width, @Height, @Count, @Reason, @Note, @Who, @Now FROM kit
        WHERE id = @KitId AND class_id = @ClassId
        ON CONFLICT (id) DO NOTHING
        """;

    private const string Mended = "UPDATE shortage SET mended_at = @at WHERE id = @id AND class_id = @classId";

    /// <summary>Marks stored after a sequence, oldest first; 0 gives all.</summary>
    public IReadOnlyList<KitMark> MarksAfter(long classId, long sequence) =>
        database.Read(session => session.List<KitMark>(SelectAfter, new { classId, sequence }));

    /// <summary>Stores marks in order, once each; gives them as stored. A mark of a kit that is not this class's is left out.</summary>
    public Task<IReadOnlyList<KitMark>> Mark(long classId, IReadOnlyList<KitMark> marks) => database.Write<IReadOnlyList<KitMark>>(session =>
    {
        var stored = new List<KitMark>(marks.Count);
        foreach (var mark in marks)
        {
            session.Run(Insert, new { mark.Id, ClassId = classId, mark.KitId, mark.Line, mark.State, mark.Who, mark.Undoes, session.Now });
            if (session.One<KitMark>(SelectOne, new { id = mark.Id }) is { } found && found.ClassId == classId)
            {
                stored.Add(found);
            }
        }

        return stored;
    });

    public IReadOnlyList<Shortage> Shortages(long classId) =>
        database.Read(session => session.List<Shortage>(SelectShortages, new { classId }));

    /// <summary>Stores a shortage once; false when the kit is not of this class.</summary>
    public Task<bool> Report(Shortage shortage) => database.Write(session => session.Run(InsertShortage, new
    {
        shortage.Id, shortage.ClassId, shortage.KitId, shortage.Letter, shortage.FabricId, shortage.Width, shortage.Height, shortage.Count,
        shortage.Reason, shortage.Note, shortage.Who, session.Now,
    }) == 1);

    public Task<bool> Mend(long classId, Guid id, bool mended) =>
        database.Write(session => session.Run(Mended, new { id, classId, at = mended ? session.Now : null }) == 1);
}
