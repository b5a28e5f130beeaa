using KittingBee.Planning.Cutting;

namespace KittingBee.Web.Classes;

/// <summary>
/// What one fabric costs for each number of students. Cloth is bought in steps, so many numbers share one cost: where a smaller
/// and a larger class cost the same, so does every class between, for the plan of the larger one makes its pieces too. Only
/// the numbers at which the cost may change are planned.
/// </summary>
public sealed class FabricSteps(PlanBook plans, IReadOnlyList<FabricRequest?> requests)
{
    private readonly decimal?[] costs = new decimal?[requests.Count];

    /// <summary>The cost for each number that is known; null where it is not yet.</summary>
    public IReadOnlyList<decimal?> Costs => costs;

    /// <summary>Plans until every number is known or the time is up; the numbers that matter first come first.</summary>
    /// <param name="first">A number to plan itself, whatever its neighbours cost.</param>
    /// <param name="goOn">False when the time is up.</param>
    public void Plan(int first, Func<bool> goOn)
    {
        Know(first);
        var spans = new Queue<(int From, int To)>([(0, first), (first, costs.Length - 1)]);
        Know(0);
        Know(costs.Length - 1);
        while (goOn() && spans.TryDequeue(out var span))
        {
            if (span.To - span.From < 2)
            {
                continue;
            }

            if (costs[span.From] == costs[span.To] && IsBetween(span.From, span.To))
            {
                Array.Fill(costs, costs[span.To], span.From + 1, span.To - span.From - 1);
                continue;
            }

            var middle = span.From + ((span.To - span.From) / 2);
            Know(middle);
            spans.Enqueue((span.From, middle));
            spans.Enqueue((middle, span.To));
        }
    }

    private void Know(int index) => costs[index] ??= requests[index] is { } request ? plans.Plan([request with { Request = request.Request with { CostOnly = true } }])[0].Result.Plan?.Buy.Cost ?? 0m : 0m;

    // Spread over colourways, a larger class may have fewer kits in one of them: then nothing is known of those between.
    private bool IsBetween(int from, int to)
    {
        for (var index = from; index < to; index++)
        {
            if (!IsWithin(requests[index]?.Request, requests[index + 1]?.Request))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsWithin(CuttingRequest? few, CuttingRequest? many) =>
        few is null || (many is not null && few.Pieces.All(piece => many.Pieces.FirstOrDefault(other => other.Width == piece.Width && other.Height == piece.Height)?.Count >= piece.Count));
}
