using System.Globalization;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Proves a plan from the request alone. It shares no code with the solver, the buying rules or the stroke count: everything
/// is worked out again from the records, so that a mistake has to be made twice, in two ways, to go unseen.
/// </summary>
public static class PlanChecker
{
    /// <summary>Every way in which the plan breaks the request, as sentences; empty for a valid plan.</summary>
    public static IReadOnlyList<string> Check(CuttingRequest request, CuttingPlan plan)
    {
        var faults = new List<string>();
        var cut = new long[request.Pieces.Count];
        CheckBolt(request, plan, cut, faults);
        CheckSheets(request, plan, cut, faults);
        CheckDemand(request, plan, cut, faults);
        CheckMoney(request, plan, faults);
        if (faults.Count == 0 && StrokeCheck.Count(request, plan) is var strokes && strokes != plan.Strokes)
        {
            // A plan that is broken elsewhere has no meaningful count.
            faults.Add($"The plan says {plan.Strokes} strokes, and cutting it takes {strokes}.");
        }

        return faults;
    }

    private static void CheckBolt(CuttingRequest request, CuttingPlan plan, long[] cut, List<string> faults)
    {
        Int128 length = 0;
        for (var index = 0; index < plan.Strips.Count; index++)
        {
            var strip = plan.Strips[index];
            length += (Int128)strip.Height.Ticks * strip.Repeat;
            LayoutCheck.Strip(request, strip, $"Strip {index + 1}", Washed.BoltWidth(request.Stock), lengthwise: false, strip.Repeat, cut, faults);
        }

        if (plan.Strips.Count > 0 && request.Stock.Bolt is null)
        {
            faults.Add("The plan cuts strips from a bolt, and there is no bolt.");
        }

        if (length != plan.Length.Ticks)
        {
            faults.Add($"The strips take {InInches(length)} together, and the plan says {plan.Length}.");
        }

        if (plan.Floor > plan.Length)
        {
            faults.Add($"The floor, {plan.Floor}, is above the plan's length, {plan.Length}.");
        }

        if (plan.Floor < Length.Zero || plan.Gap < 0m)
        {
            faults.Add("The floor or the gap is below zero.");
        }
    }

    private static void CheckSheets(CuttingRequest request, CuttingPlan plan, long[] cut, List<string> faults)
    {
        var used = new long[request.Stock.Sheets.Count];
        for (var index = 0; index < plan.Sheets.Count; index++)
        {
            var recipe = plan.Sheets[index];
            var name = $"Sheet recipe {index + 1}";
            if (recipe.Sheet < 0 || recipe.Sheet >= used.Length)
            {
                faults.Add($"{name} is for sheet {recipe.Sheet}, and there is no such sheet.");
                continue;
            }

            var sheet = request.Stock.Sheets[recipe.Sheet];
            used[recipe.Sheet] += recipe.Repeat;
            if (recipe.Repeat < 1)
            {
                faults.Add($"{name} is repeated {recipe.Repeat} times.");
            }

            if (!recipe.Name.Equals(sheet.Name))
            {
                faults.Add($"{name} calls “{sheet.Name}” “{recipe.Name}”.");
            }

            var (width, length) = Washed.Sheet(request.Stock, sheet);
            var (across, along) = recipe.Lengthwise ? (length, width) : (width, length);
            Int128 height = 0;
            for (var number = 0; number < recipe.Strips.Count; number++)
            {
                var strip = recipe.Strips[number];
                height += (Int128)strip.Height.Ticks * strip.Repeat;
                LayoutCheck.Strip(request, strip, $"{name}, strip {number + 1}", across, recipe.Lengthwise, (long)strip.Repeat * recipe.Repeat, cut, faults);
            }

            if (recipe.Strips.Count == 0)
            {
                faults.Add($"{name} has no strips.");
            }

            if (height > along)
            {
                faults.Add($"{name} takes {InInches(height)} of a sheet that has {InInches(along)}.");
            }
        }

        for (var index = 0; index < used.Length; index++)
        {
            if (request.Stock.Sheets[index] is { Available: { } available } sheet && used[index] > available)
            {
                faults.Add($"The plan takes {used[index]} of “{sheet.Name}”, and there are {available}.");
            }
        }
    }

