namespace KittingBee.Web.Storage;

/// <summary>A line of the shopping list that is in the basket.</summary>
public sealed record ShoppingTick
{
    public long ClassId { get; init; }

    public long FabricId { get; init; }

    /// <summary>What the list asked for when it was ticked.</summary>
    public string Amount { get; init; } = "";
}

/// <summary>Stores what was ticked while shopping.</summary>
public sealed class ShoppingStore(Database database)
{
    private const string Select = "SELECT class_id AS ClassId, fabric_id AS FabricId, amount FROM shopping_tick WHERE class_id IN @classIds";

    private const string Insert = """
        INSERT INTO shopping_tick (class_id, fabric_id, amount, ticked_at)
        SELECT @ClassId, @FabricId, @Amount, @Now WHERE EXISTS (SELECT 1 FROM class WHERE id = @ClassId AND status = 'open' AND deleted_at IS NULL)
        ON CONFLICT (class_id, fabric_id) DO UPDATE SET amount = excluded.amount, ticked_at = excluded.ticked_at
        """;

    private const string Delete = "DELETE FROM shopping_tick WHERE class_id = @ClassId AND fabric_id = @FabricId";

    public IReadOnlyList<ShoppingTick> Ticks(IReadOnlyCollection<long> classIds) =>
        database.Read(session => session.List<ShoppingTick>(Select, new { classIds }));

    /// <summary>Ticks or unticks all of them together; gives how many changed.</summary>
    public Task<int> Tick(IReadOnlyList<ShoppingTick> ticks, bool ticked) => database.Write(session => ticks.Sum(tick =>
        session.Run(ticked ? Insert : Delete, new { tick.ClassId, tick.FabricId, tick.Amount, session.Now })));
}
