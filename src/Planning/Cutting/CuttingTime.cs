using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>How fast the class's cutters work. The defaults are ours, for an unhurried pair of hands; a class sets its own.</summary>
/// <param name="SecondsPerStroke">Laying the ruler, one pass of the cutter, lifting the piece away.</param>
/// <param name="SecondsPerSetting">Reading the ticket and finding the next measure on the ruler.</param>
/// <param name="SecondsPerPile">Stacking and squaring the layers of one pile before it is sub-cut.</param>
/// <param name="SecondsPerYard">Pressing and folding a yard of bolt before cutting.</param>
public sealed record CuttingRates(
    decimal SecondsPerStroke = 8m, decimal SecondsPerSetting = 20m, decimal SecondsPerPile = 20m, decimal SecondsPerYard = 120m);

/// <summary>The time a plan takes at the cutting table.</summary>
public static class CuttingTime
{
    /// <summary>
    /// Minutes for the whole plan, to the tenth, rounded up: strokes, changes of the ruler's setting in ticket order, piles
    /// stacked, and bolt pressed, each at its rate.
    /// </summary>
    public static decimal Minutes(CuttingRequest request, CuttingPlan plan, CuttingRates rates)
    {
        var lines = CutOrder.Lines(request, plan);
        var seconds = (plan.Strokes * rates.SecondsPerStroke)
            + (Settings(lines) * rates.SecondsPerSetting)
            + (lines.Sum(line => line.Piles) * rates.SecondsPerPile)
            + (plan.Length.Yards * rates.SecondsPerYard);
        return decimal.Ceiling(seconds / 6m) / 10m;
    }

    /// <summary>How often the ruler is set anew: for strips, for sub-cuts, for cross-cuts of another height and for trims of another width.</summary>
    public static int Settings(IReadOnlyList<TicketLine> lines)
    {
        var settings = 0;
        foreach (var line in lines)
        {
            settings += line.SameSetting ? 0 : 1;
            foreach (var subCut in line.SubCuts)
            {
                settings += subCut.SameSetting ? 0 : 1;
                settings += Changes(subCut.Column.Pieces.Select(piece => piece.Height), line.Strip.Height);
                settings += Changes(subCut.Column.Pieces.Select(piece => piece.Width), subCut.Column.Width);
            }
        }

        return settings;
    }

    /// <summary>Measures that differ from the one before; one that is there already needs no cut.</summary>
    private static int Changes(IEnumerable<Length> measures, Length already)
    {
        var changes = 0;
        foreach (var measure in measures)
        {
            changes += measure == already ? 0 : 1;
            already = measure;
        }

        return changes;
    }
}
