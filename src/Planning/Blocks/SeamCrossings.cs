using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>The end of a seam at a point, as the seam that is sewn across it meets it.</summary>
/// <param name="Seam">Number of the seam.</param>
/// <param name="At">Where it ends.</param>
/// <param name="AwayX">Its way from there, across.</param>
/// <param name="AwayY">Its way from there, down.</param>
internal readonly record struct SeamEnd(int Seam, PatchPoint At, Length AwayX, Length AwayY);

/// <summary>A place where seams end under another seam on both its sides. It nests when all above lie one way and all below the other.</summary>
internal sealed record SeamCrossing(bool UnderUpright, IReadOnlyList<SeamEnd> Near, IReadOnlyList<SeamEnd> Far);

/// <summary>A stretch of seam that is sewn over the ends of others.</summary>
internal sealed record SewnLine(bool IsUpright, Length Line, Length From, Length To);

/// <summary>Finds the crossings of a block.</summary>
internal static class SeamCrossings
{
    public static IReadOnlyList<SeamCrossing> Of(IEnumerable<SewnLine> lines, IEnumerable<SeamEnd> ends)
    {
        var all = ends.ToList();
        var byColumn = all.ToLookup(end => end.At.X);
        var byRow = all.ToLookup(end => end.At.Y);
        return [.. lines.SelectMany(line => On(line, line.IsUpright ? byColumn[line.Line] : byRow[line.Line]))];
    }

    private static IEnumerable<SeamCrossing> On(SewnLine line, IEnumerable<SeamEnd> ends)
    {
        foreach (var place in ends.GroupBy(end => line.IsUpright ? end.At.Y : end.At.X).Where(place => place.Key >= line.From && place.Key <= line.To))
        {
            // At an end of the line, only seams that run along its own parts lie under it.
            var under = place.Where(end =>
            {
                var along = line.IsUpright ? end.AwayY : end.AwayX;
                return (place.Key > line.From || along > Length.Zero) && (place.Key < line.To || along < Length.Zero);
            }).ToList();
            Length Across(SeamEnd end) => line.IsUpright ? end.AwayX : end.AwayY;
            var near = under.Where(end => Across(end) < Length.Zero).ToList();
            var far = under.Where(end => Across(end) > Length.Zero).ToList();
            if (near.Count > 0 && far.Count > 0)
            {
                yield return new(line.IsUpright, near, far);
            }
        }
    }
}
