namespace KittingBee.Web.Storage;

/// <summary>A block being drawn. <see cref="SketchJson"/> is kept as typed: it may not be a good block yet.</summary>
public sealed record BlockDraft
{
    public long Id { get; init; }

    /// <summary>The block that it will replace, or null for a new one.</summary>
    public long? BlockId { get; init; }

    /// <summary>The version of that block when the draft began.</summary>
    public long? BlockVersion { get; init; }

    public string SketchJson { get; init; } = "";

    public string UpdatedAt { get; init; } = "";

    public long Version { get; init; }
}

/// <summary>Stores drafts of blocks, at most one for each block, so that a closed tab loses nothing.</summary>
public sealed class DraftStore(Database database)
{
    private const string Columns = "id, block_id AS BlockId, block_version AS BlockVersion, sketch_json AS SketchJson, updated_at AS UpdatedAt, version";

    private const string SelectAll = $"SELECT {Columns} FROM block_draft WHERE deleted_at IS NULL ORDER BY updated_at DESC, id DESC";

    private const string SelectOne = $"SELECT {Columns} FROM block_draft WHERE id = @id AND deleted_at IS NULL";

    private const string SelectOfBlock = $"SELECT {Columns} FROM block_draft WHERE block_id = @blockId AND deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO block_draft (block_id, block_version, sketch_json, created_at, updated_at)
        VALUES (@BlockId, @BlockVersion, @SketchJson, @Now, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE block_draft SET sketch_json = @sketch, updated_at = @Now, version = version + 1
        WHERE id = @id AND version = @version AND deleted_at IS NULL
        """;

    private const string Delete = "UPDATE block_draft SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    // Another draft of the same block may have begun since.
    private const string Restore = """
        UPDATE block_draft SET deleted_at = NULL, version = version + 1
        WHERE id = @id AND deleted_at IS NOT NULL
          AND NOT EXISTS (SELECT 1 FROM block_draft other WHERE other.block_id = block_draft.block_id AND other.deleted_at IS NULL)
        """;

    private const string InsertBlock = "INSERT INTO block (name, json, created_at, updated_at) VALUES (@name, @json, @Now, @Now) RETURNING id";

    private const string UpdateBlock = """
        UPDATE block SET name = @name, json = @json, typed_lines = NULL, updated_at = @Now, version = version + 1
        WHERE id = @BlockId AND version = @BlockVersion AND deleted_at IS NULL
        """;

    private const string CountBlock = "SELECT count(*) FROM block WHERE id = @BlockId AND deleted_at IS NULL";

    private const string Erase = "DELETE FROM block_draft WHERE id = @id";

    public IReadOnlyList<BlockDraft> All() => database.Read(session => session.List<BlockDraft>(SelectAll));

    public BlockDraft? Find(long id) => database.Read(session => session.One<BlockDraft>(SelectOne, new { id }));

    public BlockDraft? OfBlock(long blockId) => database.Read(session => session.One<BlockDraft>(SelectOfBlock, new { blockId }));

    /// <summary>Begins a draft and gives its number; the number of the one that is there where the block has one already.</summary>
    public Task<long> Begin(BlockDraft draft) => database.Write(session =>
        draft.BlockId is { } blockId && session.One<BlockDraft>(SelectOfBlock, new { blockId }) is { } begun
            ? begun.Id
            : session.Get<long>(Insert, new { draft.BlockId, draft.BlockVersion, draft.SketchJson, session.Now }));

    /// <summary>Keeps what was drawn, where nobody else did since <paramref name="version"/>; the stored version becomes one more.</summary>
    public Task<Saved> Keep(long id, long version, string sketch) => database.Write(session =>
        session.Run(Update, new { id, version, sketch, session.Now }) == 1 ? Saved.Done
        : session.One<BlockDraft>(SelectOne, new { id }) is not null ? Saved.Stale : Saved.Gone);

    public Task<bool> Discard(long id) => database.Write(session => session.Run(Delete, new { id, session.Now }) == 1);

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    /// <summary>
    /// Makes the draft the block, and gives the block's number. <paramref name="overwrite"/> replaces a block that was changed
    /// or removed since the draft began: a removed one comes in as a new block.
    /// </summary>
    public Task<(Saved Saved, long BlockId)> Publish(BlockDraft draft, string name, string json, bool overwrite) => database.Write(session =>
    {
        if (session.One<BlockDraft>(SelectOne, new { id = draft.Id })?.Version != draft.Version)
        {
            return (Saved.Stale, 0L);
        }

        var saved = Write(session, draft, name, json, overwrite);
        if (saved.Saved == Saved.Done)
        {
            session.Run(Erase, new { id = draft.Id });
        }

        return saved;
    });

    private static (Saved Saved, long BlockId) Write(Session session, BlockDraft draft, string name, string json, bool overwrite)
    {
        if (draft.BlockId is { } blockId)
        {
            var there = session.Get<long>(CountBlock, draft) == 1;
            var version = overwrite && there ? session.Get<long>("SELECT version FROM block WHERE id = @BlockId", draft) : draft.BlockVersion;
            if (session.Run(UpdateBlock, new { draft.BlockId, BlockVersion = version, name, json, session.Now }) == 1)
            {
                return (Saved.Done, blockId);
            }

            if (!overwrite)
            {
                return (there ? Saved.Stale : Saved.Gone, blockId);
            }
        }

        return (Saved.Done, session.Get<long>(InsertBlock, new { name, json, session.Now }));
    }
}
