namespace KittingBee.Web.Storage;

/// <summary>A block set into a whole piece, as the guild keeps it.</summary>
public sealed record StoredProject
{
    public long Id { get; init; }

    public string Name { get; init; } = "";

    /// <summary>Its block; also one that was taken off the list since.</summary>
    public long BlockId { get; init; }

    /// <summary>The project in the planner's form, for ProjectJson.</summary>
    public string Json { get; init; } = "";

    /// <summary>Its block's name as it is now.</summary>
    public string BlockName { get; init; } = "";

    /// <summary>Its block as it is drawn now; null where the block became a typed list.</summary>
    public string? BlockJson { get; init; }

    public string UpdatedAt { get; init; } = "";

    public long Version { get; init; }
}

/// <summary>Stores projects.</summary>
public sealed class ProjectStore(Database database)
{
    private const string Select = """
        SELECT project.id, project.name, project.block_id AS BlockId, project.json, block.name AS BlockName, block.json AS BlockJson,
          project.updated_at AS UpdatedAt, project.version
        FROM project JOIN block ON block.id = project.block_id
        """;

    private const string SelectAll = $"{Select} WHERE project.deleted_at IS NULL ORDER BY project.name COLLATE NOCASE, project.id";

    private const string SelectOne = $"{Select} WHERE project.id = @id AND project.deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO project (name, block_id, json, created_at, updated_at)
        VALUES (@Name, @BlockId, @Json, @Now, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE project SET name = @Name, json = @Json, updated_at = @Now, version = version + 1
        WHERE id = @Id AND version = @Version AND deleted_at IS NULL
        """;

    private const string Delete = "UPDATE project SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    private const string Restore = "UPDATE project SET deleted_at = NULL, version = version + 1 WHERE id = @id AND deleted_at IS NOT NULL";

    public IReadOnlyList<StoredProject> All() => database.Read(session => session.List<StoredProject>(SelectAll));

    public StoredProject? Find(long id) => database.Read(session => session.One<StoredProject>(SelectOne, new { id }));

    public Task<long> Add(StoredProject project) => database.Write(session => session.Get<long>(Insert, Values(project, session)));

    public Task<Saved> Save(StoredProject project) => database.Write(session =>
        session.Run(Update, Values(project, session)) == 1 ? Saved.Done
        : session.One<StoredProject>(SelectOne, new { id = project.Id }) is not null ? Saved.Stale : Saved.Gone);

    public Task<bool> Remove(long id) => database.Write(session => session.Run(Delete, new { id, session.Now }) == 1);

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    private static object Values(StoredProject project, Session session) =>
        new { project.Id, project.Name, project.BlockId, project.Json, project.Version, session.Now };
}
