using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Labels;

/// <summary>A sheet of labels by its geometry: how many, how large, and where they lie from the paper's upper left corner.</summary>
/// <param name="Key">Short name in addresses.</param>
/// <param name="Name">What the list calls it.</param>
/// <param name="PaperA4">A4 in place of Letter.</param>
/// <param name="Columns">Labels across.</param>
/// <param name="Rows">Labels down.</param>
/// <param name="Width">Width of one label.</param>
/// <param name="Height">Height of one label.</param>
/// <param name="Left">From the paper's left edge to the first label.</param>
/// <param name="Top">From the paper's upper edge to the first label.</param>
/// <param name="PitchAcross">From the left edge of one label to that of the next.</param>
/// <param name="PitchDown">From the upper edge of one label to that of the next.</param>
public sealed record LabelSheet(
    string Key, string Name, bool PaperA4, int Columns, int Rows, Length Width, Length Height, Length Left, Length Top, Length PitchAcross, Length PitchDown)
{
    /// <summary>
    /// Sheets in common use. The 3 × 10 on Letter is the generic 30-up address sheet of published templates; the others are
    /// common practice, no source, and the test sheet shows whether they fit.
    /// </summary>
    public static IReadOnlyList<LabelSheet> Usual =>
    [
        new("letter-2x5", Say("Letter, 2 × 5 labels of 4 × 2 in"), false, 2, 5, In(4), In(2), In(0.15625m), In(0.5m), In(4.1875m), In(2)),
        new("letter-3x10", Say("Letter, 3 × 10 labels of 2⅝ × 1 in"), false, 3, 10, In(2.625m), In(1), In(0.1875m), In(0.5m), In(2.75m), In(1)),
        new("letter-cut", Say("Letter, plain paper to cut apart, 2 × 5"), false, 2, 5, In(3.6m), In(1.9m), In(0.65m), In(0.6m), In(3.6m), In(1.9m)),
        new("a4-2x7", Say("A4, 2 × 7 labels of 99.1 × 38.1 mm"), true, 2, 7, Mm(99.1m), Mm(38.1m), Mm(4.65m), Mm(15.15m), Mm(101.6m), Mm(38.1m)),
        new("a4-3x7", Say("A4, 3 × 7 labels of 63.5 × 38.1 mm"), true, 3, 7, Mm(63.5m), Mm(38.1m), Mm(7.25m), Mm(15.15m), Mm(66m), Mm(38.1m)),
        new("a4-cut", Say("A4, plain paper to cut apart, 2 × 5"), true, 2, 5, Mm(89), Mm(52), Mm(16), Mm(15), Mm(89), Mm(52)),
    ];

    /// <summary>Plain paper, for labels that are cut apart; they lie within the margins of the other papers (paper-letter.css, paper-a4.css).</summary>
    public static LabelSheet ToCut(bool a4) => Usual.Single(sheet => sheet.PaperA4 == a4 && sheet.Key.EndsWith("-cut", StringComparison.Ordinal));

    /// <summary>Labels on one sheet.</summary>
    public int Count => Columns * Rows;

    /// <summary>Width of the paper: 8½ in, or 210 mm by ISO 216.</summary>
    public Length PaperWidth => PaperA4 ? Mm(210) : In(8.5m);

    /// <summary>Height of the paper: 11 in, or 297 mm by ISO 216.</summary>
    public Length PaperHeight => PaperA4 ? Mm(297) : In(11);

    /// <summary>Upper left corner of a label, counted from 0 along the rows.</summary>
    public (Length X, Length Y) Place(int index) => (Left + (index % Columns * PitchAcross), Top + (index / Columns * PitchDown));

    /// <summary>What of the geometry does not fit the paper, in sentences; empty for a sheet that can be printed.</summary>
    public IEnumerable<string> Misfits()
    {
        var (x, y) = Place(Count - 1);
        if (Columns > 1 && PitchAcross < Width)
        {
            yield return Say("The labels overlap across: the pitch goes from the left edge of one label to the left edge of the next, so it is at least a label's width.");
        }

        if (Rows > 1 && PitchDown < Height)
        {
            yield return Say("The labels overlap down: the pitch goes from the top of one label to the top of the next, so it is at least a label's height.");
        }

        if (x + Width > PaperWidth)
        {
            yield return Say("The labels are wider together than the paper: check the number across, the left margin and the pitch.");
        }

        if (y + Height > PaperHeight)
        {
            yield return Say("The labels are taller together than the paper: check the number down, the top margin and the pitch.");
        }
    }

    private static Length In(decimal inches) => Length.FromInches(inches);

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);
}