    private static void CheckDemand(CuttingRequest request, CuttingPlan plan, long[] cut, List<string> faults)
    {
        var said = new Dictionary<int, long>();
        foreach (var surplus in plan.Surplus)
        {
            if (surplus.Piece < 0 || surplus.Piece >= cut.Length || surplus.Count < 1 || !said.TryAdd(surplus.Piece, surplus.Count))
            {
                faults.Add($"The surplus of {surplus.Count} of piece {surplus.Piece} is no surplus.");
            }
        }

        for (var index = 0; index < cut.Length; index++)
        {
            var (piece, over) = (request.Pieces[index], cut[index] - request.Pieces[index].Count);
            if (over < 0)
            {
                faults.Add($"“{piece.Name}”: {piece.Count} are needed and {cut[index]} are cut.");
            }
            else if (over != said.GetValueOrDefault(index))
            {
                faults.Add($"“{piece.Name}”: {over} more than needed are cut, and the plan says {said.GetValueOrDefault(index)}.");
            }
        }
    }

    private static void CheckMoney(CuttingRequest request, CuttingPlan plan, List<string> faults)
    {
        var bought = Washed.Bought(request.Stock, plan.Length);
        if (bought != plan.Buy.Length.Ticks)
        {
            faults.Add($"For {plan.Length} of cut cloth {InInches(bought)} is to be bought, and the plan says {plan.Buy.Length}.");
        }

        if (request.Stock.Bolt?.Available is { } available && bought > available.Ticks)
        {
            faults.Add($"The plan takes {InInches(bought)} of bolt, and {available} is to be had.");
        }

        var cost = request.Stock.Bolt is { } bolt ? bolt.PricePerYard * (decimal)bought / Length.TicksPerYard : 0m;
        for (var index = 0; index < request.Stock.Sheets.Count; index++)
        {
            var sheet = request.Stock.Sheets[index];
            var used = plan.Sheets.Where(recipe => recipe.Sheet == index).Sum(recipe => (long)recipe.Repeat);
            cost += decimal.Ceiling((decimal)used / sheet.PackSize) * sheet.PackSize * sheet.Price;
        }

        if (Math.Round(cost, 2, MidpointRounding.AwayFromZero) != plan.Buy.Cost)
        {
            faults.Add(string.Create(CultureInfo.InvariantCulture, $"The cloth costs {cost:0.00}, and the plan says {plan.Buy.Cost:0.00}."));
        }
    }

    private static string InInches(Int128 ticks) =>
        string.Create(CultureInfo.InvariantCulture, $"{(decimal)ticks / Length.TicksPerInch:0.######} in");

    /// <summary>Washing, truing and buying, worked out again in whole parts of ten thousand million.</summary>
    internal static class Washed
    {
        public static Int128 BoltWidth(CuttingStock stock) =>
            stock.Bolt is { } bolt ? Left(bolt.UsableWidth, stock.ShrinkageAcross) : 0;

        public static (Int128 Width, Int128 Length) Sheet(CuttingStock stock, SheetStock sheet) => (
            Int128.Max(0, Left(sheet.Width, stock.ShrinkageAcross) - stock.SquaringUp.Ticks),
            Int128.Max(0, Left(sheet.Length, stock.ShrinkageAlong) - stock.SquaringUp.Ticks));

        public static Int128 Bought(CuttingStock stock, Length need)
        {
            if (stock.Bolt is not { } bolt || need.Ticks <= 0)
            {
                return 0;
            }

            Int128 low = 0, high = 4 * ((Int128)need.Ticks + stock.SquaringUp.Ticks) + 4;
            while (low + 1 < high)
            {
                var middle = (low + high) / 2;
                (low, high) = Left(middle, stock.ShrinkageAlong) - stock.SquaringUp.Ticks >= need.Ticks ? (low, middle) : (middle, high);
            }

            var steps = (Int128.Max(high, bolt.Minimum.Ticks) + bolt.Increment.Ticks - 1) / bolt.Increment.Ticks;
            var sold = steps * bolt.Increment.Ticks;
            return bolt.Available is { } end && end.Ticks >= high ? Int128.Min(sold, end.Ticks) : sold;
        }

        private static Int128 Left(Length length, decimal share) => Left((Int128)length.Ticks, share);

        private static Int128 Left(Int128 ticks, decimal share)
        {
            const long Parts = 10_000_000_000;
            return ticks * (Parts - decimal.ToInt64(decimal.Ceiling(share * Parts))) / Parts;
        }
    }
}
