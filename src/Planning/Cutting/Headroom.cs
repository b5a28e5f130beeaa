using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>How many further kits the cloth at hand can make.</summary>
/// <param name="Further">Kits beyond those asked for that have a plan.</param>
/// <param name="AtMost">Kits beyond those asked for that the floor does not rule out; equal to <paramref name="Further"/> where that is proved.</param>
/// <param name="Enough">False when no plan was found even for what was asked; the other two are 0 then.</param>
public sealed record HeadroomResult(int Further, int AtMost, bool Enough);

/// <summary>
/// Finds the largest number of further kits by search over <see cref="CuttingPlanner"/>. Halving the range is sound, because
/// more kits never need less cloth: striking the pieces of one kit out of a plan for k + 1 leaves a plan for k. The planner
/// may miss a plan that exists, so the next few numbers that the floor still allows are tried as well.
/// </summary>
public static class Headroom
{
    private const int MostSecondTries = 8;

    private enum Attempt
    {
        Fits,
        NotFound,
        RuledOut,
    }

    /// <summary>Searches; null when the kit takes none of this cloth, so that it sets no limit.</summary>
    /// <param name="request">What is cut already, with the stock it was planned from (its own limits on what is to be had are not used).</param>
    /// <param name="bolt">Length of unwashed bolt at hand.</param>
    /// <param name="sheets">Sheets at hand, one number for each of the stock's sheets.</param>
    /// <param name="kit">Pieces that one further kit takes, one number for each of the request's lines.</param>
    /// <exception cref="ArgumentException">The numbers do not match the request's lines, or one is below zero.</exception>
    public static HeadroomResult? Search(CuttingRequest request, Length bolt, IReadOnlyList<int> sheets, IReadOnlyList<int> kit)
    {
        if (sheets.Count != request.Stock.Sheets.Count || kit.Count != request.Pieces.Count || kit.Concat(sheets).Any(number => number < 0))
        {
            throw new ArgumentException("One number, zero or more, is needed for each of the stock's sheets and for each line of pieces.");
        }

        if (kit.All(number => number == 0))
        {
            return null;
        }

        var search = new Attempts(request, bolt, sheets, kit);
        if (search.Try(0) != Attempt.Fits)
        {
            return new HeadroomResult(0, 0, Enough: false);
        }

        int found = 0, failed = AreaBound(request, bolt, sheets, kit) + 1;
        var ruledOut = failed;
        while (found + 1 < failed)
        {
            var middle = found + ((failed - found) / 2);
            var attempt = search.Try(middle);
            (found, failed) = attempt == Attempt.Fits ? (middle, failed) : (found, middle);
            ruledOut = attempt == Attempt.RuledOut ? Math.Min(ruledOut, middle) : ruledOut;
        }

        for (var kits = found + 1; kits < ruledOut && kits <= failed + MostSecondTries; kits++)
        {
            var attempt = search.Try(kits);
            found = attempt == Attempt.Fits ? kits : found;
            ruledOut = attempt == Attempt.RuledOut ? kits : ruledOut;
        }

        return new HeadroomResult(found, ruledOut - 1, Enough: true);
    }

    /// <summary>No more kits than their area allows, nor than the planner takes in one request.</summary>
    private static int AreaBound(CuttingRequest request, Length bolt, IReadOnlyList<int> sheets, IReadOnlyList<int> kit)
    {
        var stock = request.Stock;
        var have = (Int128)Buying.BoltWidth(stock).Ticks * Buying.Leaves(stock, bolt).Ticks;
        for (var index = 0; index < sheets.Count; index++)
        {
            var sheet = stock.Sheets[index];
            have += (Int128)Buying.SheetWidth(stock, sheet).Ticks * Buying.SheetLength(stock, sheet).Ticks * sheets[index];
        }

        Int128 used = 0, more = 0;
        var most = int.MaxValue;
        for (var index = 0; index < kit.Count; index++)
        {
            var piece = request.Pieces[index];
            var area = (Int128)piece.Width.Ticks * piece.Height.Ticks;
            used += area * piece.Count;
            more += area * kit[index];
            most = kit[index] == 0 ? most : Math.Min(most, (RequestProblems.MostPieces - piece.Count) / kit[index]);
        }

        return (int)Int128.Clamp((have - used) / more, 0, most);
    }

    /// <summary>
    /// Plans for a number of kits, from the sheets at hand for nothing and from a bolt sold by the length at hand, so that the
    /// planner asks no more than whether one such length will do: the plan fits when it will, and is ruled out when the planner
    /// proves that no plan is cheaper.
    /// </summary>
    private sealed class Attempts(CuttingRequest request, Length bolt, IReadOnlyList<int> sheets, IReadOnlyList<int> kit)
    {
        private readonly CuttingStock stock = request.Stock with
        {
            Bolt = request.Stock.Bolt is { } cloth && bolt.IsPositive
                ? cloth with { Increment = bolt, Minimum = Length.Zero, PricePerYard = 1m, Available = null }
                : null,
            Sheets = AtHand(request.Stock, sheets, withMore: request.Stock.Bolt is null || !bolt.IsPositive),
        };

        public Attempt Try(int kits)
        {
            var wanted = request with
            {
                Stock = stock,
                Objective = CuttingObjective.LeastWork,
                Pieces = [.. request.Pieces.Select((piece, index) => piece with { Count = checked(piece.Count + (kits * kit[index])) })],
            };
            if (CuttingPlanner.Plan(wanted).Plan is not { } plan)
            {
                return Attempt.NotFound;
            }

            var left = Buying.Leaves(request.Stock, bolt);
            if (plan.Length <= left && plan.Sheets.All(recipe => recipe.Sheet < sheets.Count))
            {
                return Attempt.Fits;
            }

            return plan.Floor > left || plan.Status == PlanStatus.ProvedBest ? Attempt.RuledOut : Attempt.NotFound;
        }

        /// <summary>The sheets at hand; without a bolt, each also as a second kind that is bought, so that there always is a plan.</summary>
        private static IReadOnlyList<SheetStock> AtHand(CuttingStock stock, IReadOnlyList<int> sheets, bool withMore)
        {
            var free = stock.Sheets.Select((sheet, index) => sheet with { Available = sheets[index], Price = 0m, PackSize = 1 });
            var more = stock.Sheets.Select(sheet => sheet with { Name = $"{sheet.Name}, more", Available = null, Price = 1m, PackSize = 1 });
            return [.. free, .. withMore ? more : []];
        }
    }
}
