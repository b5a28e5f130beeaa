using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Cuts and sews pieced triangles: the triangles on the long side and the plain half. The whole units of the pieced half are
/// units of their own and made with those like them.
/// </summary>
internal static class PiecedTriangleMaking
{
    public static Making Of(UnitForm form, int count, CuttingRules rules)
    {
        var half = form.Half!;
        var plain = form.Letters[0]!;
        var side = CutSizes.HalfSquare(form.Width, rules);
        var triangles = half.Units.Where(unit => PiecedHalf.IsOnDiagonal(half, unit))
            .GroupBy(unit => (Letter: unit.Form.Letters[0]!, Side: CutSizes.HalfSquare(unit.Form.Width, rules)))
            .Select(group => new MadePiece(
                group.Key.Letter, group.Key.Side, group.Key.Side, Making.Squares(count * group.Count(), 2), "triangles of pieced triangles, cut once corner to corner"))
            .ToList();
        var size = Sizes.Text(side, rules);
        var cut = triangles.Select(piece => piece.Count == 1
            ? (Sentence)$"the {Sizes.Text(piece.Width, rules)} square of {piece.Letter}"
            : $"the {Sizes.Text(piece.Width, rules)} squares of {piece.Letter}");
        Sentence large = count > 2 ? (Sentence)$"the {size} squares of {plain}" : $"the {size} square of {plain}";
        var one = count == 1 ? (Sentence)"the pieced half" : "each pieced half";
        return new(
            [.. triangles, new(plain, side, side, Making.Squares(count, 2), "plain halves of pieced triangles, cut once corner to corner")],
            0,
            triangles.Any(piece => piece.Count * 2 > count * TrianglesOf(half, piece, rules)) || count % 2 == 1 ? (Sentence)"Triangles are left over, because squares are cut whole." : null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)}: cut {Making.List(cut)} once corner to corner, and {large} too. "
            + $"Sew {one} from the inmost brackets outward, {PiecedHalf.Sewing(half)}, and press. "
            + $"Sew its long side to a triangle of {plain}; the long sides are on the bias, so do not stretch them. Press, and trim to {Sizes.Text(form.Width + (rules.SeamAllowance * 2), rules)}.");
    }

    private static int TrianglesOf(PlacedBlock half, MadePiece piece, CuttingRules rules) => half.Units.Count(unit =>
        PiecedHalf.IsOnDiagonal(half, unit) && unit.Form.Letters[0] == piece.Letter && CutSizes.HalfSquare(unit.Form.Width, rules) == piece.Width);
}
