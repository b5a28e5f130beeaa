using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>How a block is usually made, as it is kept with the block.</summary>
public sealed record KeptRules(Length SeamAllowance, Length CuttingStep, string MethodsJson, int BlocksPerKit);

/// <summary>A block on the guild's list: drawn (<see cref="Json"/>) or typed (<see cref="TypedLines"/>), never both.</summary>
public sealed record StoredBlock
{
    public long Id { get; init; }

    public string Name { get; init; } = "";

    public string? Json { get; init; }

    public string? TypedLines { get; init; }

    /// <summary>How it is usually made, or null where nobody has kept that.</summary>
    public KeptRules? Rules => SeamAllowance is { } seam && CuttingStep is { } step && MethodsJson is { } methods && BlocksPerKit is { } blocks
        ? new(seam, step, methods, blocks)
        : null;

    public Length? SeamAllowance { get; init; }

    public Length? CuttingStep { get; init; }

    public string? MethodsJson { get; init; }

    public int? BlocksPerKit { get; init; }

    public string UpdatedAt { get; init; } = "";

    public string? DeletedAt { get; init; }

    public long Version { get; init; }
}

/// <summary>Stores blocks.</summary>
public sealed class BlockStore(Database database)
{
    private const string Columns = """
        id, name, json, typed_lines AS TypedLines, seam_allowance_ticks AS SeamAllowance, cutting_step_ticks AS CuttingStep,
        methods_json AS MethodsJson, blocks_per_kit AS BlocksPerKit, updated_at AS UpdatedAt, deleted_at AS DeletedAt, version
        """;

    private const string SelectAll = $"SELECT {Columns} FROM block WHERE deleted_at IS NULL ORDER BY name COLLATE NOCASE, id";

    private const string SelectOne = $"SELECT {Columns} FROM block WHERE id = @id AND deleted_at IS NULL";

    private const string SelectEver = $"SELECT {Columns} FROM block WHERE id = @id";

    private const string Insert = """
        INSERT INTO block (name, json, typed_lines, seam_allowance_ticks, cutting_step_ticks, methods_json, blocks_per_kit, created_at, updated_at)
        VALUES (@Name, @Json, @TypedLines, @SeamAllowance, @CuttingStep, @MethodsJson, @BlocksPerKit, @Now, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE block SET name = @Name, json = @Json, typed_lines = @TypedLines, updated_at = @Now, version = version + 1
        WHERE id = @Id AND version = @Version AND deleted_at IS NULL
        """;

    private const string UpdateRules = """
        UPDATE block SET seam_allowance_ticks = @SeamAllowance, cutting_step_ticks = @CuttingStep, methods_json = @MethodsJson,
          blocks_per_kit = @BlocksPerKit, updated_at = @Now, version = version + 1
        WHERE id = @id AND version = @version AND deleted_at IS NULL
        """;

    // A drawing under way is of the same block still: how it is made is no part of the drawing.
    private const string CarryDraft =
        "UPDATE block_draft SET block_version = @version + 1 WHERE block_id = @id AND block_version = @version AND deleted_at IS NULL";

    private const string Delete = "UPDATE block SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    private const string Restore = "UPDATE block SET deleted_at = NULL, version = version + 1 WHERE id = @id";

    public IReadOnlyList<StoredBlock> All() => database.Read(session => session.List<StoredBlock>(SelectAll));

    public StoredBlock? Find(long id) => database.Read(session => session.One<StoredBlock>(SelectOne, new { id }));

    /// <summary>The block, also where it was taken off the list: a project goes on with it.</summary>
    public StoredBlock? FindEver(long id) => database.Read(session => session.One<StoredBlock>(SelectEver, new { id }));

    public Task<long> Add(StoredBlock block) => database.Write(session => session.Get<long>(Insert, Values(block, session)));

    public Task<Saved> Save(StoredBlock block) => database.Write(session =>
        session.Run(Update, Values(block, session)) == 1 ? Saved.Done
        : session.One<StoredBlock>(SelectOne, new { id = block.Id }) is not null ? Saved.Stale : Saved.Gone);

    /// <summary>Keeps how the block is made, or forgets it where <paramref name="rules"/> is null.</summary>
    public Task<Saved> KeepRules(long id, long version, KeptRules? rules) => database.Write(session =>
    {
        var values = new { id, version, rules?.SeamAllowance, rules?.CuttingStep, rules?.MethodsJson, rules?.BlocksPerKit, session.Now };
        if (session.Run(UpdateRules, values) != 1)
        {
            return session.One<StoredBlock>(SelectOne, new { id }) is not null ? Saved.Stale : Saved.Gone;
        }

        session.Run(CarryDraft, new { id, version });
        return Saved.Done;
    });

    public Task<bool> Remove(long id) => database.Write(session => session.Run(Delete, new { id, session.Now }) == 1);

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    private static object Values(StoredBlock block, Session session) =>
        new
        {
            block.Id, block.Name, block.Json, block.TypedLines, block.SeamAllowance, block.CuttingStep, block.MethodsJson, block.BlocksPerKit, block.Version, session.Now,
        };
}
