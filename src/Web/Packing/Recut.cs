using KittingBee.Planning;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>What is to be cut again of one fabric, and from what.</summary>
/// <param name="Fabric">The fabric as the class planned it.</param>
/// <param name="Shortages">The pieces that bags lack.</param>
/// <param name="Spares">Pieces of these sizes that were cut beyond the need and are not used up: look there first.</param>
/// <param name="Ticket">How to cut them: this class's leftovers first, then the shelf, then new cloth. Null where that cannot be.</param>
/// <param name="Problems">Why there is no ticket.</param>
public sealed record RecutFabric(
    PlannedFabric Fabric, IReadOnlyList<Shortage> Shortages, IReadOnlyList<PiecesOut> Spares, Ticket? Ticket, IReadOnlyList<Problem> Problems);

/// <summary>Plans what bags lack.</summary>
public static class Recut
{
    // The planner takes the cheapest cloth first: nothing for what this class left, a cent for a piece from the shelf, the shop's price for more.
    private const decimal FromShelf = 0.01m;

    private static readonly Length LeastRest = Length.FromInches(1);

    /// <summary>By fabric, for shortages that are not mended yet.</summary>
    public static IReadOnlyList<RecutFabric> Of(ClassMaterials materials, ClassPlan plan, ClothOnTable cloth, IReadOnlyList<Shortage> shortages) =>
    [
        .. from shortage in shortages
           where shortage.MendedAt is null
           group shortage by shortage.FabricId into ofFabric
           let planned = plan.Fabrics.FirstOrDefault(fabric => fabric.FabricId == ofFabric.Key)
           where planned is not null
           select Plan(materials, plan, planned, cloth, [.. ofFabric], shortages),
    ];

    private static RecutFabric Plan(
        ClassMaterials materials, ClassPlan plan, PlannedFabric planned, ClothOnTable cloth, IReadOnlyList<Shortage> open, IReadOnlyList<Shortage> all)
    {
        var sizes = open.GroupBy(shortage => (shortage.Width, shortage.Height)).ToList();
        var request = planned.Request with
        {
            Stock = planned.Request.Stock with
            {
                Bolt = planned.Request.Stock.Bolt is { } bolt ? bolt with { PricePerYard = Math.Max(1m, bolt.PricePerYard) } : null,
                Sheets = Sheets(materials, planned, cloth, plan.Habits.Style),
            },
            Pieces = [.. sizes.Select(size => new CutPiece(PieceNames.Size(size.Key.Width, size.Key.Height, plan.Habits.Style), size.Key.Width, size.Key.Height, size.Sum(shortage => shortage.Count)))],
        };
        var result = CuttingPlanner.Plan(request);
        return new(
            planned,
            open,
            [.. sizes.Select(size => Spare(plan, planned, size.Key.Width, size.Key.Height, all)).OfType<PiecesOut>()],
            result.Plan is null ? null : Ticket.Of(planned with { Request = request, Plan = result.Plan }),
            result.Problems);
    }

    private static IReadOnlyList<SheetStock> Sheets(ClassMaterials materials, PlannedFabric planned, ClothOnTable cloth, LengthStyle style)
    {
        var left = cloth.Leftovers.Where(piece => piece.FabricId == planned.FabricId).SelectMany(piece => piece.Pieces()).ToList();
        if (left.Count == 0 && Rest(materials, planned, cloth) is { } rest)
        {
            left.Add(rest);
        }

        // What the plan cuts from the shelf is cut already; the same sizes there are set aside for that.
        var cut = SettlementBook.FromShelf(planned).GroupBy(taken => (taken.Sheet.Width, taken.Sheet.Length))
            .ToDictionary(size => size.Key, size => size.Sum(taken => taken.Count));
        return
        [
            .. Leftovers.AsStock(left, Length.FromTicks(1), style).Select(sheet => sheet with { Name = $"Left over: {PieceNames.SizeInWords(sheet.Width, sheet.Length, style)}" }),
            .. materials.Shelf.Where(piece => piece.FabricId == planned.FabricId)
                .GroupBy(piece => (piece.Width, piece.Length))
                .Select(size => (size.Key, Count: size.Sum(piece => piece.Count) - cut.GetValueOrDefault(size.Key)))
                .Where(size => size.Count > 0)
                .Select(size => new SheetStock($"Shelf: {PieceNames.SizeInWords(size.Key.Width, size.Key.Length, style)}", size.Key.Width, size.Key.Length, size.Count, FromShelf)),
        ];
    }

    /// <summary>Before anything is measured: what should be left of the length bought, or to be bought by the plan.</summary>
    private static Cloth? Rest(ClassMaterials materials, PlannedFabric planned, ClothOnTable cloth)
    {
        if (planned.Plan is not { } plan)
        {
            return null;
        }

        var bought = cloth.Purchases.Where(purchase => purchase.FabricId == planned.FabricId).Select(purchase => purchase.Length).ToList();
        var had = bought.Count == 0 ? plan.Buy.Length : bought.Aggregate((sum, length) => sum + length);
        var rest = had - Buying.Unwashed(planned.Request.Stock, plan.Length);
        return rest >= LeastRest ? new Cloth(materials.Fabrics[planned.FabricId].UsableWidth, rest) : null;
    }

    private static PiecesOut? Spare(ClassPlan plan, PlannedFabric planned, Length width, Length height, IReadOnlyList<Shortage> all)
    {
        long need = 0;
        foreach (var way in plan.Colourways)
        {
            var kits = plan.Kits.Count(kit => kit.ColourwayId == way.ColourwayId);
            need += kits * plan.BagOf(way).List.Fabrics
                .Where(list => way.FabricOfLetter.GetValueOrDefault(list.Letter) == planned.FabricId)
                .Sum(list => list.Pieces.Where(piece => piece.Width == width && piece.Height == height).Sum(piece => (long)piece.Count));
        }

        long cut = 0;
        for (var index = 0; index < planned.Request.Pieces.Count; index++)
        {
            var piece = planned.Request.Pieces[index];
            if (piece.Width == width && piece.Height == height)
            {
                cut += piece.Count + (planned.Plan?.Surplus.Where(surplus => surplus.Piece == index).Sum(surplus => (long)surplus.Count) ?? 0);
            }
        }

        var used = all.Where(item => item.FabricId == planned.FabricId && item.MendedFrom == "spare" && item.Width == width && item.Height == height).Sum(item => (long)item.Count);
        var spare = cut - need - used;
        return spare > 0 ? new PiecesOut(PieceNames.Size(width, height, plan.Habits.Style), width, height, spare) : null;
    }
}

/// <summary>Cloth of the class that is not on the shelf: bought, and measured as left.</summary>
public sealed record ClothOnTable(IReadOnlyList<FabricPurchase> Purchases, IReadOnlyList<Leftover> Leftovers);
