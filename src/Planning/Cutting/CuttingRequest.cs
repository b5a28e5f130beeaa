using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>A piece to cut: <paramref name="Width"/> lies across the bolt, <paramref name="Height"/> along it, unless it is turned.</summary>
/// <param name="Name">What the ticket calls it.</param>
/// <param name="Width">Cut size across the bolt.</param>
/// <param name="Height">Cut size along the bolt.</param>
/// <param name="Count">How many are needed; at least one.</param>
/// <param name="MayTurn">False for a piece that must keep its direction; a directional fabric turns none.</param>
public sealed record CutPiece(string Name, Length Width, Length Height, int Count, bool MayTurn = true);

/// <summary>Cloth by the length.</summary>
/// <param name="UsableWidth">Width between the selvages that can be cut, as measured.</param>
/// <param name="Increment">The shop sells whole multiples of this length.</param>
/// <param name="Minimum">The least length that the shop cuts.</param>
/// <param name="PricePerYard">Price of a yard of the whole width.</param>
/// <param name="Available">The longest length to be had, or null where there is as much as wanted.</param>
public sealed record BoltStock(Length UsableWidth, Length Increment, Length Minimum, decimal PricePerYard, Length? Available = null);

/// <summary>Flat pieces of cloth of one size: precuts, fat quarters, remnants.</summary>
/// <param name="Name">What the ticket calls it.</param>
/// <param name="Width">Size across (the direction of a bolt's width).</param>
/// <param name="Length">Size along (the direction of the selvage).</param>
/// <param name="Available">How many there are, or null where as many as wanted can be bought.</param>
/// <param name="Price">Price of one; zero for what is on the shelf already.</param>
/// <param name="PackSize">Bought in packs of this many.</param>
public sealed record SheetStock(Sentence Name, Length Width, Length Length, int? Available, decimal Price, int PackSize = 1);

/// <summary>All the cloth that one fabric's pieces may be cut from. Sheets with price zero are on the shelf and are used first.</summary>
/// <param name="Bolt">Cloth by the length, or null.</param>
/// <param name="Sheets">Flat pieces.</param>
/// <param name="ShrinkageAlong">Share lost along the bolt in washing before cutting, 0 to under 1; a length L cut from the bolt leaves L × (1 − p).</param>
/// <param name="ShrinkageAcross">Share lost across the width in washing, 0 to under 1.</param>
/// <param name="SquaringUp">Taken off the length of each bolt cut and off both sides of each sheet before anything is cut, to true the edges.</param>
public sealed record CuttingStock(
    BoltStock? Bolt,
    IReadOnlyList<SheetStock> Sheets,
    decimal ShrinkageAlong = 0m,
    decimal ShrinkageAcross = 0m,
    Length SquaringUp = default);

/// <summary>What the planner prefers among plans of the same cost.</summary>
public enum CuttingObjective
{
    /// <summary>Least cost, then least work at the table, then leftovers in one wide piece.</summary>
    LeastWork,

    /// <summary>Least length of cloth only.</summary>
    LeastLength,
}

/// <summary>One fabric's cutting problem.</summary>
/// <param name="Stock">The cloth.</param>
/// <param name="Pieces">What to cut.</param>
public sealed record CuttingRequest(CuttingStock Stock, IReadOnlyList<CutPiece> Pieces)
{
    /// <summary>True where the cloth has a direction, so that no piece may be turned.</summary>
    public bool Directional { get; init; }

    /// <summary>How many layers the cutter takes in one stroke; at least 1. Makers' instructions limit it.</summary>
    public int Layers { get; init; } = 4;

    /// <summary>The longest ruler: no strip is taller, save one that a taller piece has to itself. 24 in by default.</summary>
    public Length LongestStrip { get; init; } = Length.FromInches(24);

    /// <summary>What to prefer among plans of equal cost.</summary>
    public CuttingObjective Objective { get; init; } = CuttingObjective.LeastWork;

    /// <summary>
    /// True where only the cost is asked for, as for a point of a price curve: the plan costs the same and holds as well, but
    /// nothing is done to make it shorter or easier to cut. False by default.
    /// </summary>
    public bool CostOnly { get; init; }

    /// <summary>Safety net on the clock, default 1 s, at most 30 s. Work limits inside the solver come first, so that the same request gives the same plan.</summary>
    public TimeSpan TimeAllowance { get; init; } = TimeSpan.FromSeconds(1);
}
