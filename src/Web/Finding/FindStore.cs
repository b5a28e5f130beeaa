using KittingBee.Web.Storage;

namespace KittingBee.Web.Finding;

/// <summary>A class as a search sees it.</summary>
public sealed record FindableClass
{
    public long Id { get; init; }

    public string Title { get; init; } = "";

    public string Place { get; init; } = "";

    public string BlockName { get; init; } = "";

    public DateOnly? HeldOn { get; init; }
}

/// <summary>A block as a search sees it.</summary>
public sealed record FindableBlock(long Id, string Name, string? Json, string? TypedLines = null);

/// <summary>A fabric as a search sees it.</summary>
public sealed record FindableFabric(long Id, string Name, string Colour, string SupplierNote);

/// <summary>A person on a class's roster as a search sees them.</summary>
public sealed record FindablePerson
{
    public long Id { get; init; }

    public string Name { get; init; } = "";

    public string Contact { get; init; } = "";

    public string Note { get; init; } = "";

    public long ClassId { get; init; }

    public string ClassTitle { get; init; } = "";

    public DateOnly? HeldOn { get; init; }
}

/// <summary>Everything that can be found, the most recent first.</summary>
public sealed record Findable(IReadOnlyList<FindableClass> Classes, IReadOnlyList<FindableBlock> Blocks, IReadOnlyList<FindableFabric> Fabrics, IReadOnlyList<FindablePerson> People);

/// <summary>Reads what a search looks through. A guild has thousands of rows, not millions: they are compared in memory, where a comparison knows every script.</summary>
public sealed class FindStore(Database database)
{
    private const string Classes = """
        SELECT id AS Id, title AS Title, place AS Place, block_name AS BlockName, held_on AS HeldOn
        FROM class WHERE deleted_at IS NULL ORDER BY coalesce(held_on, created_at) DESC, id DESC
        """;

    private const string Blocks = "SELECT id AS Id, name AS Name, json AS Json, typed_lines AS TypedLines FROM block WHERE deleted_at IS NULL ORDER BY updated_at DESC, id DESC";

    private const string Fabrics = """
        SELECT id AS Id, name AS Name, colour AS Colour, supplier_note AS SupplierNote
        FROM fabric WHERE deleted_at IS NULL ORDER BY created_at DESC, id DESC
        """;

    private const string People = """
        SELECT s.id AS Id, s.name AS Name, s.contact AS Contact, s.note AS Note, c.id AS ClassId, c.title AS ClassTitle, c.held_on AS HeldOn
        FROM student s JOIN class c ON c.id = s.class_id
        WHERE s.deleted_at IS NULL AND c.deleted_at IS NULL ORDER BY coalesce(c.held_on, c.created_at) DESC, c.id DESC, s.position
        """;

    public Findable All() => database.Read(session => new Findable(
        session.List<FindableClass>(Classes), session.List<FindableBlock>(Blocks), session.List<FindableFabric>(Fabrics), session.List<FindablePerson>(People)));
}
