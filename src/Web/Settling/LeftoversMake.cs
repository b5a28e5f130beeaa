using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Settling;

/// <summary>What the leftovers of one fabric still make.</summary>
/// <param name="FabricId">The fabric.</param>
/// <param name="Pieces">Of each size on its own.</param>
public sealed record FabricMakes(long FabricId, IReadOnlyList<(CutPiece Piece, int Count)> Pieces);

/// <summary>Whole kits that the leftovers make in one colourway, all its fabrics taken together.</summary>
public sealed record KitsMade(PlannedColourway Colourway, int Kits);

/// <summary>What is still in the leftovers, found by the same engine that plans the class.</summary>
public sealed record LeftoversMake(IReadOnlyList<FabricMakes> Fabrics, IReadOnlyList<KitsMade> Kits)
{
    public static LeftoversMake Of(ClassPlan plan, IReadOnlyList<Leftover> leftovers)
    {
        var stock = plan.Fabrics.ToDictionary(
            fabric => fabric.FabricId,
            fabric => Leftovers.AsStock(
                leftovers.Where(left => left.FabricId == fabric.FabricId).SelectMany(left => left.Pieces()),
                ShortestSide(fabric.Request.Pieces),
                plan.Habits.Style));
        return new(
            [.. plan.Fabrics.Where(fabric => stock[fabric.FabricId].Count > 0).Select(fabric =>
                new FabricMakes(fabric.FabricId, Leftovers.PiecesFrom(fabric.Request.Pieces, stock[fabric.FabricId], fabric.Request.Directional)))],
            [.. plan.Colourways.Select(way => new KitsMade(way, WholeKits(plan, way, stock)))]);
    }

    /// <summary>As many as the scarcest fabric allows: the fabrics of a kit are cut from cloth of their own.</summary>
    private static int WholeKits(ClassPlan plan, PlannedColourway way, Dictionary<long, IReadOnlyList<SheetStock>> stock)
    {
        var least = int.MaxValue;
        foreach (var fabric in plan.Fabrics)
        {
            var pieces = plan.BagOf(way).List.Fabrics
                .Where(list => way.FabricOfLetter.GetValueOrDefault(list.Letter) == fabric.FabricId)
                .SelectMany(list => list.Pieces)
                .GroupBy(piece => (piece.Width, piece.Height))
                .Select(size => new CutPiece(FormattableString.Invariant($"{size.Key.Width.Ticks}x{size.Key.Height.Ticks}"), size.Key.Width, size.Key.Height, size.Sum(piece => piece.Count)))
                .ToList();
            if (least > 0 && Leftovers.KitsFrom(pieces, stock[fabric.FabricId], fabric.Request.Directional) is { } kits)
            {
                least = Math.Min(least, kits);
            }
        }

        return least == int.MaxValue ? 0 : least;
    }

    private static Length ShortestSide(IReadOnlyList<CutPiece> pieces) =>
        pieces.Select(piece => Length.Min(piece.Width, piece.Height)).DefaultIfEmpty(Length.FromTicks(1)).Min();
}
