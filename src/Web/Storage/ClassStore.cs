using Dapper;

namespace KittingBee.Web.Storage;

/// <summary>Stores classes.</summary>
public sealed class ClassStore(Database database)
{
    private const string Columns = """
        id, title, held_on AS HeldOn, held_time AS HeldTime, place, block_id AS BlockId, block_name AS BlockName, block_json AS BlockJson,
        typed_lines AS TypedLines, project_json AS ProjectJson, units, paper, currency, seam_allowance_ticks AS SeamAllowance, cutting_step_ticks AS CuttingStep,
        methods_json AS MethodsJson, blocks_per_kit AS BlocksPerKit, layers, longest_strip_ticks AS LongestStrip,
        squaring_up_ticks AS SquaringUp, places, kits_only AS KitsOnly, spare_kits AS SpareKits, sample_kits AS SampleKits,
        spare_percent_hundredths AS SparePercent, miscut_percent_hundredths AS MiscutPercent, promise_percent_hundredths AS PromisePercent,
        notions_cents AS Notions, packaging_cents AS Packaging, labour_cents_per_hour AS LabourPerHour, seconds_per_stroke AS SecondsPerStroke,
        packing_minutes AS PackingMinutes, fixed_costs_cents AS FixedCosts, fee_cents AS Fee, tax_percent_hundredths AS TaxPercent, pricing,
        margin_percent_hundredths AS MarginPercent, markup_percent_hundredths AS MarkupPercent, price_by_hand_cents AS PriceByHand,
        price_step_cents AS PriceStep, tolerance_percent_hundredths AS TolerancePercent, status, printed_at AS PrintedAt,
        closed_at AS ClosedAt, frozen_json AS FrozenJson, deleted_at AS DeletedAt, version
        """;

    private const string SelectAll = $"SELECT {Columns} FROM class WHERE deleted_at IS NULL ORDER BY status DESC, held_on DESC, id DESC";

    /// <summary>Removed ones too.</summary>
    internal const string SelectEvery = $"SELECT {Columns} FROM class ORDER BY id";

