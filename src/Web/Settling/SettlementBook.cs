using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Pricing;
using KittingBee.Planning.Settling;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Settling;

/// <summary>What was recorded of a class's cloth.</summary>
public sealed record ClothRecords(
    IReadOnlyList<FabricPurchase> Purchases, IReadOnlyList<GivenOut> Given, IReadOnlyList<Leftover> Leftovers, IReadOnlyList<Shortage> Shortages);

/// <summary>Puts a class's account together from its plan, its marks and what was measured.</summary>
public static class SettlementBook
{
    public static ClassSettlement Of(ClassMaterials materials, ClassPlan plan, Bags bags, ClothRecords records)
    {
        var fabrics = plan.Fabrics
            .Where(fabric => fabric.Plan is not null)
            .Select(fabric => Settle(materials, fabric, records))
            .ToList();
        var handedOver = bags.All.Count(bag => bag.Stage == BagStage.HandedOver);
        return new(
            fabrics,
            bags.All.Count == 0 ? null : Outcome(materials.Record, plan, [.. fabrics.Select(fabric => fabric.Account)], bags.All.Count, handedOver),
            SpoilageOf(plan, records.Shortages),
            handedOver,
            [.. bags.All.Where(bag => bag.Stage != BagStage.HandedOver).Select(bag => bag.Kit.Number)],
            [.. plan.Fabrics.SelectMany(fabric => Taken(materials, fabric))]);
    }

    /// <summary>
    /// The cloth from the shelf that a fabric's plan cuts into, in whole pieces: what is not used of them is left over. Sizes
    /// are the plan's own, because the shelf may have changed since the class's cloth was fixed.
    /// </summary>
    public static IEnumerable<(SheetStock Sheet, int Count)> FromShelf(PlannedFabric fabric) =>
        (fabric.IsBought ? [] : fabric.Plan?.Sheets ?? [])
            .GroupBy(recipe => recipe.Sheet)
            .Select(sheet => (fabric.Request.Stock.Sheets[sheet.Key], sheet.Sum(recipe => recipe.Repeat)));

    /// <summary>Which pieces on the shelf these are: those set aside for the class first.</summary>
    private static IEnumerable<TakenFromShelf> Taken(ClassMaterials materials, PlannedFabric fabric)
    {
        foreach (var size in FromShelf(fabric).GroupBy(taken => (taken.Sheet.Width, taken.Sheet.Length)))
        {
            var wanted = size.Sum(taken => taken.Count);
            foreach (var piece in materials.ShelfOf(fabric.FabricId)
                .Where(piece => (piece.Width, piece.Length) == size.Key)
                .OrderByDescending(piece => piece.ReservedClassId == materials.Record.Id))
            {
                var count = Math.Min(wanted, piece.Count);
                wanted -= count;
                if (count > 0)
                {
                    yield return new(piece.Id, count);
                }
            }
        }
    }

    private static SettledFabric Settle(ClassMaterials materials, PlannedFabric planned, ClothRecords records)
    {
        var fabric = materials.Fabrics[planned.FabricId];
        var bought = records.Purchases.Where(purchase => purchase.FabricId == fabric.Id).ToList();
        var fromShelf = FromShelf(planned).SelectMany(taken => Enumerable.Repeat(new Cloth(taken.Sheet.Width, taken.Sheet.Length), taken.Count)).ToList();
        var movements = new FabricMovements(
            fabric.Name,
            fabric.UsableWidth,
            fabric.PricePerYard,
            Sum(bought.Select(purchase => purchase.Length)),
            bought.Sum(purchase => purchase.Paid),
            fromShelf,
            Cloth.CutUpBy(planned.Request, planned.Plan!, fabric.UsableWidth),
            Recut(planned, records.Shortages, fabric.UsableWidth),
            Sum(records.Given.Where(given => given.FabricId == fabric.Id).Select(given => given.Length)),
            [.. records.Leftovers.Where(left => left.FabricId == fabric.Id).SelectMany(left => left.Pieces())]);
        var account = FabricAccount.Of(movements, materials.Record.TolerancePercent / 100m).Account
            ?? throw new InvalidOperationException($"The records of {fabric.Name} make no account, although each was checked when it was stored.");
        return new(
            fabric.Id, movements.Bought, movements.Paid, Sum(fromShelf.Select(cloth => cloth.AcrossWholeWidth(fabric.UsableWidth))),
            movements.Planned, movements.Recut, movements.GivenOut, account);
    }

    /// <summary>Cloth for the pieces cut again, as a plan of them from the bolt takes it.</summary>
    private static Length Recut(PlannedFabric planned, IReadOnlyList<Shortage> shortages, Length usableWidth)
    {
        var pieces = shortages
            .Where(shortage => shortage.FabricId == planned.FabricId && shortage.MendedFrom == "recut")
            .GroupBy(shortage => (shortage.Width, shortage.Height))
            .Select(size => new CutPiece(FormattableString.Invariant($"{size.Key.Width.Ticks}x{size.Key.Height.Ticks}"), size.Key.Width, size.Key.Height, size.Sum(shortage => shortage.Count)))
            .ToList();
        if (pieces.Count == 0)
        {
            return Length.Zero;
        }

        var request = planned.Request with { Pieces = pieces, Stock = planned.Request.Stock with { Sheets = [] } };
        return CuttingPlanner.Plan(request).Plan is { } plan
            ? Cloth.CutUpBy(request, plan, usableWidth)
            : Sum(pieces.Select(piece => new Cloth(piece.Width, piece.Height).AcrossWholeWidth(usableWidth) * piece.Count));
    }

    private static ClassOutcome Outcome(ClassRecord record, ClassPlan plan, IReadOnlyList<FabricAccount> accounts, int kits, int handedOver)
    {
        // The Price page's own lines, so that both pages agree on what the kits were planned to cost.
        var others = ClassPricing.Of(record, plan).Request.Lines.Sum(line => line.For(kits, kits));
        return ClassOutcome.Of(plan.Fabrics.Sum(fabric => fabric.Plan?.Buy.Cost ?? 0m) + others, others, accounts, kits, handedOver);
    }

    private static Spoilage SpoilageOf(ClassPlan plan, IReadOnlyList<Shortage> shortages) => new(
        shortages.Where(shortage => shortage.Reason == "spoiled").Sum(shortage => (long)shortage.Count),
        plan.Fabrics.Where(fabric => fabric.Plan is not null).Sum(fabric => fabric.Request.Pieces.Sum(piece => (long)piece.Count) + fabric.Plan!.Surplus.Sum(piece => (long)piece.Count))
            + shortages.Where(shortage => shortage.MendedFrom == "recut").Sum(shortage => (long)shortage.Count));

    private static Length Sum(IEnumerable<Length> lengths) => lengths.Aggregate(Length.Zero, (sum, length) => sum + length);
}
