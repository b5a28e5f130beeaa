using KittingBee.Planning.Formats;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Showing;

/// <summary>Kit formats in words.</summary>
public static class FormatWords
{
    /// <summary>Who makes it: the teacher cuts it, or it is bought. Nothing for cut pieces and lengths, which are always cut.</summary>
    public static string Way(FormatChoice choice, string before = "") => choice.Format is FormatCodes.CutPieces or FormatCodes.Yardage
        ? ""
        : before + (choice.IsBought ? Say("bought precut") : Say("cut by you"));

    /// <summary>What lies in each bag: "4", "4 in Dusk, 3 in Harvest", a length.</summary>
    public static string PerKit(FormatRow row, ClassHabits habits) => Shares(row, share => share.HandedOut is { Format: FormatCodes.Yardage } length
        ? habits.ShowYardage(length.Height)
        : share.PerKit.ToString("N0", Language.Current.Culture));

    /// <summary>What the class takes: a number, packs, or what is bought of the bolt.</summary>
    public static string Total(FormatRow row, ClassHabits habits)
    {
        var number = row.Total.ToString("N0", Language.Current.Culture);
        var buys = row.Planned?.Plan?.Buy.Length is { IsPositive: true } length ? Say($"{habits.ShowYardage(length)} to buy") : Say("from the shelf");
        return (row.Choice.Format, row.Choice.IsBought) switch
        {
            (_, true) when row.Planned!.Request.Stock.Sheets[0].PackSize == 1 => number,
            (_, true) => row.Packs == 1 ? Say($"{number}, {row.Packs} pack of {row.Planned!.Request.Stock.Sheets[0].PackSize}") : Say($"{number}, {row.Packs} packs of {row.Planned!.Request.Stock.Sheets[0].PackSize}"),
            (FormatCodes.Yardage, _) => Say($"{number} lengths, {buys}"),
            _ => $"{number}, {buys}",
        };
    }

    /// <summary>What the cutter must know of a fabric that goes into the bags uncut; null for cut pieces.</summary>
    public static string? Handed(ClassPlan plan, PlannedFabric fabric)
    {
        var things = plan.Bags.Values.Select(bag => bag.HandedOut.GetValueOrDefault(fabric.FabricId)).OfType<HandedOut>()
            .Select(thing => Say(thing.InWords(plan.Habits.Style))).Distinct().ToList();
        return things.Count == 0 ? null : Say($"Goes into the bags as {string.Join(Say(" or "), things)}: cut no further, the students cut their own pieces.");
    }

    /// <summary>Minutes as people say them.</summary>
    public static string Minutes(decimal minutes) => minutes < 90m
        ? Say($"{decimal.Ceiling(minutes):0} min")
        : Say($"{decimal.Floor(decimal.Ceiling(minutes) / 60m):0} h {decimal.Ceiling(minutes) % 60m:00} min");

    private static string Shares(FormatRow row, Func<FormatShare, string> say)
    {
        var said = row.Shares.Select(say).ToList();
        return said.Distinct().Count() == 1 ? said[0] : string.Join("; ", row.Shares.Zip(said).Select(pair => Say($"{pair.Second} in {string.Join(", ", pair.First.Ways)}")));
    }
}
