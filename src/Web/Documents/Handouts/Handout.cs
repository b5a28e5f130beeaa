using KittingBee.Planning.Blocks;
using KittingBee.Planning.Formats;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Labels;

namespace KittingBee.Web.Documents.Handouts;

/// <summary>A fabric as its student sees it: letter in the block, colour and name.</summary>
public sealed record HandoutFabric(string Letter, string Role, string Name, string Colour);

/// <summary>A sewing step and its drawing (SVG; empty for a typed cut list).</summary>
public sealed record HandoutStep(SewingStep Step, string Drawing);

/// <summary>A fabric that lies in the bag uncut, and how its student cuts it.</summary>
/// <param name="Letters">Letters of the block that it is for.</param>
/// <param name="Fabric">Its name.</param>
/// <param name="Thing">What lies in the bag, and the pieces that come of it.</param>
/// <param name="Recipes">A drawing (SVG) for each way of cutting it, with how many are cut so.</param>
public sealed record HandoutCutting(string Letters, string Fabric, HandedOut Thing, IReadOnlyList<(string Svg, int Repeat)> Recipes);

/// <summary>All that one student's handout says.</summary>
public sealed record Handout
{
    /// <summary>Whose it is.</summary>
    public required PlannedKit Kit { get; init; }

    /// <summary>The name of its colourway, or null where none is chosen.</summary>
    public string? Colourway { get; init; }

    /// <summary>The student's own fabrics, by letter.</summary>
    public required IReadOnlyList<HandoutFabric> Fabrics { get; init; }

    /// <summary>What the bag must hold.</summary>
    public required IReadOnlyList<KitLine> Lines { get; init; }

    /// <summary>What the student cuts before sewing; empty where everything lies in the bag as cut pieces.</summary>
    public IReadOnlyList<HandoutCutting> Cutting { get; init; } = [];

    /// <summary>The finished block in the student's fabrics, as SVG; null for a typed cut list.</summary>
    public string? Picture { get; init; }

    /// <summary>The block with pressing arrows, as SVG; null where there is no plan.</summary>
    public string? Pressing { get; init; }

    /// <summary>The pressing plan in words; empty where there is none.</summary>
    public IReadOnlyList<string> PressingLines { get; init; } = [];

    /// <summary>Sewing steps in order.</summary>
    public required IReadOnlyList<HandoutStep> Steps { get; init; }

    /// <summary>The QR code of the bag's own page.</summary>
    public QrSquare? Code { get; init; }

    /// <summary>The test of the seam allowance.</summary>
    public required SeamTest SeamTest { get; init; }

    /// <summary>Seams that cross the block from left to right; 0 where that is not known.</summary>
    public int SeamsAcross { get; init; }

    /// <summary>What a block of the wrong size says of its seams; empty where there are none.</summary>
    public IReadOnlyList<BlockMeasure> Measures { get; init; } = [];
}
