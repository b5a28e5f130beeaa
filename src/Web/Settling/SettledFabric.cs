using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;

namespace KittingBee.Web.Settling;

/// <summary>One fabric's line on the Settle page: what went in, and how the account comes out.</summary>
/// <param name="FabricId">The fabric.</param>
/// <param name="Bought">Length bought.</param>
/// <param name="Paid">Money paid for it.</param>
/// <param name="FromShelf">Taken from the shelf, as length of the whole width.</param>
/// <param name="Planned">Length that the plan cuts up.</param>
/// <param name="Recut">Length cut up for re-cuts.</param>
/// <param name="GivenOut">Length handed out uncut.</param>
/// <param name="Account">How it closes.</param>
public sealed record SettledFabric(long FabricId, Length Bought, decimal Paid, Length FromShelf, Length Planned, Length Recut, Length GivenOut, FabricAccount Account);

/// <summary>Cloth that the plan took off the shelf.</summary>
/// <param name="ShelfPieceId">The piece.</param>
/// <param name="Count">How many of it.</param>
public sealed record TakenFromShelf(long ShelfPieceId, int Count);

/// <summary>A settled class: the figures as they are shown, and as they are frozen when it closes.</summary>
/// <param name="Fabrics">By fabric, in the order of the class.</param>
/// <param name="Outcome">Cost per kit as planned and as it turned out.</param>
/// <param name="Spoilage">Pieces that came out wrong.</param>
/// <param name="KitsHandedOver">Kits that went to somebody.</param>
/// <param name="NotHandedOver">Numbers of the kits that did not.</param>
/// <param name="Taken">What goes off the shelf.</param>
public sealed record ClassSettlement(
    IReadOnlyList<SettledFabric> Fabrics,
    ClassOutcome? Outcome,
    Spoilage Spoilage,
    int KitsHandedOver,
    IReadOnlyList<int> NotHandedOver,
    IReadOnlyList<TakenFromShelf> Taken);
