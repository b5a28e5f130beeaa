using System.Collections.Concurrent;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Cloth of one fabric that a further kit would need on top: a length, or packs of precuts.</summary>
/// <param name="Fabric">Its name.</param>
/// <param name="Length">Length to buy; zero for precuts.</param>
/// <param name="Precuts">Precuts in whole packs, in words; empty for a length.</param>
/// <param name="Cost">Money.</param>
public sealed record MoreCloth(string Fabric, Length Length, string Precuts, decimal Cost)
{
    public string Words(ClassHabits habits) => Precuts.Length > 0 ? Precuts : habits.ShowYardage(Length);
}

/// <summary>How many more kits of a colourway fit, and what the one after that needs.</summary>
/// <param name="Way">The colourway.</param>
/// <param name="Kits">Further kits that the cloth makes, each found as a real plan.</param>
/// <param name="Proved">True where it is proved that no plan makes one more.</param>
/// <param name="RunsOut">The fabric that sets the limit.</param>
/// <param name="Next">What has to be bought for one kit more; empty where that could not be told.</param>
public sealed record WayRoom(PlannedColourway Way, int Kits, bool Proved, string RunsOut, IReadOnlyList<MoreCloth> Next)
{
    public decimal NextCost => Next.Sum(more => more.Cost);
}

/// <summary>
/// Answers what the next sign-up costs: how many more kits the cloth makes that is bought or going to be, and what one more
/// would take. A search over real plans, so answers are kept in memory until the class changes.
/// </summary>
public sealed class RoomBook(ClassPlanning planning, SettlingStore settling)
{
    private const int MostKept = 200;
    private readonly ConcurrentDictionary<string, IReadOnlyList<WayRoom>> kept = new(StringComparer.Ordinal);

    /// <summary>True where everything is planned, so that the question has an answer.</summary>
    public static bool CanTell(ClassPlan plan) => plan.Problems.Count == 0 && plan.Fabrics.Count > 0 && plan.Fabrics.All(fabric => fabric.Plan is not null);

    /// <summary>The answer if it is known already; null where it has to be searched for.</summary>
    public IReadOnlyList<WayRoom>? Known(ClassMaterials materials, ClassPlan plan) => kept.GetValueOrDefault(KeyOf(plan, AtHand(materials, plan)));

    /// <summary>The answer for each colourway on its own: a kit in one takes cloth that the others may need.</summary>
    public IReadOnlyList<WayRoom> Of(ClassMaterials materials, ClassPlan plan)
    {
        var atHand = AtHand(materials, plan);
        var key = KeyOf(plan, atHand);
        if (kept.TryGetValue(key, out var known))
        {
            return known;
        }

        var rooms = plan.Colourways.Select(way => Search(materials, plan, way, atHand)).ToList();
        if (kept.Count >= MostKept)
        {
            kept.Clear();
        }

        return kept[key] = rooms;
    }

    private WayRoom Search(ClassMaterials materials, ClassPlan plan, PlannedColourway way, IReadOnlyList<FabricAtHand> atHand)
    {
        var room = ClassHeadroom.For(plan.BagOf(way).List, way.FabricOfLetter, atHand);
        var numbers = KitNumbers.Of(plan).ToDictionary();
        numbers[way.ColourwayId] = numbers.GetValueOrDefault(way.ColourwayId) + room.Kits + 1;
        var have = atHand.ToDictionary(fabric => fabric.Fabric);
        var now = plan.Fabrics.ToDictionary(fabric => fabric.FabricId, fabric => fabric.Plan!.Buy);
        var next = planning.PlanFor(materials, plan.CutList, numbers)
            .Where(fabric => fabric.Plan is not null)
            .Select(fabric =>
            {
                if (fabric.IsBought)
                {
                    var sheet = fabric.Request.Stock.Sheets[0];
                    var packs = Packs(fabric.Plan!.Sheets.Sum(recipe => recipe.Repeat) - (have.GetValueOrDefault(fabric.FabricId)?.Sheets[0] ?? 0), sheet.PackSize);
                    return new MoreCloth(fabric.Name, Length.Zero, packs <= 0 ? "" : Showing.ShoppingWords.Packs(new(sheet.Name, 0, packs, packs * sheet.PackSize, 0m)), Planning.Pricing.Cents.Nearest(packs * sheet.PackSize * sheet.Price));
                }

                var bought = have.TryGetValue(fabric.FabricId, out var cloth) ? cloth.Bolt : Length.Zero;
                var length = fabric.Plan!.Buy.Length - bought;
                var cost = fabric.Plan.Buy.Cost - (now.TryGetValue(fabric.FabricId, out var buy) && buy.Length == bought ? buy.Cost : PriceOf(fabric, bought));
                return new MoreCloth(fabric.Name, length, "", cost);
            })
            .Where(more => more.Length.IsPositive || more.Precuts.Length > 0)
            .ToList();
        return new(way, room.Kits, room.Kits == room.AtMost, room.Fabrics is [var least, ..] ? least.Name : "", next);
    }

    private static decimal PriceOf(PlannedFabric fabric, Length bought) =>
        Planning.Pricing.Cents.Nearest(Planning.Cutting.Buying.BoltPrice(fabric.Request.Stock, bought));

    // What was really bought counts where it is known, else what the list asks for.
    private List<FabricAtHand> AtHand(ClassMaterials materials, ClassPlan plan)
    {
        var purchases = settling.Purchases(materials.Record.Id).ToLookup(purchase => purchase.FabricId);
        return [.. plan.Fabrics.Where(fabric => fabric.Plan is not null).Select(fabric =>
        {
            var planned = FabricAtHand.AsPlanned(fabric.FabricId, fabric.Name, fabric.Request, fabric.Plan!);
            var really = BoughtCloth.Of(fabric, purchases[fabric.FabricId]);
            return fabric.IsBought
                ? really.Count > 0 ? planned with { Sheets = [really.Count] } : planned
                : really.Length.IsPositive ? planned with { Bolt = really.Length } : planned;
        })];
    }

    private static int Packs(int wanted, int packSize) => wanted <= 0 ? 0 : ((wanted - 1) / packSize) + 1;

    private static string KeyOf(ClassPlan plan, IReadOnlyList<FabricAtHand> atHand) => StoredJson.Hash(StoredJson.Write(new
    {
        plan.ClassId, plan.CutList.Fabrics, Bags = plan.Colourways.Select(way => plan.BagOf(way).List.Fabrics), Ways = plan.Colourways, Kits = KitNumbers.Of(plan).OrderBy(pair => pair.Key), atHand,
    }));
}
