using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Pieces of one size in a stack.</summary>
/// <param name="Piece">Index into the request's pieces.</param>
/// <param name="Width">Cut width as it lies (across the strip).</param>
/// <param name="Height">Cut height as it lies (up the strip).</param>
/// <param name="Turned">True when it lies turned by a quarter.</param>
/// <param name="Count">How many stand on each other in this column.</param>
public sealed record StackedPiece(int Piece, Length Width, Length Height, bool Turned, int Count);

/// <summary>One sub-cut of a strip: cross-cut into the stack of pieces.</summary>
/// <param name="Width">Width of the sub-cut.</param>
/// <param name="Repeat">How many such columns stand side by side.</param>
/// <param name="Pieces">The stack, from the foot of the strip up.</param>
public sealed record Column(Length Width, int Repeat, IReadOnlyList<StackedPiece> Pieces);

/// <summary>A recipe: one way to sub-cut a strip, and how many strips are cut so.</summary>
/// <param name="Height">Height of the strip.</param>
/// <param name="Repeat">How many strips are cut by this recipe.</param>
/// <param name="Columns">Left to right.</param>
public sealed record Strip(Length Height, int Repeat, IReadOnlyList<Column> Columns);

/// <summary>A recipe for a sheet, and how many sheets are cut so.</summary>
/// <param name="Sheet">Index into the stock's sheets.</param>
/// <param name="Name">The sheet's name.</param>
/// <param name="Repeat">How many sheets are cut by this recipe.</param>
/// <param name="Lengthwise">False: strips run across the sheet's width, as on a bolt. True: strips run along its length, so a
/// strip's height lies across the sheet's width and a column's width along its length; <see cref="StackedPiece.Turned"/> still
/// tells how the piece lies against the grain (a piece's own width lies across the bolt unless it is turned).</param>
/// <param name="Strips">Bottom to top.</param>
public sealed record SheetRecipe(int Sheet, Sentence Name, int Repeat, bool Lengthwise, IReadOnlyList<Strip> Strips);

/// <summary>Pieces that a plan gives beyond what was asked.</summary>
public sealed record Surplus(int Piece, int Count);

/// <summary>What has to be bought: a length of the bolt and numbers of sheets.</summary>
/// <param name="Length">Bolt length bought, in shop increments.</param>
/// <param name="Cost">Money for bolt and sheets together, rounded to the cent.</param>
public sealed record Purchase(Length Length, decimal Cost);

/// <summary>How good the plan is known to be.</summary>
public enum PlanStatus
{
    /// <summary>No plan of this kind costs less.</summary>
    ProvedBest,

    /// <summary>A good plan with a gap to the floor.</summary>
    Good,

    /// <summary>The clock cut the search short; the plan is valid.</summary>
    CutShort,
}

/// <summary>A cutting plan for one fabric, proved by <see cref="PlanChecker"/>.</summary>
public sealed record CuttingPlan
{
    /// <summary>Washed and squared length of bolt that the strips take together.</summary>
    public required Length Length { get; init; }

    /// <summary>
    /// The length of bolt under which no plan of this kind can go, as washed and squared; beside sheets, no plan with all of
    /// the shelf's sheets and as many of the bought ones as this plan has.
    /// </summary>
    public required Length Floor { get; init; }

    /// <summary>What is bought for it.</summary>
    public required Purchase Buy { get; init; }

    /// <summary>The comparison: each size its own strips, in length bought and money.</summary>
    public required Purchase OneSizePerStrip { get; init; }

    /// <summary>Strips from the bolt in cut order.</summary>
    public required IReadOnlyList<Strip> Strips { get; init; }

    /// <summary>Sheets used, in cut order.</summary>
    public required IReadOnlyList<SheetRecipe> Sheets { get; init; }

    /// <summary>Pieces beyond what was asked.</summary>
    public required IReadOnlyList<Surplus> Surplus { get; init; }

    /// <summary>Strokes of the cutter, several layers at once counted once.</summary>
    public required int Strokes { get; init; }

    /// <summary>How good the plan is known to be.</summary>
    public required PlanStatus Status { get; init; }

    /// <summary>(cost or length − floor) as a share of the floor, for plan and floor as washed lengths; 0 when proved.</summary>
    public required decimal Gap { get; init; }
}

/// <summary>A plan, or the reasons why there is none. Exactly one of the two is given.</summary>
/// <param name="Plan">The plan, or null.</param>
/// <param name="Problems">What is wrong, each naming the field; empty when there is a plan.</param>
public sealed record CuttingResult(CuttingPlan? Plan, IReadOnlyList<Problem> Problems);
