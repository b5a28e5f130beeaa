namespace KittingBee.Planning.Blocks;

/// <summary>Which way a seam is pressed.</summary>
public enum PressTo
{
    /// <summary>Both allowances to the left.</summary>
    Left,

    /// <summary>Both allowances to the right.</summary>
    Right,

    /// <summary>Both allowances up.</summary>
    Up,

    /// <summary>Both allowances down.</summary>
    Down,

    /// <summary>Parted, because too many layers meet.</summary>
    Open,
}

/// <summary>One seam between two parts of the assembly.</summary>
/// <param name="Join">Index of the join it belongs to, in <see cref="PressingPlan.Joins"/>.</param>
/// <param name="IsUpright">True for a seam that runs up and down.</param>
/// <param name="Line">The grid line it lies on: the number of columns to its left, or of rows above it.</param>
/// <param name="From">Grid line of its first end: row for an upright seam, column for a level one.</param>
/// <param name="To">Grid line of its other end.</param>
/// <param name="Press">Which way it is pressed.</param>
public sealed record PressedSeam(int Join, bool IsUpright, int Line, int From, int To, PressTo Press);

/// <summary>One seam inside a unit.</summary>
/// <param name="Unit">The unit's number in the block, from 1.</param>
/// <param name="Kind">What the unit is.</param>
/// <param name="Row">Topmost row of the unit, from 0.</param>
/// <param name="Column">Leftmost column of the unit, from 0.</param>
/// <param name="From">One end, from the block's upper left corner, finished size.</param>
/// <param name="To">The other end.</param>
/// <param name="ToRight">Pressed to the right-hand side, seen from one end to the other; else to the left.</param>
/// <param name="Toward">The fabric that it is pressed toward.</param>
/// <param name="IsFixed">True where the unit is made so that it can be pressed one way only: flipped corners and skies go outward.</param>
public sealed record PressedUnitSeam(int Unit, UnitKind Kind, int Row, int Column, PatchPoint From, PatchPoint To, bool ToRight, string Toward, bool IsFixed);

/// <summary>
/// How the seams of a block are pressed: so that as many crossings as possible nest, then so that as few joints as possible are
/// pressed toward pieced units, then so that as many rows as possible are pressed one way. A crossing is a place where seams end
/// on both sides of the seam sewn across them, seams inside units included; it nests when all on one side lie one way there and
/// all on the other side the other. Seams inside nested blocks and pieced halves are not part of it, nor is the way of a partial seam.
/// </summary>
/// <param name="Joins">The joined pieces in sewing order.</param>
/// <param name="Seams">Every straight seam between parts.</param>
/// <param name="Crossings">Places where seams end on both sides of a seam.</param>
/// <param name="Nested">How many of the crossings nest.</param>
/// <param name="TowardPieced">Seams pressed toward a side with a pieced unit on it.</param>
/// <param name="Rows">Joins with two seams or more that are pressed to a side.</param>
/// <param name="RowsOneWay">How many of these are pressed all one way.</param>
/// <param name="UnitSeams">The seams inside units.</param>
/// <param name="IsProved">True where it is proved that no plan is better; a very large block may be more than the work limit takes.</param>
public sealed record PressingPlan(
    IReadOnlyList<AssemblyPiece> Joins,
    IReadOnlyList<PressedSeam> Seams,
    int Crossings,
    int Nested,
    int TowardPieced,
    int Rows,
    int RowsOneWay,
    IReadOnlyList<PressedUnitSeam> UnitSeams,
    bool IsProved)
{
    /// <summary>
    /// The plan for a block that <see cref="BlockChecks"/> has found good; nested blocks count as units and have plans of
    /// their own. Throws <see cref="ArgumentException"/> on a block that has problems.
    /// </summary>
    public static PressingPlan For(Block block) => PressingSearch.For(block, Assembly.For(block));

    /// <summary>A line of text for each kind of unit, then for each join, in sewing order: "Row 1, columns 1 to 3: press the seams to the left."</summary>
    public IReadOnlyList<Sentence> Lines() =>
    [
        .. PressingWords.OfUnits(UnitSeams),
        .. Joins.Select((join, index) =>
        {
            var seams = Seams.Where(seam => seam.Join == index).ToList();
            Sentence place = $"{RowSpan(join.Row, join.RowSpan)}, {ColumnSpan(join.Column, join.ColumnSpan)}";
            if (join.Join == JoinKind.PartialSeam)
            {
                return (Sentence)$"{place}: press the seams away from the middle.";
            }

            var ways = Sentence.Join(", ", seams.Select(seam => InWords(seam.Press)));
            return seams.Select(seam => seam.Press).Distinct().Count() == 1 ? (Sentence)$"{place}: press {Counted(seams.Count)} {InWords(seams[0].Press)}."
                : join.Join == JoinKind.SideBySide ? (Sentence)$"{place}: press the seams, from left to right: {ways}."
                : $"{place}: press the seams, from top to bottom: {ways}.";
        }),
    ];

    private static Sentence Counted(int seams) => seams switch
    {
        1 => (Sentence)"the seam",
        2 => "both seams",
        _ => $"all {seams} seams",
    };

    private static Sentence RowSpan(int start, int count) => count == 1 ? (Sentence)$"Row {start + 1}" : $"Rows {start + 1} to {start + count}";

    private static Sentence ColumnSpan(int start, int count) => count == 1 ? (Sentence)$"column {start + 1}" : $"columns {start + 1} to {start + count}";

    private static Sentence InWords(PressTo press) => press switch
    {
        PressTo.Left => (Sentence)"to the left",
        PressTo.Right => "to the right",
        PressTo.Up => "up",
        PressTo.Down => "down",
        _ => "open",
    };
}
