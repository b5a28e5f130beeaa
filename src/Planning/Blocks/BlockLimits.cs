using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Bounds that keep any input quick to plan and a drawing readable; far above any block that is sewn.</summary>
public static class BlockLimits
{
    /// <summary>Most columns, and most rows, of a grid, of a checkerboard, and bars of a rail unit.</summary>
    public const int Cells = 24;

    /// <summary>Most units of one block.</summary>
    public const int Units = 400;

    /// <summary>Most units when nested blocks are opened up.</summary>
    public const int UnitsInAll = 1000;

    /// <summary>A block in a block in a block: how deep.</summary>
    public const int Depth = 4;

    /// <summary>Most blocks in a kit, and most copies of a template.</summary>
    public const int Copies = 1000;

    /// <summary>Longest name.</summary>
    public const int NameLength = 200;

    /// <summary>Largest finished side of a block, and largest cut side of a template.</summary>
    public static Length Side { get; } = Length.FromInches(200);
}
