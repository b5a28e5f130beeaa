using System.Text.Json;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Reads the form of a block from JSON and gathers every problem with its field.</summary>
internal sealed class BlockJsonReader
{
    private static readonly string[] BlockFields = ["version", "$schema", "name", "columns", "rows", "fabrics", "units"];
    private static readonly string[] FabricFields = ["letter", "name"];

    private static readonly string[] UnitFields =
    [
        "row", "column", "rowSpan", "columnSpan", "kind", "fabrics", "turn",
        "corner", "widths", "patches", "inner", "cutWidth", "cutHeight", "count",
    ];

    private readonly JsonFields fields = new();

    public IReadOnlyList<Problem> Problems => fields.Problems;

    public Block? Block(JsonElement element, string path)
    {
        if (!fields.IsObject(element, path, "a block", BlockFields) || !IsKnownVersion(element, path))
        {
            return null;
        }

        var name = fields.Text(element, "name", path, required: true);
        var columns = fields.Lengths(element, "columns", path, required: true);
        var rows = fields.Lengths(element, "rows", path, required: true);
        var fabrics = fields.Items(element, "fabrics", path, required: true, Fabric);
        var units = fields.Items(element, "units", path, required: true, Unit);
        return name is null || columns is null || rows is null || fabrics is null || units is null
            ? null
            : new(name, columns, rows, fabrics, units);
    }

    private bool IsKnownVersion(JsonElement element, string path)
    {
        if (!element.TryGetProperty("version", out var given))
        {
            return true;
        }

        if (given.ValueKind == JsonValueKind.Number && given.TryGetInt32(out var version) && version == BlockJson.Version)
        {
            return true;
        }

        fields.Add(path, "version", $"This block is of version {JsonFields.Shown(given)}; this program reads version {BlockJson.Version}. Save it again from an older program, or update this one.");
        return false;
    }

    private BlockFabric? Fabric(JsonElement element, string path)
    {
        if (!fields.IsObject(element, path, "a fabric", FabricFields))
        {
            return null;
        }

        var letter = fields.Text(element, "letter", path, required: true);
        var name = fields.Text(element, "name", path, required: false) ?? "";
        return letter is null ? null : new(letter, name);
    }

    private Unit? Unit(JsonElement element, string path)
    {
        if (!fields.IsObject(element, path, "a unit", UnitFields))
        {
            return null;
        }

        var kind = Kind(element, path);
        var row = fields.Whole(element, "row", path);
        var column = fields.Whole(element, "column", path);
        if (row is null && !element.TryGetProperty("row", out _))
        {
            fields.Missing(path, "row");
        }

        if (column is null && !element.TryGetProperty("column", out _))
        {
            fields.Missing(path, "column");
        }

        return new Unit
        {
            Row = row ?? 0,
            Column = column ?? 0,
            RowSpan = fields.Whole(element, "rowSpan", path) ?? 1,
            ColumnSpan = fields.Whole(element, "columnSpan", path) ?? 1,
            Kind = kind,
            Fabrics = fields.Letters(element, "fabrics", path) ?? [],
            Turn = fields.Whole(element, "turn", path) ?? 0,
            Corner = fields.Length(element, "corner", path),
            Widths = fields.Lengths(element, "widths", path, required: false),
            Patches = fields.Items(element, "patches", path, required: false, PatchRow),
            Inner = element.TryGetProperty("inner", out var inner) && inner.ValueKind != JsonValueKind.Null
                ? Block(inner, path + ".inner.")
                : null,
            CutWidth = fields.Length(element, "cutWidth", path),
            CutHeight = fields.Length(element, "cutHeight", path),
            Count = fields.Whole(element, "count", path),
        };
    }

    private IReadOnlyList<string>? PatchRow(JsonElement element, string path) => fields.Texts(element, path);

    private UnitKind Kind(JsonElement element, string path)
    {
        var name = fields.Text(element, "kind", path, required: true);
        if (name is not null && UnitKinds.TryRead(name, out var kind))
        {
            return kind;
        }

        if (name is not null)
        {
            fields.Add(path, "kind", $"\"{JsonFields.Short(name)}\" is not a kind of unit. Use one of {string.Join(", ", UnitKinds.Names)}.");
        }

        return UnitKind.Plain;
    }
}
