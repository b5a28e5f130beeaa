using System.Globalization;
using KittingBee.Planning;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>What one class needs of a fabric.</summary>
/// <param name="ClassId">The class.</param>
/// <param name="Title">Its title.</param>
/// <param name="Line">Its own line, in whole shop increments and packs.</param>
/// <param name="Ticked">True where this very amount is in the basket.</param>
/// <param name="Really">What was really bought for it, against what it needs.</param>
/// <param name="Paid">Money that was really paid.</param>
public sealed record ShoppingPart(long ClassId, string Title, ShoppingLine Line, bool Ticked, BoughtCloth Really, decimal Paid)
{
    /// <summary>Length that was really bought for it.</summary>
    public Length Bought => Really.Length;

    /// <summary>What has to be got, as one text: a tick stands for this and no more.</summary>
    public string Amount => AmountOf(Line);

    internal static string AmountOf(ShoppingLine line) => string.Join(
        " + ",
        line.FromShelf.Select(sheet => Invariant(sheet.Name, sheet.Used)).Concat(line.Sheets.Select(sheet => Invariant(sheet.Name, sheet.Bought)))
            .Prepend(line.Length.Ticks.ToString(CultureInfo.InvariantCulture)));

    private static string Invariant(Sentence name, int count) => string.Create(CultureInfo.InvariantCulture, $"{count} × {name}");
}

/// <summary>A fabric on the list of one or several classes.</summary>
/// <param name="Line">All parts together.</param>
/// <param name="Fabric">Its colour and letters.</param>
/// <param name="Parts">Each class's own.</param>
public sealed record ShoppingRow(ShoppingLine Line, PlannedFabric Fabric, IReadOnlyList<ShoppingPart> Parts)
{
    public bool Ticked => Parts.All(part => part.Ticked);

    /// <summary>What was really bought for all parts.</summary>
    public Length Bought => Parts.Aggregate(Length.Zero, (sum, part) => sum + part.Bought);

    /// <summary>Precuts that were really bought for all parts.</summary>
    public int Count => Parts.Sum(part => part.Really.Count);

    public decimal Paid => Parts.Sum(part => part.Paid);

    /// <summary>The precuts to buy, where they are bought in packs of one size and nothing by the length; else null.</summary>
    public SheetsToBuy? Packs => !Line.Length.IsPositive && Line.Sheets is [var only] && Parts.SelectMany(part => part.Line.Sheets).Select(sheets => sheets.PackSize).Distinct().Count() == 1
        ? only
        : null;

    /// <summary>Which class goes short; null where what was bought suffices, or nothing was yet.</summary>
    public string? Wanting(ClassHabits habits) => Parts.Select(part => (part.Title, Words: part.Really.ShortWords(habits))).Where(part => part.Words is not null).ToList() is { Count: > 0 } wanting
        ? Say($"Short: {string.Join("; ", wanting.Select(part => Parts.Count > 1 ? $"{part.Title}: {part.Words}" : part.Words))}. Buy more, or make fewer kits.")
        : null;
}

/// <summary>A shopping list, for one class or for several together.</summary>
/// <param name="Rows">To buy first, then what the shelf has.</param>
/// <param name="List">The figures.</param>
/// <param name="Habits">Units and currency of the first class.</param>
public sealed record SeasonList(IReadOnlyList<ShoppingRow> Rows, ShoppingList List, ClassHabits Habits)
{
    public IReadOnlyList<ShoppingRow> ToBuy => [.. Rows.Where(row => !row.Line.IsOnShelf)];

    /// <summary>Rows that take something from the shelf, whether or not more is bought.</summary>
    public IReadOnlyList<ShoppingRow> FromShelf => [.. Rows.Where(row => row.Line.FromShelf.Count > 0)];
}

/// <summary>Makes the shopping list of classes from their plans, with what was ticked and bought.</summary>
public sealed class SeasonShopping(ShoppingStore shopping, SettlingStore settling)
{
    /// <param name="plans">At least one; all in one currency.</param>
    public SeasonList Of(IReadOnlyList<ClassPlan> plans)
    {
        var ticks = shopping.Ticks([.. plans.Select(plan => plan.ClassId)]).ToDictionary(tick => (tick.ClassId, tick.FabricId), tick => tick.Amount);
        var lists = plans.Select(plan => (Plan: plan, List: plan.Shopping())).ToList();
        var parts = lists.SelectMany(item =>
        {
            var bought = settling.Purchases(item.Plan.ClassId).ToLookup(purchase => purchase.FabricId);
            return item.List.Lines.Select(line => new ShoppingPart(
                item.Plan.ClassId,
                item.Plan.Title,
                line,
                ticks.GetValueOrDefault((item.Plan.ClassId, line.Fabric)) == ShoppingPart.AmountOf(line),
                BoughtCloth.Of(item.Plan.Fabric(line.Fabric), bought[line.Fabric]),
                bought[line.Fabric].Sum(purchase => purchase.Paid)));
        }).ToLookup(part => part.Line.Fabric);
        var together = ShoppingList.Together([.. lists.Select(item => item.List)]);
        var looks = plans.SelectMany(plan => plan.Fabrics).DistinctBy(fabric => fabric.FabricId).ToDictionary(fabric => fabric.FabricId);
        return new(
            [.. together.Lines.Select(line => new ShoppingRow(line, looks[line.Fabric], [.. parts[line.Fabric]])).OrderBy(row => row.Line.IsOnShelf)],
            together,
            plans[0].Habits);
    }
}
