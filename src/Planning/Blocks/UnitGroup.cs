using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>All units of a kit that are alike in kind, size and fabrics, however they are turned; made together.</summary>
/// <param name="Form">How one of them looks, in its canonical turn.</param>
/// <param name="Count">How many a kit needs.</param>
/// <param name="First">Where the first of them stands in the outermost block.</param>
internal sealed record UnitGroup(UnitForm Form, int Count, PlacedUnit First, Making Making)
{
    public static IReadOnlyList<UnitGroup> Of(PlacedBlock block, CuttingRules rules) =>
    [
        .. block.Units
            .SelectMany(unit => unit.Form.Leaves().Select(form => (Form: form.Canonical(), Unit: unit)))
            .GroupBy(leaf => leaf.Form.Key)
            .Select(group =>
            {
                var (form, first) = group.First();
                var count = group.Count() * rules.BlocksPerKit;
                return new UnitGroup(form, count, first, Making.Of(form, count, rules));
            }),
    ];

    /// <summary>Null for plain patches and templates that need no word: they are cut, not made.</summary>
    public UnitReport? Report(CuttingRules rules)
    {
        var both = rules.SeamAllowance * 2;
        var notes = new[] { Making.Note, RoundingNote(rules) }.OfType<Sentence>().ToList();
        return Form.Kind is UnitKind.Plain or UnitKind.Template && notes.Count == 0
            ? null
            : new(Form.Kind, Description(rules), Count, Form.Width + both, Form.Height + both, Making.LeftOver, notes.Count == 0 ? null : Sentence.Join(" ", notes));
    }

    /// <summary>"3″ half-square triangles of A and B".</summary>
    public Sentence Description(CuttingRules rules)
    {
        var size = Form.Width == Form.Height ? (Sentence)$"{Sizes.Text(Form.Width, rules)}" : Sizes.Text(Form.Width, Form.Height, rules);
        var letters = Form.Letters.Concat(Form.Half?.Leaves().SelectMany(leaf => leaf.Letters) ?? []).OfType<string>().Distinct();
        return $"{size} {UnitKinds.InWords(Form.Kind, Count)} of {Making.List(letters)}";
    }

    /// <summary>Straight pieces that do not fall on the cutting step are cut too large on purpose, and must be trimmed.</summary>
    private Sentence? RoundingNote(CuttingRules rules) =>
        StraightSides().Any(side => CutSizes.Patch(side, rules) > side + (rules.SeamAllowance * 2))
            ? (Sentence)$"Some pieces fall between two marks of the ruler; they are rounded up to the next {Sizes.Text(rules.CuttingStep, rules)}. Trim them as you sew."
            : null;

    private IEnumerable<Length> StraightSides() => Form.Kind switch
    {
        UnitKind.Plain => [Form.Width, Form.Height],
        UnitKind.FlyingGeese => [Form.Width, Form.Height],
        UnitKind.FlippedCorners => [Form.Width, Form.Height, Form.Corner],
        UnitKind.Rails => [Form.Width, .. Form.Widths],
        UnitKind.Checkerboard => [Form.Width.DivideRoundingUp(Form.PatchColumns), Form.Height.DivideRoundingUp(Form.PatchRows)],
        _ => [],
    };
}
