using System.Collections.Frozen;

namespace KittingBee.Planning.Blocks;

/// <summary>The names of unit kinds: as written in files, and in words.</summary>
public static class UnitKinds
{
    private static readonly (UnitKind Kind, string Name, Sentence One, Sentence Many)[] Table =
    [
        (UnitKind.Plain, "plain", "plain patch", "plain patches"),
        (UnitKind.HalfSquareTriangle, "half-square-triangle", "half-square triangle", "half-square triangles"),
        (UnitKind.QuarterSquareTriangle, "quarter-square-triangle", "quarter-square triangle", "quarter-square triangles"),
        (UnitKind.FlyingGeese, "flying-geese", "flying geese unit", "flying geese"),
        (UnitKind.FlippedCorners, "flipped-corners", "patch with flipped corners", "patches with flipped corners"),
        (UnitKind.SquareInASquare, "square-in-a-square", "square in a square", "squares in a square"),
        (UnitKind.Rails, "rails", "rail unit", "rail units"),
        (UnitKind.Checkerboard, "checkerboard", "checkerboard", "checkerboards"),
        (UnitKind.Block, "block", "nested block", "nested blocks"),
        (UnitKind.Template, "template", "template shape", "template shapes"),
        (UnitKind.PiecedTriangle, "pieced-triangle", "pieced triangle", "pieced triangles"),
    ];

    private static readonly FrozenDictionary<string, UnitKind> ByName = Table.ToFrozenDictionary(row => row.Name, row => row.Kind, StringComparer.Ordinal);

    /// <summary>Every name, in the order of the kinds.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. Table.Select(row => row.Name)];

    /// <summary>The name in files: <c>half-square-triangle</c>.</summary>
    public static string Name(UnitKind kind) => Table[(int)kind].Name;

    /// <summary>In words: "half-square triangle".</summary>
    public static Sentence InWords(UnitKind kind) => Table[(int)kind].One;

    /// <summary>In words, more than one: "half-square triangles".</summary>
    public static Sentence InWords(UnitKind kind, int count) => count == 1 ? Table[(int)kind].One : Table[(int)kind].Many;

    /// <summary>Reads a name as written in files.</summary>
    public static bool TryRead(string name, out UnitKind kind) => ByName.TryGetValue(name, out kind);
}
