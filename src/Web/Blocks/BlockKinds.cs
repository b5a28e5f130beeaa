using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Blocks;

/// <summary>Which kinds of unit a block has.</summary>
public static class BlockKinds
{
    /// <summary>Every kind in it, nested blocks opened up, in the order of the kinds.</summary>
    public static IReadOnlyList<UnitKind> Of(Block block) => [.. All(block).Distinct().Order()];

    private static IEnumerable<UnitKind> All(Block block) =>
        block.Units.SelectMany(unit => unit.Inner is not { } inner ? [unit.Kind] : unit.Kind == UnitKind.Block ? All(inner) : [.. All(inner), unit.Kind]);
}
