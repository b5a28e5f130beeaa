using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>How half-square triangles are made.</summary>
public enum HalfSquareMethod
{
    /// <summary>Two from a pair of squares.</summary>
    TwoAtATime,

    /// <summary>Eight from a pair of large squares.</summary>
    EightAtATime,

    /// <summary>Squares cut once corner to corner.</summary>
    CutTriangles,
}

/// <summary>How quarter-square triangles are made.</summary>
public enum QuarterSquareMethod
{
    /// <summary>Two from a pair of squares, where opposite triangles are alike.</summary>
    TwoAtATime,

    /// <summary>Squares cut twice corner to corner.</summary>
    CutTriangles,
}

/// <summary>How flying geese are made.</summary>
public enum GeeseMethod
{
    /// <summary>A rectangle and two stitch-and-flip corners.</summary>
    FlipCorners,

    /// <summary>Four from one large and four small squares, where both skies are alike.</summary>
    FourAtATime,
}

/// <summary>How a square in a square is made.</summary>
public enum SquareInASquareMethod
{
    /// <summary>A square and four stitch-and-flip corners.</summary>
    FlipCorners,

    /// <summary>A square on point and triangles.</summary>
    CutTriangles,
}

/// <summary>How rails and checkerboards are made.</summary>
public enum PatchMethod
{
    /// <summary>Each patch cut alone.</summary>
    Patches,

    /// <summary>Strips joined, then cut across into segments.</summary>
    StripPieced,
}

/// <summary>Whether triangle squares are cut to the exact size or oversize and trimmed.</summary>
public enum TrimMethod
{
    /// <summary>Cut larger, sewn, trimmed to size.</summary>
    Oversize,

    /// <summary>Cut to the size that geometry gives, rounded up to the step.</summary>
    Exact,
}

/// <summary>The making methods of a class.</summary>
public sealed record Methods
{
    /// <summary>Half-square triangles.</summary>
    public HalfSquareMethod HalfSquareTriangle { get; init; }

    /// <summary>Quarter-square triangles.</summary>
    public QuarterSquareMethod QuarterSquareTriangle { get; init; }

    /// <summary>Flying geese.</summary>
    public GeeseMethod FlyingGeese { get; init; }

    /// <summary>Square in a square.</summary>
    public SquareInASquareMethod SquareInASquare { get; init; }

    /// <summary>Rails.</summary>
    public PatchMethod Rails { get; init; }

    /// <summary>Checkerboards.</summary>
    public PatchMethod Checkerboard { get; init; }

    /// <summary>Exact or oversize.</summary>
    public TrimMethod Trim { get; init; }
}

/// <summary>Seam allowance, cutting step and methods by which a cut list is made.</summary>
public sealed record CuttingRules
{
    /// <summary>Allowance on each side; ¼ in by default.</summary>
    public Length SeamAllowance { get; init; } = Length.FromInches(0, 1, 4);

    /// <summary>Cut sizes are rounded up to this; ⅛ in by default.</summary>
    public Length CuttingStep { get; init; } = Length.FromInches(0, 1, 8);

    /// <summary>True where oversize allowances are 2.5 cm and 3.8 cm in place of 1 in and 1½ in.</summary>
    public bool Metric { get; init; }

    /// <summary>How each kind of unit is made.</summary>
    public Methods Methods { get; init; } = new();

    /// <summary>Longest strip that can be cut across the cloth; strip sets and long borders are made up of strips no longer. 40 in by default.</summary>
    public Length UsableWidth { get; init; } = Length.FromInches(40);

    /// <summary>Blocks in each kit; at least one.</summary>
    public int BlocksPerKit { get; init; } = 1;
}
