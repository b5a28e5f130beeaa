using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>What was really bought of a fabric against what its plan cuts or hands out.</summary>
/// <param name="Length">Length bought; of precuts, as much cloth of the whole width.</param>
/// <param name="Count">Precuts bought.</param>
/// <param name="LeastLength">Unwashed length that the plan cannot do without.</param>
/// <param name="Asked">Length that the shopping list asks for.</param>
/// <param name="LeastCount">Precuts that the kits cannot do without.</param>
/// <param name="Precut">What they are; empty for cloth by the length.</param>
public sealed record BoughtCloth(Length Length, int Count, Length LeastLength, Length Asked, int LeastCount, string Precut)
{
    /// <summary>True where something was bought, and not enough of it. What a shop sells beyond the need does not matter.</summary>
    public bool IsShort => LeastCount > 0 ? Count > 0 && Count < LeastCount : Length.IsPositive && Length < LeastLength;

    public static BoughtCloth Of(PlannedFabric fabric, IEnumerable<FabricPurchase> purchases)
    {
        var (length, count) = (Length.Zero, 0);
        foreach (var purchase in purchases.Where(purchase => purchase.FabricId == fabric.FabricId && (purchase.Count > 0) == fabric.IsBought))
        {
            length += purchase.Length;
            count += purchase.Count;
        }

        return fabric.Plan is not { } plan ? new(length, count, Length.Zero, Length.Zero, 0, "")
            : fabric.IsBought ? new(length, count, Length.Zero, Length.Zero, plan.Sheets.Sum(sheet => sheet.Repeat), Say(fabric.Request.Stock.Sheets[0].Name))
            : new(length, count, Buying.Unwashed(fabric.Request.Stock, plan.Length), plan.Buy.Length, 0, "");
    }

    /// <summary>"2 yd bought, and the plan asks for 2 ⅜ yd"; null where it suffices.</summary>
    public string? ShortWords(ClassHabits habits) => !IsShort ? null
        : LeastCount > 0 ? Say($"{Count} × {Precut} bought, and the kits take {LeastCount}")
        : Say($"{habits.ShowYardage(Length)} bought, and the plan asks for {habits.ShowYardage(Asked)}");
}
