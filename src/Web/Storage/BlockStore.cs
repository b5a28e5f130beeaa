namespace KittingBee.Web.Storage;

/// <summary>A block on the guild's list: drawn (<see cref="Json"/>) or typed (<see cref="TypedLines"/>), never both.</summary>
public sealed record StoredBlock
{
    public long Id { get; init; }

    public string Name { get; init; } = "";

    public string? Json { get; init; }

    public string? TypedLines { get; init; }

    public string UpdatedAt { get; init; } = "";

    public string? DeletedAt { get; init; }

    public long Version { get; init; }
}

/// <summary>Stores blocks.</summary>
public sealed class BlockStore(Database database)
{
    private const string Columns = "id, name, json, typed_lines AS TypedLines, updated_at AS UpdatedAt, deleted_at AS DeletedAt, version";

    private const string SelectAll = $"SELECT {Columns} FROM block WHERE deleted_at IS NULL ORDER BY name COLLATE NOCASE, id";

    private const string SelectOne = $"SELECT {Columns} FROM block WHERE id = @id AND deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO block (name, json, typed_lines, created_at, updated_at)
        VALUES (@Name, @Json, @TypedLines, @Now, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE block SET name = @Name, json = @Json, typed_lines = @TypedLines, updated_at = @Now, version = version + 1
        WHERE id = @Id AND version = @Version AND deleted_at IS NULL
        """;

    private const string Delete = "UPDATE block SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    private const string Restore = "UPDATE block SET deleted_at = NULL, version = version + 1 WHERE id = @id";

    public IReadOnlyList<StoredBlock> All() => database.Read(session => session.List<StoredBlock>(SelectAll));

    public StoredBlock? Find(long id) => database.Read(session => session.One<StoredBlock>(SelectOne, new { id }));

    public Task<long> Add(StoredBlock block) => database.Write(session => session.Get<long>(Insert, Values(block, session)));

    public Task<Saved> Save(StoredBlock block) => database.Write(session =>
        session.Run(Update, Values(block, session)) == 1 ? Saved.Done
        : session.One<StoredBlock>(SelectOne, new { id = block.Id }) is not null ? Saved.Stale : Saved.Gone);

    public Task<bool> Remove(long id) => database.Write(session => session.Run(Delete, new { id, session.Now }) == 1);

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    private static object Values(StoredBlock block, Session session) =>
        new { block.Id, block.Name, block.Json, block.TypedLines, block.Version, session.Now };
}
