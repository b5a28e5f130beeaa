using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The one door to cutting plans: reads the request for problems, plans it, compares, and has the plan checked.</summary>
public static class CuttingPlanner
{
    /// <summary>Plans one fabric. Bad input comes back as problems, never as an exception.</summary>
    public static CuttingResult Plan(CuttingRequest request)
    {
        var problems = RequestProblems.In(request);
        if (problems.Count > 0)
        {
            return new CuttingResult(null, problems);
        }

        if (OneSizePerStrip.Strips(request) is not { } strips)
        {
            return new CuttingResult(null, [new("stock.bolt", "Not every piece fits the bolt: add a bolt that is wide enough.")]);
        }

        var length = OneSizePerStrip.LengthOf(strips);
        var buy = Buying.For(request.Stock, length, []);
        if (request.Stock.Bolt?.Available is { } available && buy.Length > available)
        {
            return new CuttingResult(null, [new("stock.bolt.available", $"{buy.Length} is needed and {available} is to be had: add cloth or cut fewer pieces.")]);
        }

        var floor = request.Stock.Sheets.Count > 0 ? Length.Zero : AreaFloor(request);
        return new CuttingResult(
            new CuttingPlan
            {
                Length = length,
                Floor = floor,
                Buy = buy,
                OneSizePerStrip = buy,
                Strips = strips,
                Sheets = [],
                Surplus = [],
                Strokes = Strokes.Count(request, strips, []),
                Status = length == floor ? PlanStatus.ProvedBest : PlanStatus.Good,
                Gap = floor.IsPositive ? (decimal)(length - floor).Ticks / floor.Ticks : 0m,
            },
            []);
    }

    /// <summary>The length of bolt that holds the pieces' area, rounded down to the tick.</summary>
    private static Length AreaFloor(CuttingRequest request)
    {
        var width = Buying.BoltWidth(request.Stock);
        var area = request.Pieces.Aggregate(Int128.Zero, (sum, piece) => sum + ((Int128)piece.Width.Ticks * piece.Height.Ticks * piece.Count));
        return Length.FromTicks((long)(area / width.Ticks));
    }
}
