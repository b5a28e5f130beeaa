namespace KittingBee.Planning.Blocks;

/// <summary>Makes flying geese.</summary>
internal static class GeeseMaking
{
    public static Making Geese(UnitForm form, int count, CuttingRules rules)
    {
        var (goose, left, right) = (form.Letters[0]!, form.Letters[1]!, form.Letters[2]!);
        var wantsFour = rules.Methods.FlyingGeese == GeeseMethod.FourAtATime;
        if (wantsFour && left == right)
        {
            return FourAtATime(form, goose, left, count, rules);
        }

        Sentence sky = "skies of flying geese, flipped corners";
        var width = CutSizes.Patch(form.Width, rules);
        var height = CutSizes.Patch(form.Height, rules);
        return new(
            [
                new(goose, width, height, count, "geese of flying geese"),
                new(left, height, height, count, sky),
                new(right, height, height, count, sky),
            ],
            0,
            wantsFour ? (Sentence)"The two skies differ, so the corners are flipped one by one." : null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)}: lay a {Sizes.Text(height, rules)} square of {left} on the left end of a {Sizes.Text(width, height, rules)} rectangle of {goose}, right sides together, and sew it corner to corner, from lower left to top middle. Trim {Sizes.Text(rules.SeamAllowance, rules)} outside the seam and press. Do the same on the right with {right}. {TrimText(form, rules)}");
    }

    private static Making FourAtATime(UnitForm form, string goose, string sky, int count, CuttingRules rules)
    {
        var large = CutSizes.QuarterSquare(form.Width, rules);
        var small = CutSizes.HalfSquare(form.Height, rules);
        var sets = Making.Squares(count, 4);
        var seam = Sizes.Text(rules.SeamAllowance, rules);
        return new(
            [
                new(goose, large, large, sets, "geese of flying geese, four at a time"),
                new(sky, small, small, sets * 4, "skies of flying geese, four at a time"),
            ],
            (sets * 4) - count,
            null,
            $"Sew {count} {UnitKinds.InWords(form.Kind, count)} of {goose} with {sky}, four at a time: lay two {Sizes.Text(small, rules)} squares of {sky} on opposite corners of a {Sizes.Text(large, rules)} square of {goose}, right sides together, sew {seam} from the diagonal on both sides, cut on it and press. "
            + $"Lay one more small square on the free corner of each half, sew {seam} from its diagonal on both sides, cut on it and press. {TrimText(form, rules)}");
    }

    private static Sentence TrimText(UnitForm form, CuttingRules rules)
    {
        var both = rules.SeamAllowance * 2;
        return $"Trim to {Sizes.Text(form.Width + both, form.Height + both, rules)}, {Sizes.Text(rules.SeamAllowance, rules)} above the point.";
    }
}
