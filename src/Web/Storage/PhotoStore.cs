namespace KittingBee.Web.Storage;

/// <summary>A photographed note.</summary>
/// <param name="MediaType">As its first bytes say: JPEG, PNG or WebP.</param>
/// <param name="Picture">The file as it came.</param>
public sealed record Photo(string MediaType, byte[] Picture);

/// <summary>Stores photographed notes beside the leftovers that they tell of, one for each.</summary>
public sealed class PhotoStore(Database database)
{
    private const string SelectHaving = """
        SELECT p.leftover_id FROM leftover_photo p JOIN leftover l ON l.id = p.leftover_id WHERE l.class_id = @classId AND l.deleted_at IS NULL
        """;

    private const string SelectOne = """
        SELECT p.media_type AS MediaType, p.picture AS Picture
        FROM leftover_photo p JOIN leftover l ON l.id = p.leftover_id JOIN class c ON c.id = l.class_id
        WHERE l.id = @id AND l.class_id = @classId AND l.deleted_at IS NULL AND c.deleted_at IS NULL
        """;

    // A leftover of another class, or of a closed one, takes nothing.
    private const string Upsert = """
        INSERT INTO leftover_photo (leftover_id, media_type, picture, added_at)
        SELECT l.id, @MediaType, @Picture, @Now FROM leftover l JOIN class c ON c.id = l.class_id
        WHERE l.id = @id AND l.class_id = @classId AND l.deleted_at IS NULL AND c.status = 'open'
        ON CONFLICT (leftover_id) DO UPDATE SET media_type = excluded.media_type, picture = excluded.picture, added_at = excluded.added_at
        """;

    private const string Delete = """
        DELETE FROM leftover_photo
        WHERE leftover_id = (SELECT l.id FROM leftover l JOIN class c ON c.id = l.class_id WHERE l.id = @id AND l.class_id = @classId AND c.status = 'open')
        """;

    private const string DeleteAll = "DELETE FROM leftover_photo WHERE leftover_id IN (SELECT id FROM leftover WHERE class_id = @classId)";

    /// <summary>The leftovers of a class that have a photographed note.</summary>
    public IReadOnlySet<long> Having(long classId) => database.Read(session => session.List<long>(SelectHaving, new { classId }).ToHashSet());

    public Photo? Find(long classId, long leftoverId) => database.Read(session => session.One<Photo>(SelectOne, new { classId, id = leftoverId }));

    /// <summary>Puts a photo beside a leftover, in place of the one that is there; false where the leftover is not of this class or the class is closed.</summary>
    public Task<bool> Put(long classId, long leftoverId, Photo photo) => database.Write(session => Put(session, classId, leftoverId, photo));

    /// <summary>Removes a photo for good.</summary>
    public Task<bool> Remove(long classId, long leftoverId) => database.Write(session => session.Run(Delete, new { classId, id = leftoverId }) == 1);

    internal static bool Put(Session session, long classId, long leftoverId, Photo photo) =>
        session.Run(Upsert, new { classId, id = leftoverId, photo.MediaType, photo.Picture, session.Now }) == 1;

    /// <summary>Handwriting may name people: what is forgotten of a class takes its photos along.</summary>
    internal static void Forget(Session session, long classId) => session.Run(DeleteAll, new { classId });
}
