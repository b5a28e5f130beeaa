namespace KittingBee.Web.Exchange;

/// <summary>Where the tables hold people's data, and what stands there instead when people are left out.</summary>
public static class People
{
    private static readonly Dictionary<string, object> Instead = new(StringComparer.Ordinal)
    {
        ["student.name"] = "Student ",
        ["student.contact"] = "",
        ["student.note"] = "",
        ["student.large_print"] = 0L,
        ["student.left_handed"] = 0L,
        ["kit_mark.who"] = "somebody",
        ["shortage.who"] = "somebody",
        ["shortage.note"] = "",
    };

    /// <summary>Texts and pictures that are no one's personal data. Every other one must be named above: a test asks for it.</summary>
    public static IReadOnlySet<string> OfNobody { get; } = new HashSet<string>(StringComparer.Ordinal)
    {
        "guild.name", "guild.units", "guild.paper", "guild.currency", "guild.language",
        "fabric.name", "fabric.colour", "fabric.price_per", "fabric.supplier_note", "fabric.created_at", "fabric.deleted_at",
        "block.name", "block.json", "block.typed_lines", "block.methods_json", "block.created_at", "block.updated_at", "block.deleted_at",
        "block_draft.sketch_json", "block_draft.kept_by", "block_draft.created_at", "block_draft.updated_at", "block_draft.deleted_at",
        "project.name", "project.json", "project.created_at", "project.updated_at", "project.deleted_at",
        "class.title", "class.held_on", "class.held_time", "class.place", "class.block_name", "class.block_json", "class.typed_lines", "class.units",
        "class.paper", "class.currency", "class.methods_json", "class.pricing", "class.status", "class.printed_at", "class.closed_at", "class.frozen_json",
        "class.project_json", "class.created_at", "class.deleted_at", "class_trace.happened_at", "class_trace.what",
        "class_format.format", "class_format.way", "class_precut.format",
        "shelf_piece.kind", "shelf_piece.note", "shelf_piece.created_at", "shelf_piece.deleted_at",
        "colourway.name", "colourway.deleted_at", "colourway_fabric.letter", "student.deleted_at", "kit.code", "kit.role", "kit.deleted_at",
        "kit_mark.id", "kit_mark.line", "kit_mark.state", "kit_mark.marked_at", "kit_mark.undoes", "kit_mark_same.id", "kit_mark_same.mark_id",
        "shortage.id", "shortage.letter", "shortage.reason", "shortage.reported_at", "shortage.mended_at", "shortage.mended_from", "shortage.withdrawn_at",
        "purchase.note", "purchase.bought_at", "purchase.deleted_at", "leftover.note", "leftover.measured_at", "leftover.deleted_at",
        "given_out.note", "given_out.given_at", "given_out.deleted_at",
        "plan.inputs_hash", "plan.request_json", "plan.plan_json", "plan.planned_at", "plan.shelf_piece_ids", "shopping_tick.amount", "shopping_tick.ticked_at",
    };

    /// <summary>True for a table that is left out whole with the people: a photographed note may show anything.</summary>
    public static bool IsLeftOut(string table) => table is "leftover_photo";

    public static bool Names(string table, string column) => Instead.ContainsKey($"{table}.{column}") || IsLeftOut(table);

    /// <summary>What stands in place of a value, or the value itself where it is nobody's.</summary>
    public static object? Without(string table, string column, object? value, int row) => Instead.TryGetValue($"{table}.{column}", out var instead)
        ? instead is "Student " ? FormattableString.Invariant($"Student {row}") : instead
        : value;
}
