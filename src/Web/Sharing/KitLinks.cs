using KittingBee.Web.Storage;

namespace KittingBee.Web.Sharing;

/// <summary>A kit's own page, for whoever holds its link.</summary>
public sealed record LinkedKit
{
    public long KitId { get; init; }

    public long ClassId { get; init; }
}

/// <summary>
/// The links of kits' own pages, one for each kit: 144 random bits, printed on the handout. Whoever holds one sees that kit and
/// nothing else; the teacher can withdraw it, or put a new one in its place.
/// </summary>
public sealed class KitLinks(Database database)
{
    private const string Find = """
        SELECT k.id AS KitId, k.class_id AS ClassId
        FROM kit_link l JOIN kit k ON k.id = l.kit_id AND k.deleted_at IS NULL JOIN class c ON c.id = k.class_id AND c.deleted_at IS NULL
        WHERE l.link = @link
        """;

    private const string SelectOfClass = """
        SELECT k.id AS KitId, l.link, l.kit_id IS NOT NULL AS Made
        FROM kit k LEFT JOIN kit_link l ON l.kit_id = k.id WHERE k.class_id = @classId AND k.deleted_at IS NULL
        """;

    private const string Insert = "INSERT INTO kit_link (kit_id, link) VALUES (@KitId, @Link)";

    private const string Put = """
        INSERT INTO kit_link (kit_id, link) SELECT id, @link FROM kit WHERE id = @kitId AND class_id = @classId
        ON CONFLICT (kit_id) DO UPDATE SET link = excluded.link
        """;

    /// <summary>The kit of a link; null for one that is withdrawn or never was.</summary>
    public LinkedKit? Open(string link) => link.Length is < 22 or > 60 ? null : database.Read(session => session.One<LinkedKit>(Find, new { link }));

    /// <summary>The links of a class by kit, made where a kit has none yet; kits whose link was withdrawn are left out.</summary>
    public async Task<IReadOnlyDictionary<long, string>> Of(long classId)
    {
        var rows = database.Read(session => session.List<Row>(SelectOfClass, new { classId }));
        if (rows.Any(row => !row.Made))
        {
            rows = await database.Write(session =>
            {
                // Looked at again inside: two pages may ask for the first time at once.
                foreach (var row in session.List<Row>(SelectOfClass, new { classId }).Where(row => !row.Made))
                {
                    session.Run(Insert, new { row.KitId, Link = Secrets.Link() });
                }

                return session.List<Row>(SelectOfClass, new { classId });
            });
        }

        return rows.Where(row => row.Link is not null).ToDictionary(row => row.KitId, row => row.Link!);
    }

    /// <summary>Withdraws a kit's link: it opens nothing any more.</summary>
    public Task<bool> Withdraw(long classId, long kitId) => database.Write(session => session.Run(Put, new { classId, kitId, link = (string?)null }) == 1);

    /// <summary>Puts a new link in place of the old one.</summary>
    public Task<bool> Renew(long classId, long kitId) => database.Write(session => session.Run(Put, new { classId, kitId, link = Secrets.Link() }) == 1);

    private sealed record Row
    {
        public long KitId { get; init; }

        public string? Link { get; init; }

        public bool Made { get; init; }
    }
}
