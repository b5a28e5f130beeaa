using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>How the blocks of a project lie.</summary>
public enum ProjectSetting
{
    /// <summary>In straight rows.</summary>
    Straight,

    /// <summary>Turned by an eighth, with setting triangles at sides and corners.</summary>
    OnPoint,
}

/// <summary>Strips between the blocks.</summary>
/// <param name="Letter">Its fabric.</param>
/// <param name="Width">Finished width.</param>
/// <param name="Cornerstones">Fabric of the squares where strips cross; null for long strips without cornerstones.</param>
/// <param name="Outside">True where strips go round the outside too.</param>
public sealed record Sashing(string Letter, Length Width, string? Cornerstones, bool Outside);

/// <summary>One border, sides first, then top and bottom over the whole width (butted corners).</summary>
/// <param name="Letter">Its fabric.</param>
/// <param name="Width">Finished width.</param>
public sealed record Border(string Letter, Length Width);

/// <summary>Binding, cut in strips across the cloth and joined.</summary>
/// <param name="Letter">Its fabric.</param>
/// <param name="StripWidth">Cut width of the strips.</param>
public sealed record Binding(string Letter, Length StripWidth);

/// <summary>Backing, in as many panels as the cloth's width asks for.</summary>
/// <param name="Letter">Its fabric.</param>
/// <param name="Overhang">How far it reaches beyond the top on each side.</param>
/// <param name="UsableWidth">Usable width of the backing's cloth; that of the rules when null.</param>
public sealed record Backing(string Letter, Length Overhang, Length? UsableWidth);

/// <summary>Blocks set together into a finished piece.</summary>
public sealed record Project
{
    /// <summary>Blocks from left to right; on point, those of the outer rows.</summary>
    public required int Across { get; init; }

    /// <summary>Blocks from top to bottom; on point, those of the outer columns.</summary>
    public required int Down { get; init; }

    /// <summary>Straight or on point.</summary>
    public ProjectSetting Setting { get; init; }

    /// <summary>On point: fabric of plain squares between the blocks; null where blocks stand there too.</summary>
    public string? Alternate { get; init; }

    /// <summary>On point: fabric of the side and corner triangles.</summary>
    public string? SettingTriangles { get; init; }

    /// <summary>Strips between the blocks, or null. On point they have cornerstones and go round the outside too.</summary>
    public Sashing? Sashing { get; init; }

    /// <summary>Borders from the inside out.</summary>
    public IReadOnlyList<Border> Borders { get; init; } = [];

    /// <summary>Binding, or null.</summary>
    public Binding? Binding { get; init; }

    /// <summary>Backing, or null.</summary>
    public Backing? Backing { get; init; }

    /// <summary>Fabrics beyond the block's own.</summary>
    public IReadOnlyList<BlockFabric> Fabrics { get; init; } = [];

    /// <summary>How many blocks the project takes.</summary>
    public int Blocks => Setting == ProjectSetting.OnPoint && Alternate is null
        ? (Across * Down) + ((Across - 1) * (Down - 1))
        : Across * Down;

    /// <summary>On point: places between the outer rows and columns, whatever stands there.</summary>
    internal int Between => Setting == ProjectSetting.OnPoint ? (Across - 1) * (Down - 1) : 0;
}

/// <summary>A project's cut list, or what is wrong.</summary>
/// <param name="CutList">All pieces of blocks and project together; the unfinished size is that of the top, edge to edge.</param>
/// <param name="Width">Finished width inside the binding's seam.</param>
/// <param name="Height">Finished height inside the binding's seam.</param>
/// <param name="Notes">Things to know, a sentence each.</param>
/// <param name="Problems">Empty when there is a cut list.</param>
public sealed record ProjectResult(CutList? CutList, Length Width, Length Height, IReadOnlyList<Sentence> Notes, IReadOnlyList<Problem> Problems);
