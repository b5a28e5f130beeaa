using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>Which edges of a precut are pinked (cut in zigzag).</summary>
public enum PinkedEdges
{
    /// <summary>None: cut straight.</summary>
    None,

    /// <summary>The two long edges of a strip across the width; its ends are selvage.</summary>
    LongEdges,

    /// <summary>All four.</summary>
    All,
}

/// <summary>A precut as the class's shop sells it. All of it is data that a class can change.</summary>
/// <param name="Format">The kit format's code, such as <c>squares-5</c>.</param>
/// <param name="Name">One of it in words: "5 in square".</param>
/// <param name="Width">Size across (the direction of a bolt's width), measured to the points where it is pinked.</param>
/// <param name="Length">Size along (the direction of the selvage), measured to the points where it is pinked.</param>
/// <param name="PackSize">How many come in a pack; at least 1.</param>
/// <param name="PackPrice">Price of a pack, or null where it is not known yet.</param>
/// <param name="Pinked">Which edges are pinked.</param>
/// <param name="PinkedMargin">Lost at each pinked edge, because the points are no cloth to sew in; zero at first. Makers differ by up to ¼ in.</param>
public sealed record Precut(
    string Format,
    Sentence Name,
    Length Width,
    Length Length,
    int PackSize,
    decimal? PackPrice = null,
    PinkedEdges Pinked = PinkedEdges.None,
    Length PinkedMargin = default)
{
    /// <summary>Width that can be cut from: less the margin at both sides where these are pinked.</summary>
    public Length UsableWidth => Pinked == PinkedEdges.All ? Length.Max(Length.Zero, Width - (2 * PinkedMargin)) : Width;

    /// <summary>Length that can be cut from: less the margin at both edges where these are pinked.</summary>
    public Length UsableLength => Pinked == PinkedEdges.None ? Length : Length.Max(Length.Zero, Length - (2 * PinkedMargin));
}

/// <summary>The precuts that shops usually have, as a start for a class's own list.</summary>
public static class PrecutSizes
{
    /// <summary>
    /// Strips 2½ in × usable width (rolls of 40), squares of 5 in and 10 in (packs of 42), fat quarters 18 × 21 in and fat
    /// eighths 9 × 21 in, one by one. Without prices: these are the shop's.
    /// </summary>
    /// <remarks>Sizes and counts as trade handbooks give them; makers vary, so a class checks its own packs.</remarks>
    public static IReadOnlyList<Precut> Usual(Length usableWidth) =>
    [
        new(FormatCodes.Strips, "2½ in strip", usableWidth, Length.FromInches(2, 1, 2), 40, Pinked: PinkedEdges.LongEdges),
        new(FormatCodes.FiveInchSquares, "5 in square", Length.FromInches(5), Length.FromInches(5), 42, Pinked: PinkedEdges.All),
        new(FormatCodes.TenInchSquares, "10 in square", Length.FromInches(10), Length.FromInches(10), 42, Pinked: PinkedEdges.All),
        // A fat quarter is half a bolt's width across: 21 in across, 18 in along the selvage.
        new(FormatCodes.FatQuarter, "fat quarter", Length.FromInches(21), Length.FromInches(18), 1),
        new(FormatCodes.FatEighth, "fat eighth", Length.FromInches(21), Length.FromInches(9), 1),
    ];
}

/// <summary>Codes of the kit formats, as programs exchange them.</summary>
public static class FormatCodes
{
    /// <summary>The teacher cuts every piece.</summary>
    public const string CutPieces = "cut-pieces";

    /// <summary>A length off the bolt for each kit.</summary>
    public const string Yardage = "yardage";

    /// <summary>Strips 2½ in wide.</summary>
    public const string Strips = "strips-2.5";

    /// <summary>Squares of 5 in.</summary>
    public const string FiveInchSquares = "squares-5";

    /// <summary>Squares of 10 in.</summary>
    public const string TenInchSquares = "squares-10";

    /// <summary>Fat quarters.</summary>
    public const string FatQuarter = "fat-quarter";

    /// <summary>Fat eighths.</summary>
    public const string FatEighth = "fat-eighth";
}
