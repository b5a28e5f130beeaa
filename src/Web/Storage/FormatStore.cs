using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>How a fabric goes into the bags, where that is not as cut pieces.</summary>
public sealed record FormatChoice
{
    public long FabricId { get; init; }

    /// <summary>A code of <see cref="FormatCodes"/>.</summary>
    public string Format { get; init; } = FormatCodes.CutPieces;

    /// <summary><c>cut</c> from cloth by the length, or <c>bought</c> precut.</summary>
    public string Way { get; init; } = "cut";

    public bool IsBought => Way == "bought";
}

/// <summary>Size, pack and price of a precut as a class has them.</summary>
public sealed record PrecutRow
{
    public string Format { get; init; } = "";

    /// <summary>Null for a strip as long as its fabric is wide.</summary>
    public Length? Width { get; init; }

    public Length Length { get; init; }

    public int PackSize { get; init; } = 1;

    public decimal? PackPrice { get; init; }

    public Length PinkedMargin { get; init; }
}

/// <summary>A class's formats and precuts as they are stored.</summary>
/// <param name="Choices">Fabrics that are not cut into pieces.</param>
/// <param name="Precuts">Precuts that differ from the usual ones.</param>
/// <param name="Version">Counts changes of either.</param>
public sealed record ClassFormatRows(IReadOnlyList<FormatChoice> Choices, IReadOnlyList<PrecutRow> Precuts, long Version);

/// <summary>Stores how each fabric of a class goes into the bags, and the precuts that it counts on.</summary>
public sealed class FormatStore(Database database)
{
    private const string SelectChoices = "SELECT fabric_id AS FabricId, format, way FROM class_format WHERE class_id = @classId ORDER BY fabric_id";

    private const string SelectPrecuts = """
        SELECT format, width_ticks AS Width, length_ticks AS Length, pack_size AS PackSize, pack_price_cents AS PackPrice, pinked_margin_ticks AS PinkedMargin
        FROM class_precut WHERE class_id = @classId ORDER BY format
        """;

    private const string SelectVersion = "SELECT formats_version FROM class WHERE id = @classId";

    private const string Next = """
        UPDATE class SET formats_version = formats_version + 1
        WHERE id = @classId AND formats_version = @version AND deleted_at IS NULL AND status = 'open'
        """;

    private const string Exists = "SELECT count(*) FROM class WHERE id = @classId AND deleted_at IS NULL";

    private const string Choose = """
        INSERT INTO class_format (class_id, fabric_id, format, way) VALUES (@classId, @FabricId, @Format, @Way)
        ON CONFLICT (class_id, fabric_id) DO UPDATE SET format = excluded.format, way = excluded.way
        """;

    private const string Unchoose = "DELETE FROM class_format WHERE class_id = @classId AND fabric_id = @FabricId";

    private const string PutPrecut = """
        INSERT INTO class_precut (class_id, format, width_ticks, length_ticks, pack_size, pack_price_cents, pinked_margin_ticks)
        VALUES (@classId, @Format, @Width, @Length, @PackSize, @PackPrice, @PinkedMargin)
        ON CONFLICT (class_id, format) DO UPDATE SET width_ticks = excluded.width_ticks, length_ticks = excluded.length_ticks,
          pack_size = excluded.pack_size, pack_price_cents = excluded.pack_price_cents, pinked_margin_ticks = excluded.pinked_margin_ticks
        """;

    private const string CopyChoices = "INSERT INTO class_format (class_id, fabric_id, format, way) SELECT @toClass, fabric_id, format, way FROM class_format WHERE class_id = @fromClass";

    private const string CopyPrecuts = """
        INSERT INTO class_precut (class_id, format, width_ticks, length_ticks, pack_size, pack_price_cents, pinked_margin_ticks)
        SELECT @toClass, format, width_ticks, length_ticks, pack_size, pack_price_cents, pinked_margin_ticks FROM class_precut WHERE class_id = @fromClass
        """;

    public ClassFormatRows ForClass(long classId) => database.Read(session => new ClassFormatRows(
        session.List<FormatChoice>(SelectChoices, new { classId }), session.List<PrecutRow>(SelectPrecuts, new { classId }), session.One<long?>(SelectVersion, new { classId }) ?? 0));

    /// <summary>Stores the formats of some fabrics; the others keep theirs.</summary>
    public Task<Saved> Save(long classId, long version, IReadOnlyList<FormatChoice> choices) => Change(classId, version, session =>
    {
        foreach (var choice in choices)
        {
            session.Run(choice.Format == FormatCodes.CutPieces ? Unchoose : Choose, new { classId, choice.FabricId, choice.Format, choice.Way });
        }
    });

    /// <summary>Stores the class's precuts.</summary>
    public Task<Saved> Save(long classId, long version, IReadOnlyList<PrecutRow> precuts) => Change(classId, version, session =>
    {
        foreach (var precut in precuts)
        {
            session.Run(PutPrecut, new { classId, precut.Format, precut.Width, precut.Length, precut.PackSize, precut.PackPrice, precut.PinkedMargin });
        }
    });

    internal static void Copy(Session session, long fromClass, long toClass)
    {
        session.Run(CopyChoices, new { fromClass, toClass });
        session.Run(CopyPrecuts, new { fromClass, toClass });
    }

    private Task<Saved> Change(long classId, long version, Action<Session> change) => database.Write(session =>
    {
        if (session.Run(Next, new { classId, version }) != 1)
        {
            return session.Get<int>(Exists, new { classId }) == 0 ? Saved.Gone : Saved.Stale;
        }

        change(session);
        return Saved.Done;
    });
}
