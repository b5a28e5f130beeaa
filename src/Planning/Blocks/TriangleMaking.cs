using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Makes half-square and quarter-square triangles.</summary>
internal static class TriangleMaking
{
    public static Making HalfSquares(UnitForm form, int count, CuttingRules rules)
    {
        var (one, other) = (form.Letters[0]!, form.Letters[2]!);
        var method = rules.Methods.HalfSquareTriangle;
        var exact = CutSizes.HalfSquare(form.Width, rules);
        var pair = rules.Methods.Trim == TrimMethod.Exact ? exact : CutSizes.HalfSquareOversize(form.Width, rules);
        (Length side, int made, Sentence use) = method switch
        {
            HalfSquareMethod.TwoAtATime => (pair, 2, (Sentence)"half-square triangles, two at a time"),
            HalfSquareMethod.EightAtATime => (pair * 2, 8, (Sentence)"half-square triangles, eight at a time"),
            _ => (exact, 2, (Sentence)"half-square triangles, cut once corner to corner"),
        };
        var squares = Making.Squares(count, made);
        var seam = Sizes.Text(rules.SeamAllowance, rules);
        var trim = Sizes.Text(form.Width + (rules.SeamAllowance * 2), rules);
        var size = Sizes.Text(side, rules);
        Sentence what = $"{count} {UnitKinds.InWords(UnitKind.HalfSquareTriangle, count)} of {one} and {other}";
        Sentence text = method switch
        {
            HalfSquareMethod.TwoAtATime =>
                (Sentence)$"Sew {what}, two at a time: lay a {size} square of {one} on one of {other}, right sides together, sew {seam} from a diagonal on both sides, cut on the diagonal and press. Trim to {trim}.",
            HalfSquareMethod.EightAtATime =>
                $"Sew {what}, eight at a time: lay a {size} square of {one} on one of {other}, right sides together, sew {seam} from both diagonals on both sides, cut in half each way and on the diagonals, and press. Trim to {trim}.",
            _ => $"Sew {what}: cut the {size} squares once corner to corner, sew the triangles in pairs along the long side and press. Trim to {trim}.",
        };
        return new(
            [
                new(one, side, side, squares, use),
                new(other, side, side, squares, use),
            ],
            (squares * made) - count,
            null,
            text);
    }

    public static Making QuarterSquares(UnitForm form, int count, CuttingRules rules)
    {
        var letters = form.Letters.Select(letter => letter!).ToList();
        var alike = letters[0] == letters[2] && letters[1] == letters[3];
        var wanted = rules.Methods.QuarterSquareTriangle == QuarterSquareMethod.TwoAtATime;
        var side = rules.Methods.Trim == TrimMethod.Exact
            ? CutSizes.QuarterSquare(form.Width, rules)
            : CutSizes.QuarterSquareOversize(form.Width, rules);
        return wanted && alike
            ? QuarterSquaresByTwo(form, count, side, rules)
            : QuarterSquaresCut(form, letters, count, side, rules, wanted ? (Sentence)"Opposite triangles differ, so the triangles are cut and sewn one by one." : null);
    }

    private static Making QuarterSquaresByTwo(UnitForm form, int count, Length side, CuttingRules rules)
    {
        Sentence use = "quarter-square triangles, two at a time";
        var (one, other) = (form.Letters[0]!, form.Letters[1]!);
        var squares = Making.Squares(count, 2);
        var seam = Sizes.Text(rules.SeamAllowance, rules);
        return new(
            [new(one, side, side, squares, use), new(other, side, side, squares, use)],
            (squares * 2) - count,
            null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)} of {one} and {other}, two at a time: lay a {Sizes.Text(side, rules)} square of {one} on one of {other}, sew {seam} from a diagonal on both sides, cut on it and press. "
            + $"Lay the two halves on each other, {one} on {other}, sew {seam} from the other diagonal on both sides, cut on it and press. Trim to {Sizes.Text(form.Width + (rules.SeamAllowance * 2), rules)}.");
    }

    private static Making QuarterSquaresCut(UnitForm form, List<string> letters, int count, Length side, CuttingRules rules, Sentence? note)
    {
        var parts = QuarterSquareParts.Of(letters);
        var half = rules.Methods.Trim == TrimMethod.Exact
            ? CutSizes.HalfSquare(form.Width, rules)
            : CutSizes.HalfSquareOversize(form.Width, rules);
        var pieces = new List<MadePiece>();
        var made = int.MaxValue;
        foreach (var group in parts.GroupBy(part => (part.Letter, part.IsHalf)))
        {
            var perSquare = group.Key.IsHalf ? 2 : 4;
            var squares = Making.Squares(count * group.Count(), perSquare);
            made = Math.Min(made, squares * perSquare / group.Count());
            pieces.Add(group.Key.IsHalf
                ? new(group.Key.Letter, half, half, squares, "quarter-square triangles, cut once corner to corner")
                : new(group.Key.Letter, side, side, squares, "quarter-square triangles, cut twice corner to corner"));
        }

        if (parts.Any(part => part.IsHalf))
        {
            Sentence joined = "Neighbouring triangles of one fabric are cut as one larger triangle.";
            note = note is null ? joined : Sentence.Join(" ", [note, joined]);
        }

        return new(
            pieces,
            made - count,
            note,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)} of {Making.List(letters.Distinct())}: cut the squares corner to corner, sew the triangles in pairs, press, and sew the pairs together. Trim to {Sizes.Text(form.Width + (rules.SeamAllowance * 2), rules)}.");
    }
}

/// <summary>One triangle of a quarter-square unit: a quarter, or a half where two neighbours are of one fabric.</summary>
/// <param name="First">Its first side: 0 top, 1 right, 2 bottom, 3 left; a half goes on to the next side clockwise.</param>
internal sealed record QuarterSquareParts(string Letter, int First, bool IsHalf)
{
    /// <summary>The triangles clockwise: nobody sews two neighbours of one fabric together.</summary>
    public static IReadOnlyList<QuarterSquareParts> Of(IReadOnlyList<string> letters)
    {
        // Opposite triangles alike (an hourglass) never have equal neighbours unless all four are equal.
        var start = Enumerable.Range(0, 4).FirstOrDefault(side => letters[side] == letters[(side + 1) % 4], -1);
        if (start < 0)
        {
            return [.. letters.Select((letter, side) => new QuarterSquareParts(letter, side, IsHalf: false))];
        }

        var (third, fourth) = ((start + 2) % 4, (start + 3) % 4);
        var half = new QuarterSquareParts(letters[start], start, IsHalf: true);
        return letters[third] == letters[fourth]
            ? [half, new(letters[third], third, IsHalf: true)]
            : [half, new(letters[third], third, IsHalf: false), new(letters[fourth], fourth, IsHalf: false)];
    }
}
