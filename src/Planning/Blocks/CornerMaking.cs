using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Makes patches with stitch-and-flip corners, and squares in a square.</summary>
internal static class CornerMaking
{
    public static Making FlippedCorners(UnitForm form, int count, CuttingRules rules)
    {
        var width = CutSizes.Patch(form.Width, rules);
        var height = CutSizes.Patch(form.Height, rules);
        var corner = CutSizes.Patch(form.Corner, rules);
        var corners = form.Letters.Skip(1).OfType<string>().ToList();
        return new(
            [
                new(form.Letters[0]!, width, height, count, "patches with flipped corners"),
                .. Corners(corners, corner, count, "flipped corners"),
            ],
            0,
            null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)}: on a {Sizes.Text(width, height, rules)} patch of {form.Letters[0]} {FlipText(corners, corner, rules)}");
    }

    public static Making SquareInASquare(UnitForm form, int count, CuttingRules rules)
    {
        var corners = form.Letters.Skip(1).Select(letter => letter!).ToList();
        return rules.Methods.SquareInASquare == SquareInASquareMethod.FlipCorners
            ? SquareByFlipping(form, corners, count, rules)
            : SquareByTriangles(form, corners, count, rules);
    }

    private static Making SquareByFlipping(UnitForm form, List<string> corners, int count, CuttingRules rules)
    {
        var side = CutSizes.Patch(form.Width, rules);
        var corner = CutSizes.Patch(form.Width.DivideRoundingUp(2), rules);
        return new(
            [
                new(form.Letters[0]!, side, side, count, "middles of squares in a square"),
                .. Corners(corners, corner, count, "corners of squares in a square, flipped"),
            ],
            0,
            null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)}: on a {Sizes.Text(side, rules)} square of {form.Letters[0]} {FlipText(corners, corner, rules)}");
    }

    private static Making SquareByTriangles(UnitForm form, List<string> corners, int count, CuttingRules rules)
    {
        var centre = CutSizes.OnPointCentre(form.Width, rules);
        var corner = CutSizes.HalfSquare(form.Width.DivideRoundingUp(2), rules);
        var pieces = new List<MadePiece> { new(form.Letters[0]!, centre, centre, count, "middles of squares in a square") };
        var made = int.MaxValue;
        foreach (var group in corners.GroupBy(letter => letter))
        {
            var squares = Making.Squares(count * group.Count(), 2);
            made = Math.Min(made, squares * 2 / group.Count());
            pieces.Add(new(group.Key, corner, corner, squares, "corners of squares in a square, cut once corner to corner"));
        }

        // Centres are cut one for each unit, so triangles to spare make no further unit.
        return new(
            pieces,
            0,
            made > count ? (Sentence)"Triangles are left over, because squares are cut whole." : null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)}: cut the {Sizes.Text(corner, rules)} squares of {Making.List(corners.Distinct())} once corner to corner, sew triangles to two opposite sides of a {Sizes.Text(centre, rules)} square of {form.Letters[0]}, press, and sew triangles to the other two sides. Trim to {Sizes.Text(form.Width + (rules.SeamAllowance * 2), rules)}.");
    }

    private static IEnumerable<MadePiece> Corners(IEnumerable<string> corners, Length side, int count, Sentence use) =>
        corners.GroupBy(letter => letter).Select(group => new MadePiece(group.Key, side, side, count * group.Count(), use));

    private static Sentence FlipText(List<string> corners, Length side, CuttingRules rules)
    {
        var seam = Sizes.Text(rules.SeamAllowance, rules);
        var letters = Making.List(corners.Distinct());
        return corners.Count == 1
            ? (Sentence)$"lay a {Sizes.Text(side, rules)} square of {letters} in its corner, right sides together, sew it corner to corner, trim {seam} outside the seam and press the corner out."
            : $"lay {Sizes.Text(side, rules)} squares of {letters} in their corners, right sides together, sew each corner to corner, trim {seam} outside the seam and press the corner out; opposite corners first.";
    }
}
