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

    public string CreatedAt { get; init; } = "";

    public string UpdatedAt { get; init; } = "";

    public long Version { get; init; }

    /// <summary>The open editor that kept it last, by the name it gave itself; empty where a plain form did.</summary>
    public string KeptBy { get; init; } = "";

    /// <summary>That editor's own number for it.</summary>
    public long KeptSequence { get; init; }
}

/// <summary>Which editor sends a draft, and its number among those that this editor sends.</summary>
public sealed record DraftSender(string Editor, long Sequence);

/// <summary>Stores drafts of blocks, at most one for each block, so that a closed tab loses nothing.</summary>
public sealed class DraftStore(Database database)
{
    private const string Columns = "id, block_id AS BlockId, block_version AS BlockVersion, sketch_json AS SketchJson, created_at AS CreatedAt, updated_at AS UpdatedAt, version, kept_by AS KeptBy, kept_sequence AS KeptSequence";

    private const string SelectAll = $"SELECT {Columns} FROM block_draft WHERE deleted_at IS NULL ORDER BY updated_at DESC, id DESC";

    private const string SelectOne = $"SELECT {Columns} FROM block_draft WHERE id = @id AND deleted_at IS NULL";

    private const string SelectOfBlock = $"SELECT {Columns} FROM block_draft WHERE block_id = @blockId AND deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO block_draft (block_id, block_version, sketch_json, created_at, updated_at)
        VALUES (@BlockId, @BlockVersion, @SketchJson, @Now, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE block_draft SET sketch_json = @sketch, updated_at = @Now, version = version + 1, kept_by = @editor, kept_sequence = @sequence
        WHERE id = @id AND version = @Version AND deleted_at IS NULL
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

    /// <summary>
    /// Keeps what was drawn, where nobody else did since <paramref name="version"/>. An editor may send twice before it hears
    /// of the first: of its own sends the one with the higher number stays, in whatever order they arrive.
    /// </summary>
    public Task<(Saved Saved, BlockDraft? Now)> Keep(long id, long version, string sketch, DraftSender? sender = null) => database.Write(session =>
    {
        if (session.One<BlockDraft>(SelectOne, new { id }) is not { } draft)
        {
            return (Saved.Gone, (BlockDraft?)null);
        }

        var own = sender is not null && draft.KeptBy == sender.Editor;
        if (own && draft.KeptSequence >= sender!.Sequence)
        {
            return (Saved.Done, draft);
        }

        if (draft.Version != version && !own)
        {
            return (Saved.Stale, draft);
        }

        var values = new { id, draft.Version, sketch, editor = sender?.Editor ?? "", sequence = sender?.Sequence ?? 0, session.Now };
        session.Run(Update, values);
        return (Saved.Done, session.One<BlockDraft>(SelectOne, new { id }));
    });

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
