using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>A fabric that the guild keeps or buys.</summary>
public sealed record Fabric
{
    public long Id { get; init; }

    public string Name { get; init; } = "";

    /// <summary><c>#rrggbb</c>, lower case.</summary>
    public string Colour { get; init; } = "#cccccc";

    public Length UsableWidth { get; init; }

    public decimal Price { get; init; }

    /// <summary><c>yard</c> or <c>metre</c>: what <see cref="Price"/> is for.</summary>
    public string PricePer { get; init; } = "yard";

    public Length Increment { get; init; }

    public Length Minimum { get; init; }

    public bool Directional { get; init; }

    /// <summary>Percent lost along the bolt in washing.</summary>
    public decimal ShrinkageAlong { get; init; }

    /// <summary>Percent lost across the width in washing.</summary>
    public decimal ShrinkageAcross { get; init; }

    public string SupplierNote { get; init; } = "";

    public string? DeletedAt { get; init; }

    public long Version { get; init; }

    /// <summary>Exact: a metre is 1/0.9144 yd.</summary>
    public decimal PricePerYard => PricePer == "metre" ? Price * 0.9144m : Price;
}

/// <summary>Stores fabrics.</summary>
public sealed class FabricStore(Database database)
{
    private const string Columns = """
        id, name, colour, usable_width_ticks AS UsableWidth, price_cents AS Price, price_per AS PricePer,
        increment_ticks AS Increment, minimum_ticks AS Minimum, directional,
        shrinkage_along_hundredths AS ShrinkageAlong, shrinkage_across_hundredths AS ShrinkageAcross,
        supplier_note AS SupplierNote, deleted_at AS DeletedAt, version
        """;

    private const string SelectAll = $"SELECT {Columns} FROM fabric WHERE deleted_at IS NULL ORDER BY name COLLATE NOCASE, id";

    private const string SelectOne = $"SELECT {Columns} FROM fabric WHERE id = @id";

    // A removed fabric that a class was planned with is still needed to show that class.
    private const string SelectMany = $"SELECT {Columns} FROM fabric WHERE id IN @ids";

    private const string Insert = """
        INSERT INTO fabric (name, colour, usable_width_ticks, price_cents, price_per, increment_ticks, minimum_ticks, directional,
          shrinkage_along_hundredths, shrinkage_across_hundredths, supplier_note, created_at)
        VALUES (@Name, @Colour, @UsableWidth, @Price, @PricePer, @Increment, @Minimum, @Directional,
          @ShrinkageAlong, @ShrinkageAcross, @SupplierNote, @Now)
        RETURNING id
        """;

    private const string Update = """
        UPDATE fabric SET name = @Name, colour = @Colour, usable_width_ticks = @UsableWidth, price_cents = @Price, price_per = @PricePer,
          increment_ticks = @Increment, minimum_ticks = @Minimum, directional = @Directional,
          shrinkage_along_hundredths = @ShrinkageAlong, shrinkage_across_hundredths = @ShrinkageAcross,
          supplier_note = @SupplierNote, version = version + 1
        WHERE id = @Id AND version = @Version AND deleted_at IS NULL
        """;

    private const string Delete = "UPDATE fabric SET deleted_at = @Now, version = version + 1 WHERE id = @id AND deleted_at IS NULL";

    private const string Restore = "UPDATE fabric SET deleted_at = NULL, version = version + 1 WHERE id = @id";

    public IReadOnlyList<Fabric> All() => database.Read(session => session.List<Fabric>(SelectAll));

    public Fabric? Find(long id) => database.Read(session => session.One<Fabric>(SelectOne, new { id }));

    public IReadOnlyDictionary<long, Fabric> Many(IReadOnlyCollection<long> ids) =>
        database.Read(session => session.List<Fabric>(SelectMany, new { ids })).ToDictionary(fabric => fabric.Id);

    public Task<long> Add(Fabric fabric) => database.Write(session => session.Get<long>(Insert, Values(fabric, session)));

    public Task<Saved> Save(Fabric fabric) => database.Write(session =>
        session.Run(Update, Values(fabric, session)) == 1 ? Saved.Done
        : session.One<Fabric>(SelectOne, new { id = fabric.Id }) is { DeletedAt: null } ? Saved.Stale : Saved.Gone);

    public Task<bool> Remove(long id) => database.Write(session => session.Run(Delete, new { id, session.Now }) == 1);

    public Task<bool> PutBack(long id) => database.Write(session => session.Run(Restore, new { id }) == 1);

    private static object Values(Fabric fabric, Session session) => new
    {
        fabric.Id, fabric.Name, fabric.Colour, fabric.UsableWidth, fabric.Price, fabric.PricePer, fabric.Increment, fabric.Minimum,
        fabric.Directional, fabric.ShrinkageAlong, fabric.ShrinkageAcross, fabric.SupplierNote, fabric.Version, session.Now,
    };
}
