using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Glossary;

/// <summary>
/// The guide's example: a traditional block for twelve students, cut and planned by the program itself each time it starts,
/// so that the guide shows what the program does today.
/// </summary>
public static class GuideExample
{
    /// <summary>How many students.</summary>
    public const int Kits = 12;

    private static readonly Lazy<(CutList CutList, FabricCutList Fabric, CuttingPlan Plan)> Worked = new(Work);

    /// <summary>The block.</summary>
    public static Block Block => Starters.Find("ohio-star")!.Block;

    /// <summary>What one kit takes.</summary>
    public static CutList CutList => Worked.Value.CutList;

    /// <summary>The fabric that is planned: the star.</summary>
    public static FabricCutList Fabric => Worked.Value.Fabric;

    /// <summary>Its plan.</summary>
    public static CuttingPlan Plan => Worked.Value.Plan;

    /// <summary>Width of its bolt.</summary>
    public static Length UsableWidth { get; } = Length.FromInches(42);

    private static (CutList CutList, FabricCutList Fabric, CuttingPlan Plan) Work()
    {
        var list = CutLists.For(Block, UsualRules.For(metric: false)).CutList ?? throw new InvalidOperationException("The guide’s block has no cut list.");
        var fabric = list.Fabrics[^1];
        var pieces = fabric.Pieces.Select(piece => new CutPiece("", piece.Width, piece.Height, piece.Count * Kits)).ToList();
        var bolt = new BoltStock(UsableWidth, Length.FromYards(0.125m), Length.FromYards(0.125m), 12m);
        var plan = CuttingPlanner.Plan(new CuttingRequest(new CuttingStock(bolt, []), pieces)).Plan ?? throw new InvalidOperationException("The guide’s block has no cutting plan.");
        return (list, fabric, plan);
    }
}