    internal const string SelectOne = $"SELECT {Columns} FROM class WHERE id = @id AND deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO class (title, held_on, held_time, place, block_id, block_name, block_json, typed_lines, project_json, units, paper, currency,
          seam_allowance_ticks, cutting_step_ticks, methods_json, blocks_per_kit, layers, longest_strip_ticks, squaring_up_ticks,
          places, kits_only, spare_kits, sample_kits, spare_percent_hundredths, miscut_percent_hundredths, promise_percent_hundredths,
          notions_cents, packaging_cents, labour_cents_per_hour, seconds_per_stroke, packing_minutes, fixed_costs_cents, fee_cents,
          tax_percent_hundredths, pricing, margin_percent_hundredths, markup_percent_hundredths, price_by_hand_cents, price_step_cents,
          tolerance_percent_hundredths, created_at)
        VALUES (@Title, @HeldOn, @HeldTime, @Place, @BlockId, @BlockName, @BlockJson, @TypedLines, @ProjectJson, @Units, @Paper, @Currency,
          @SeamAllowance, @CuttingStep, @MethodsJson, @BlocksPerKit, @Layers, @LongestStrip, @SquaringUp,
          @Places, @KitsOnly, @SpareKits, @SampleKits, @SparePercent, @MiscutPercent, @PromisePercent,
          @Notions, @Packaging, @LabourPerHour, @SecondsPerStroke, @PackingMinutes, @FixedCosts, @Fee,
          @TaxPercent, @Pricing, @MarginPercent, @MarkupPercent, @PriceByHand, @PriceStep,
          @TolerancePercent, @CreatedAt)
        RETURNING id
        """;

    private const string Update = """
        UPDATE class SET title = @Title, held_on = @HeldOn, held_time = @HeldTime, place = @Place, block_id = @BlockId, block_name = @BlockName,
          block_json = @BlockJson, typed_lines = @TypedLines, project_json = @ProjectJson, units = @Units, paper = @Paper, currency = @Currency,
          seam_allowance_ticks = @SeamAllowance, cutting_step_ticks = @CuttingStep, methods_json = @MethodsJson,
          blocks_per_kit = @BlocksPerKit, layers = @Layers, longest_strip_ticks = @LongestStrip, squaring_up_ticks = @SquaringUp,
          places = @Places, kits_only = @KitsOnly, spare_kits = @SpareKits, sample_kits = @SampleKits,
          spare_percent_hundredths = @SparePercent, miscut_percent_hundredths = @MiscutPercent, promise_percent_hundredths = @PromisePercent,
          notions_cents = @Notions, packaging_cents = @Packaging, labour_cents_per_hour = @LabourPerHour,
          seconds_per_stroke = @SecondsPerStroke, packing_minutes = @PackingMinutes, fixed_costs_cents = @FixedCosts, fee_cents = @Fee,
          tax_percent_hundredths = @TaxPercent, pricing = @Pricing, margin_percent_hundredths = @MarginPercent,
          markup_percent_hundredths = @MarkupPercent, price_by_hand_cents = @PriceByHand, price_step_cents = @PriceStep,
          tolerance_percent_hundredths = @TolerancePercent, version = version + 1
        WHERE id = @Id AND version = @Version AND deleted_at IS NULL AND status = 'open'
        """;

    private const string Delete = "UPDATE class SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    private const string Restore = "UPDATE class SET deleted_at = NULL, version = version + 1 WHERE id = @id";

    private const string Printed = "UPDATE class SET printed_at = @Now WHERE id = @id AND deleted_at IS NULL";

    public IReadOnlyList<ClassRecord> All() => database.Read(session => session.List<ClassRecord>(SelectAll));

    public ClassRecord? Find(long id) => database.Read(session => session.One<ClassRecord>(SelectOne, new { id }));

    /// <summary>Stores a new class and makes its first kits.</summary>
    public Task<long> Add(ClassRecord record) => database.Write(session =>
    {
        var values = new DynamicParameters(record);
        values.Add("CreatedAt", session.Now);
        var id = session.Get<long>(Insert, values);
        KitStore.BringIntoLine(session, id);
        return id;
    });

    /// <summary>
    /// Starts a new class like another: its block, measures, prices, colourways and kit formats, and its students where asked. Nothing that
    /// happened to the other comes along.
    /// </summary>
    public Task<long> Copy(long id, string title, bool withRoster) => database.Write(session =>
    {
        var record = session.Get<ClassRecord>(SelectOne, new { id }) with { Title = title, HeldOn = null, HeldTime = "" };
        var values = new DynamicParameters(record);
        values.Add("CreatedAt", session.Now);
        var copy = session.Get<long>(Insert, values);
        FormatStore.Copy(session, id, copy);
        var wayOf = ColourwayStore.Copy(session, id, copy);
        if (withRoster)
        {
            RosterStore.Copy(session, id, copy, wayOf);
        }

        KitStore.BringIntoLine(session, copy);
        KitStore.CopyColourways(session, id, copy, wayOf);
        return copy;
    });

    /// <summary>Stores an open class, and adds or takes away kits where its numbers changed.</summary>
    public Task<Saved> Save(ClassRecord record) => database.Write(session =>
    {
        if (session.Run(Update, record) != 1)
        {
            return session.One<ClassRecord>(SelectOne, new { id = record.Id }) is null ? Saved.Gone : Saved.Stale;
        }

        KitStore.BringIntoLine(session, record.Id);
        return Saved.Done;
    });

    /// <summary>Takes a class off the list and frees the cloth set aside for it.</summary>
    public Task<bool> Remove(long id) => database.Write(session =>
    {
        session.Run(ShelfStore.Release, new { classId = id });
        session.Run(ShelfClaimStore.DeleteClass, new { classId = id });
        return session.Run(Delete, new { id, session.Now }) == 1;
    });

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    public Task<bool> MarkPrinted(long id) => database.Write(session => session.Run(Printed, new { id, session.Now }) == 1);
}
