using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Cuts plain patches and templates; makes rails and checkerboards from patches or from strip sets.</summary>
internal static class PatchMaking
{
    public static Making Plain(UnitForm form, int count, CuttingRules rules) => new(
        [new(form.Letters[0]!, CutSizes.Patch(form.Width, rules), CutSizes.Patch(form.Height, rules), count, "plain patches")], 0, null, null);

    public static Making Template(UnitForm form, int count) => new(
        [new(form.Letters[0]!, form.CutWidth, form.CutHeight, form.Count * count, "template shapes")], 0, null, null);

    public static Making Rails(UnitForm form, int count, CuttingRules rules)
    {
        var letters = form.Letters.Select(letter => letter!).ToList();
        Sentence what = $"Sew {count} {UnitKinds.InWords(form.Kind, count)} of {Making.List(letters.Distinct())}";
        if (rules.Methods.Rails == PatchMethod.StripPieced)
        {
            var sets = StripSets.For(letters, form.Widths, CutSizes.Patch(form.Width, rules), count, "rails, strip-pieced", rules);
            return new(sets.Pieces, 0, null, $"{what}: {sets.Text(string.Join(", ", letters))} Each unit is one segment.");
        }

        var length = CutSizes.Patch(form.Width, rules);
        return new(
            [.. letters.Select((letter, bar) => new MadePiece(letter, length, CutSizes.Patch(form.Widths[bar], rules), count, "rails"))],
            0,
            null,
            $"{what}: sew the bars along their long sides in the order {string.Join(", ", letters)}, and press.");
    }

    public static Making Checkerboard(UnitForm form, int count, CuttingRules rules)
    {
        var width = form.Width.DivideRoundingUp(form.PatchColumns);
        var height = form.Height.DivideRoundingUp(form.PatchRows);
        var rows = form.Letters.Select(letter => letter!).Chunk(form.PatchColumns).ToList();
        Sentence shape = $"{form.PatchColumns} × {form.PatchRows} patches of {Making.List(form.Letters.Select(letter => letter!).Distinct())}";
        Sentence what = $"Sew {count} {UnitKinds.InWords(form.Kind, count)}, {shape}";
        if (rules.Methods.Checkerboard == PatchMethod.StripPieced)
        {
            return StripPiecedBoard(rows, width, height, count, what, rules);
        }

        return new(
            [.. form.Letters.GroupBy(letter => letter!).Select(group => new MadePiece(
                group.Key, CutSizes.Patch(width, rules), CutSizes.Patch(height, rules), count * group.Count(), "checkerboards"))],
            0,
            null,
            $"{what}: sew the patches into rows, press each row the other way than the last, and sew the rows together: {string.Join("; ", rows.Select(row => string.Join(' ', row)))}.");
    }

    private static Making StripPiecedBoard(List<string[]> rows, Length width, Length height, int count, Sentence what, CuttingRules rules)
    {
        // A segment turned end for end is the mirrored row, so both are cut from one strip set.
        var patterns = rows.GroupBy(row =>
        {
            var there = string.Join(',', row);
            var back = string.Join(',', row.Reverse());
            return string.CompareOrdinal(there, back) <= 0 ? there : back;
        });
        var pieces = new List<MadePiece>();
        var texts = new List<Sentence>();
        foreach (var pattern in patterns)
        {
            var letters = pattern.Key.Split(',');
            var sets = StripSets.For(letters, [.. letters.Select(_ => width)], CutSizes.Patch(height, rules), count * pattern.Count(), "checkerboards, strip-pieced", rules);
            pieces.AddRange(sets.Pieces);
            texts.Add(sets.Text(string.Join(", ", letters)));
        }

        return new(pieces, 0, null, $"{what}: {Sentence.Join(" ", texts)} Sew the segments together: {string.Join("; ", rows.Select(row => string.Join(' ', row)))}.");
    }
}
