namespace KittingBee.Planning.Blocks;

/// <summary>Says how the seams inside units are pressed: what most of a kind do, and where others are.</summary>
internal static class PressingWords
{
    public static IEnumerable<string> OfUnits(IReadOnlyList<PressedUnitSeam> seams) => seams.GroupBy(seam => seam.Kind).OrderBy(kind => kind.Key).Select(kind =>
    {
        var name = UnitKinds.InWords(kind.Key, 2);
        var title = char.ToUpperInvariant(name[0]) + name[1..];
        if (kind.All(seam => seam.IsFixed))
        {
            return kind.Key switch
            {
                UnitKind.FlyingGeese => $"{title}: press toward the skies.",
                UnitKind.PiecedTriangle => $"{title}: press the long seam toward the plain half.",
                _ => $"{title}: press the corners outward.",
            };
        }

        var ways = kind.GroupBy(seam => seam.Unit)
            .Select(unit => (Way: Way(kind.Key, [.. unit]), Place: $"row {unit.First().Row + 1}, column {unit.First().Column + 1}"))
            .GroupBy(unit => unit.Way, unit => unit.Place)
            .OrderByDescending(way => way.Count())
            .ToList();
        return ways.Count == 1
            ? $"{title}: press {ways[0].Key}."
            : $"{title}: {string.Join("; ", ways.Select(way => $"{(way.Count() == 1 ? "the one at" : "those at")} {string.Join(" and ", way)} {way.Key}"))}.";
    });

    private static string Way(UnitKind kind, IReadOnlyList<PressedUnitSeam> seams)
    {
        switch (kind)
        {
            case UnitKind.HalfSquareTriangle:
                return $"toward {seams[0].Toward}";
            case UnitKind.QuarterSquareTriangle:
                return seams.Count == 1 ? $"toward {seams[0].Toward}" : $"the short seams toward {seams[1].Toward}, the long one toward the {Side(seams[0])}";
            case UnitKind.Checkerboard:
                // Every row is pressed the other way than the one before it.
                var first = seams.FirstOrDefault(seam => seam.From.X == seam.To.X);
                var between = seams.Where(seam => seam.From.Y == seam.To.Y).Select(Side).Distinct().ToList();
                return string.Join(", ", new[]
                {
                    first is null ? null : $"the first row to the {Side(first)} and the others by turns",
                    between.Count == 0 ? null : $"the seams between the rows {string.Join(" or ", between)}",
                }.Where(part => part is not null));
            default:
                var fabrics = seams.Select(seam => seam.Toward).Distinct().ToList();
                return fabrics.Count == 1 ? $"toward {fabrics[0]}" : string.Join(", ", seams.Select(Side).Distinct().Count() == 1 ? [$"all {Side(seams[0])}"] : seams.Select(Side));
        }
    }

    /// <summary>The side of the drawing that a seam is pressed to.</summary>
    private static string Side(PressedUnitSeam seam)
    {
        var (across, down) = (seam.To.X - seam.From.X, seam.To.Y - seam.From.Y);
        var (x, y) = seam.ToRight ? (-down, across) : (down, -across);
        var upright = y.Ticks == 0 ? "" : y.Ticks > 0 ? "down" : "up";
        var level = x.Ticks == 0 ? "" : x.Ticks > 0 ? "right" : "left";
        return upright.Length == 0 ? level : level.Length == 0 ? upright : $"{(upright == "down" ? "lower" : "upper")} {level}";
    }
}
