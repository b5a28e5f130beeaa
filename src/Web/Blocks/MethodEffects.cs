using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Blocks;

/// <summary>What one way of making a kind of unit asks of the cloth.</summary>
/// <param name="Kind">The units.</param>
/// <param name="Method">The way, in words.</param>
/// <param name="Chosen">True for the way that the cut list on the page uses.</param>
/// <param name="Cut">Sizes to cut: "A 3⅞″ square × 2".</param>
/// <param name="ClothSquareInches">Area of all the pieces of one kit, of every kind.</param>
/// <param name="WasteShare">Share of that area that is not in the finished block, seam allowances and trimmings together.</param>
/// <param name="LeftOver">Units beyond the need.</param>
/// <param name="Note">Why the way could not be used throughout, or null.</param>
public sealed record MethodEffect(UnitKind Kind, string Method, bool Chosen, string Cut, decimal ClothSquareInches, decimal WasteShare, int LeftOver, string? Note);

/// <summary>Compares the ways to make each kind of unit in a block.</summary>
public static class MethodEffects
{
    /// <summary>Every way for every kind that the block has; empty for a block with problems.</summary>
    public static IReadOnlyList<MethodEffect> Of(Block block, CuttingRules rules, ClassHabits habits) =>
        CutLists.For(block, rules).CutList is null
            ? []
            : [.. BlockKinds.Of(block).SelectMany(kind => Ways(kind).Select(way => Effect(block, kind, way, rules, habits)).OfType<MethodEffect>())];

    private static MethodEffect? Effect(Block block, UnitKind kind, Way way, CuttingRules rules, ClassHabits habits)
    {
        var methods = way.Change(rules.Methods);
        if (CutLists.For(block, rules with { Methods = methods }).CutList is not { } list)
        {
            return null;
        }

        var cloth = list.Fabrics.SelectMany(fabric => fabric.Pieces).Sum(piece => piece.Width.Inches * piece.Height.Inches * piece.Count);
        var finished = Sum(block.Columns) * Sum(block.Rows) * rules.BlocksPerKit;
        var reports = list.Units.Where(unit => unit.Kind == kind).ToList();
        return new(
            kind,
            way.Words,
            methods == rules.Methods,
            Cut(list, kind, habits),
            cloth,
            cloth > 0 ? Math.Max(0, (cloth - finished) / cloth) : 0,
            reports.Sum(unit => unit.LeftOver),
            reports.Select(unit => unit.Note).FirstOrDefault(note => note is not null));
    }

    private static string Cut(CutList list, UnitKind kind, ClassHabits habits)
    {
        var pieces =
            from fabric in list.Fabrics
            from piece in fabric.Pieces
            where piece.Uses.Any(use => use.StartsWith(UnitKinds.InWords(kind, 2), StringComparison.Ordinal))
            select $"{fabric.Letter}: {piece.Count} @ {Size(piece, habits)}";
        return string.Join(", ", pieces);
    }

    private static string Size(KitPiece piece, ClassHabits habits) =>
        piece.Width == piece.Height ? $"{habits.Show(piece.Width)} square" : $"{habits.Show(piece.Width)} × {habits.Show(piece.Height)}";

    private static decimal Sum(IEnumerable<Length> sides) => sides.Sum(side => side.Inches);

    private static Way[] Ways(UnitKind kind) => kind switch
    {
        UnitKind.HalfSquareTriangle =>
        [
            new("two at a time, oversize", methods => methods with { HalfSquareTriangle = HalfSquareMethod.TwoAtATime, Trim = TrimMethod.Oversize }),
            new("two at a time, exact", methods => methods with { HalfSquareTriangle = HalfSquareMethod.TwoAtATime, Trim = TrimMethod.Exact }),
            new("eight at a time, oversize", methods => methods with { HalfSquareTriangle = HalfSquareMethod.EightAtATime, Trim = TrimMethod.Oversize }),
            new("eight at a time, exact", methods => methods with { HalfSquareTriangle = HalfSquareMethod.EightAtATime, Trim = TrimMethod.Exact }),
            new("cut triangles", methods => methods with { HalfSquareTriangle = HalfSquareMethod.CutTriangles }),
        ],
        UnitKind.QuarterSquareTriangle =>
        [
            new("two at a time, oversize", methods => methods with { QuarterSquareTriangle = QuarterSquareMethod.TwoAtATime, Trim = TrimMethod.Oversize }),
            new("two at a time, exact", methods => methods with { QuarterSquareTriangle = QuarterSquareMethod.TwoAtATime, Trim = TrimMethod.Exact }),
            new("cut triangles", methods => methods with { QuarterSquareTriangle = QuarterSquareMethod.CutTriangles }),
        ],
        UnitKind.FlyingGeese =>
        [
            new("flipped corners, one by one", methods => methods with { FlyingGeese = GeeseMethod.FlipCorners }),
            new("four at a time", methods => methods with { FlyingGeese = GeeseMethod.FourAtATime }),
        ],
        UnitKind.SquareInASquare =>
        [
            new("flipped corners", methods => methods with { SquareInASquare = SquareInASquareMethod.FlipCorners }),
            new("cut triangles", methods => methods with { SquareInASquare = SquareInASquareMethod.CutTriangles }),
        ],
        UnitKind.Rails =>
        [
            new("each bar cut alone", methods => methods with { Rails = PatchMethod.Patches }),
            new("strip-pieced", methods => methods with { Rails = PatchMethod.StripPieced }),
        ],
        UnitKind.Checkerboard =>
        [
            new("each patch cut alone", methods => methods with { Checkerboard = PatchMethod.Patches }),
            new("strip-pieced", methods => methods with { Checkerboard = PatchMethod.StripPieced }),
        ],
        _ => [],
    };

    private sealed record Way(string Words, Func<Methods, Methods> Change);
}
