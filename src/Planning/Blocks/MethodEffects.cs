using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>What one method of making one kind of unit takes, for one kit.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Methods">The class's methods with this one chosen.</param>
/// <param name="Name">In words: "eight at a time, oversize".</param>
/// <param name="IsChosen">True for the method that the rules ask for.</param>
/// <param name="Pieces">What is cut, a line each: "A: 4 squares 4″".</param>
/// <param name="PieceCount">How many pieces are cut.</param>
/// <param name="SquareInches">Cloth in these pieces.</param>
/// <param name="HiddenShare">Share of that cloth that does not show in the finished units: seams, trimmings, units left over; 0 to 1.</param>
/// <param name="LeftOver">Units made beyond the need.</param>
/// <param name="Note">Why the method cannot be used throughout, or null.</param>
public sealed record MethodEffect(
    UnitKind Kind,
    Methods Methods,
    Sentence Name,
    bool IsChosen,
    IReadOnlyList<Sentence> Pieces,
    int PieceCount,
    decimal SquareInches,
    decimal HiddenShare,
    int LeftOver,
    Sentence? Note);

/// <summary>Compares the methods by which the units of a block can be made.</summary>
public static class MethodEffects
{
    /// <summary>
    /// A line for each method of each kind that the block has and that can be made in more than one way. Throws
    /// <see cref="ArgumentException"/> on a block that has problems.
    /// </summary>
    public static IReadOnlyList<MethodEffect> For(Block block, CuttingRules rules)
    {
        if (BlockChecks.Check(block) is [var problem, ..])
        {
            throw new ArgumentException(problem.Message, nameof(block));
        }

        var placed = PlacedBlock.Of(block);
        return
        [
            .. placed.Leaves().Select(form => form.Kind).Distinct().Order().SelectMany(kind =>
                Ways(kind, rules.Methods).Select(way => Effect(placed, kind, way.Name, way.Methods, rules))),
        ];
    }

    private static MethodEffect Effect(PlacedBlock block, UnitKind kind, Sentence name, Methods methods, CuttingRules rules)
    {
        var chosen = rules with { Methods = methods };
        var groups = UnitGroup.Of(block, chosen).Where(group => group.Form.Kind == kind).ToList();
        var pieces = groups.SelectMany(group => group.Making.Pieces).ToList();
        var area = pieces.Sum(piece => piece.Width.Inches * piece.Height.Inches * piece.Count);
        var shown = groups.Sum(group => group.Form.Width.Inches * group.Form.Height.Inches * group.Count);
        return new(
            kind,
            methods,
            name,
            methods == rules.Methods,
            [
                .. pieces.GroupBy(piece => (piece.Letter, piece.Width, piece.Height)).OrderBy(group => group.Key.Letter, StringComparer.Ordinal)
                    .Select(group => (Sentence)$"{group.Key.Letter}: {group.Sum(piece => piece.Count)} @ {Sizes.Text(group.Key.Width, group.Key.Height, rules)}"),
            ],
            pieces.Sum(piece => piece.Count),
            decimal.Round(area, 2, MidpointRounding.AwayFromZero),
            decimal.Round(1 - (shown / area), 3, MidpointRounding.AwayFromZero),
            groups.Sum(group => group.Making.LeftOver),
            groups.Select(group => group.Making.Note).FirstOrDefault(note => note is not null));
    }

    private static IEnumerable<(Sentence Name, Methods Methods)> Ways(UnitKind kind, Methods methods) => kind switch
    {
        UnitKind.HalfSquareTriangle =>
        [
            .. Trims("two at a time", methods with { HalfSquareTriangle = HalfSquareMethod.TwoAtATime }),
            .. Trims("eight at a time", methods with { HalfSquareTriangle = HalfSquareMethod.EightAtATime }),
            ("triangles cut once", methods with { HalfSquareTriangle = HalfSquareMethod.CutTriangles }),
        ],
        UnitKind.QuarterSquareTriangle =>
        [
            .. Trims("two at a time", methods with { QuarterSquareTriangle = QuarterSquareMethod.TwoAtATime }),
            .. Trims("triangles cut twice", methods with { QuarterSquareTriangle = QuarterSquareMethod.CutTriangles }),
        ],
        UnitKind.FlyingGeese =>
        [
            ("flipped corners", methods with { FlyingGeese = GeeseMethod.FlipCorners }),
            ("four at a time", methods with { FlyingGeese = GeeseMethod.FourAtATime }),
        ],
        UnitKind.SquareInASquare =>
        [
            ("flipped corners", methods with { SquareInASquare = SquareInASquareMethod.FlipCorners }),
            ("triangles cut once", methods with { SquareInASquare = SquareInASquareMethod.CutTriangles }),
        ],
        UnitKind.Rails =>
        [
            ("patches", methods with { Rails = PatchMethod.Patches }),
            ("strip-pieced", methods with { Rails = PatchMethod.StripPieced }),
        ],
        UnitKind.Checkerboard =>
        [
            ("patches", methods with { Checkerboard = PatchMethod.Patches }),
            ("strip-pieced", methods with { Checkerboard = PatchMethod.StripPieced }),
        ],
        _ => [],
    };

    private static IEnumerable<(Sentence, Methods)> Trims(Sentence name, Methods methods) =>
    [
        ($"{name}, exact", methods with { Trim = TrimMethod.Exact }),
        ($"{name}, oversize", methods with { Trim = TrimMethod.Oversize }),
    ];
}
