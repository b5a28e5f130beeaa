using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Classes;

/// <summary>A planned fabric to shop for.</summary>
/// <param name="Fabric">Its number on the shelf.</param>
/// <param name="Name">Its name.</param>
/// <param name="SupplierNote">Where to buy it; may be empty.</param>
/// <param name="Request">The cutting problem.</param>
/// <param name="Result">Its plan, or why there is none.</param>
public sealed record FabricToBuy(long Fabric, string Name, string SupplierNote, CuttingRequest Request, CuttingResult Result);

/// <summary>Sheets of one kind, used from the shelf or to be bought.</summary>
/// <param name="Name">What they are.</param>
/// <param name="Used">How many the plan cuts.</param>
/// <param name="Packs">Packs to buy; 0 for what is on the shelf.</param>
/// <param name="Bought">Sheets in these packs; 0 for what is on the shelf.</param>
/// <param name="Cost">Money, to the cent.</param>
public sealed record SheetsToBuy(Sentence Name, int Used, int Packs, int Bought, decimal Cost)
{
    /// <summary>Sheets in a pack; 1 for what is on the shelf.</summary>
    public int PackSize => Packs == 0 ? 1 : Bought / Packs;
}

/// <summary>One fabric on the list.</summary>
/// <param name="Fabric">Its number on the shelf.</param>
/// <param name="Name">Its name.</param>
/// <param name="SupplierNote">Where to buy it; may be empty.</param>
/// <param name="FromShelf">What is taken from the shelf first.</param>
/// <param name="Length">Length to buy, in shop increments; zero where the shelf suffices.</param>
/// <param name="LengthCost">Money for the length; with the sheets' it adds up to <paramref name="Cost"/>.</param>
/// <param name="Sheets">Sheets to buy.</param>
/// <param name="Cost">Money for all of it, to the cent.</param>
public sealed record ShoppingLine(
    long Fabric,
    string Name,
    string SupplierNote,
    IReadOnlyList<SheetsToBuy> FromShelf,
    Length Length,
    decimal LengthCost,
    IReadOnlyList<SheetsToBuy> Sheets,
    decimal Cost)
{
    /// <summary>True where the shelf has all of it.</summary>
    public bool IsOnShelf => Length == Length.Zero && Sheets.Count == 0;
}

/// <summary>What to buy for one class, or for several together.</summary>
/// <param name="Lines">One for each fabric.</param>
/// <param name="Total">Money for all lines.</param>
/// <param name="Problems">Fabrics without a plan, each with the reason: they are not in the total.</param>
public sealed record ShoppingList(IReadOnlyList<ShoppingLine> Lines, decimal Total, IReadOnlyList<Problem> Problems)
{
    /// <summary>The list of one class: the shelf first, then the shop.</summary>
    public static ShoppingList For(IReadOnlyList<FabricToBuy> fabrics)
    {
        var lines = fabrics.Where(fabric => fabric.Result.Plan is not null).Select(fabric => Line(fabric, fabric.Result.Plan!)).ToList();
        var problems = fabrics.SelectMany(fabric => fabric.Result.Problems.Select(problem => problem with { Field = $"fabrics[{fabric.Fabric}].{problem.Field}", Said = $"{fabric.Name}: {problem.Said}" }));
        return new(lines, lines.Sum(line => line.Cost), [.. problems]);
    }

    /// <summary>
    /// The lists of several classes as one, a line for each fabric. Each class keeps its own whole shop increments and packs, so
    /// that every class can be cut from its own cloth.
    /// </summary>
    public static ShoppingList Together(IReadOnlyList<ShoppingList> classes)
    {
        var lines = classes.SelectMany(list => list.Lines).GroupBy(line => line.Fabric).Select(same => same.Aggregate((one, other) => one with
        {
            SupplierNote = one.SupplierNote.Length > 0 ? one.SupplierNote : other.SupplierNote,
            FromShelf = Summed([.. one.FromShelf, .. other.FromShelf]),
            Length = one.Length + other.Length,
            LengthCost = one.LengthCost + other.LengthCost,
            Sheets = Summed([.. one.Sheets, .. other.Sheets]),
            Cost = one.Cost + other.Cost,
        })).ToList();
        return new(lines, lines.Sum(line => line.Cost), [.. classes.SelectMany(list => list.Problems)]);
    }

    private static ShoppingLine Line(FabricToBuy fabric, CuttingPlan plan)
    {
        var kinds = plan.Sheets.GroupBy(recipe => recipe.Sheet)
            .Select(kind => (Sheet: fabric.Request.Stock.Sheets[kind.Key], Used: kind.Sum(recipe => recipe.Repeat)))
            .ToList();
        var bought = kinds.Where(kind => kind.Sheet.Price > 0).Select(kind =>
        {
            var packs = (kind.Used + kind.Sheet.PackSize - 1) / kind.Sheet.PackSize;
            return new SheetsToBuy(kind.Sheet.Name, kind.Used, packs, packs * kind.Sheet.PackSize, Pricing.Cents.Nearest(Buying.SheetPrice(kind.Sheet, kind.Used)));
        }).ToList();
        return new(
            fabric.Fabric,
            fabric.Name,
            fabric.SupplierNote,
            [.. kinds.Where(kind => kind.Sheet.Price == 0).Select(kind => new SheetsToBuy(kind.Sheet.Name, kind.Used, 0, 0, 0))],
            plan.Buy.Length,
            plan.Buy.Cost - bought.Sum(sheets => sheets.Cost),
            bought,
            plan.Buy.Cost);
    }

    private static List<SheetsToBuy> Summed(IEnumerable<SheetsToBuy> sheets) =>
    [
        .. sheets.GroupBy(kind => kind.Name).Select(same => new SheetsToBuy(
            same.Key, same.Sum(kind => kind.Used), same.Sum(kind => kind.Packs), same.Sum(kind => kind.Bought), same.Sum(kind => kind.Cost))),
    ];
}
