using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>What a unit is made as.</summary>
public enum UnitKind
{
    /// <summary>One patch.</summary>
    Plain,

    /// <summary>Two triangles; fabrics [upper left, lower right].</summary>
    HalfSquareTriangle,

    /// <summary>Four triangles; fabrics [top, right, bottom, left].</summary>
    QuarterSquareTriangle,

    /// <summary>A goose and two skies; fabrics [goose, left sky, right sky].</summary>
    FlyingGeese,

    /// <summary>A patch with stitch-and-flip corners; fabrics [base, upper left, upper right, lower right, lower left], null where left alone.</summary>
    FlippedCorners,

    /// <summary>A centre on point; fabrics [centre, corners] or [centre, four corners clockwise from upper left].</summary>
    SquareInASquare,

    /// <summary>Bars across; fabrics top to bottom.</summary>
    Rails,

    /// <summary>A four-patch, nine-patch or any n × m, in <see cref="Unit.Patches"/>.</summary>
    Checkerboard,

    /// <summary>A block of its own, in <see cref="Unit.Inner"/>.</summary>
    Block,

    /// <summary>A shape cut from a rectangle of a given size.</summary>
    Template,

    /// <summary>A half-square triangle whose upper left half is pieced: the upper left half of <see cref="Unit.Inner"/>; fabrics [lower right].</summary>
    PiecedTriangle,
}

/// <summary>A lettered fabric of a block.</summary>
public sealed record BlockFabric(string Letter, string Name);

/// <summary>A unit on its cells. Rows and columns count from 0.</summary>
public sealed record Unit
{
    /// <summary>Topmost row.</summary>
    public required int Row { get; init; }

    /// <summary>Leftmost column.</summary>
    public required int Column { get; init; }

    /// <summary>How many rows it covers.</summary>
    public int RowSpan { get; init; } = 1;

    /// <summary>How many columns it covers.</summary>
    public int ColumnSpan { get; init; } = 1;

    /// <summary>What it is made as.</summary>
    public required UnitKind Kind { get; init; }

    /// <summary>Fabric letters in the kind's order; null only where a flipped corner is left alone.</summary>
    public IReadOnlyList<string?> Fabrics { get; init; } = [];

    /// <summary>Degrees clockwise: 0, 90, 180 or 270.</summary>
    public int Turn { get; init; }

    /// <summary>Finished size of a flipped corner.</summary>
    public Length? Corner { get; init; }

    /// <summary>Finished widths of rails, top to bottom; null for equal bars.</summary>
    public IReadOnlyList<Length>? Widths { get; init; }

    /// <summary>Rows of letters of a checkerboard.</summary>
    public IReadOnlyList<IReadOnlyList<string>>? Patches { get; init; }

    /// <summary>The nested block, scaled to the cell; of a pieced triangle, the block whose upper left half it takes.</summary>
    public Block? Inner { get; init; }

    /// <summary>Cut width of a template's rectangle.</summary>
    public Length? CutWidth { get; init; }

    /// <summary>Cut height of a template's rectangle.</summary>
    public Length? CutHeight { get; init; }

    /// <summary>How many rectangles a template needs; 1 when not given.</summary>
    public int? Count { get; init; }
}

/// <summary>A pieced block: a grid of finished column widths and row heights, and the units that cover it.</summary>
public sealed record Block(
    string Name,
    IReadOnlyList<Length> Columns,
    IReadOnlyList<Length> Rows,
    IReadOnlyList<BlockFabric> Fabrics,
    IReadOnlyList<Unit> Units);
