namespace KittingBee.Planning.Blocks;

/// <summary>Says how the seams inside units are pressed: what most of a kind do, and where others are.</summary>
internal static class PressingWords
{
    public static IEnumerable<Sentence> OfUnits(IReadOnlyList<PressedUnitSeam> seams) => seams.GroupBy(seam => seam.Kind).OrderBy(kind => kind.Key).Select(kind =>
    {
        var title = UnitKinds.InWords(kind.Key, 2).AtStart();
        if (kind.All(seam => seam.IsFixed))
        {
            return kind.Key switch
            {
                UnitKind.FlyingGeese => (Sentence)$"{title}: press toward the skies.",
                UnitKind.PiecedTriangle => $"{title}: press the long seam toward the plain half.",
                _ => $"{title}: press the corners outward.",
            };
        }

        var ways = kind.GroupBy(seam => seam.Unit)
            .Select(unit => (Way: Way(kind.Key, [.. unit]), Place: (Sentence)$"row {unit.First().Row + 1}, column {unit.First().Column + 1}"))
            .GroupBy(unit => unit.Way, unit => unit.Place)
            .OrderByDescending(way => way.Count())
            .ToList();
        return ways.Count == 1
            ? (Sentence)$"{title}: press {ways[0].Key}."
            : $"{title}: {Sentence.Join("; ", ways.Select(Where))}.";
    });

    private static Sentence Where(IGrouping<Sentence, Sentence> way)
    {
        var places = way.Skip(1).Aggregate(way.First(), (all, place) => $"{all} and {place}");
        return way.Count() == 1 ? (Sentence)$"the one at {places} {way.Key}" : $"those at {places} {way.Key}";
    }

    private static Sentence Way(UnitKind kind, IReadOnlyList<PressedUnitSeam> seams)
    {
        switch (kind)
        {
            case UnitKind.HalfSquareTriangle:
                return Toward(seams[0].Toward);
            case UnitKind.QuarterSquareTriangle:
                return seams.Count == 1 ? Toward(seams[0].Toward) : $"the short seams toward {seams[1].Toward}, the long one toward the {Side(seams[0])}";
            case UnitKind.Checkerboard:
                // Every row is pressed the other way than the one before it.
                var parts = new List<Sentence>();
                if (seams.FirstOrDefault(seam => seam.From.X == seam.To.X) is { } first)
                {
                    parts.Add($"the first row to the {Side(first)} and the others by turns");
                }

                var between = seams.Where(seam => seam.From.Y == seam.To.Y).Select(Side).Distinct().ToList();
                if (between.Count > 0)
                {
                    parts.Add($"the seams between the rows {between.Skip(1).Aggregate(between[0], (all, side) => $"{all} or {side}")}");
                }

                return Sentence.Join(", ", parts);
            default:
                var fabrics = seams.Select(seam => seam.Toward).Distinct().ToList();
                var sides = seams.Select(Side).ToList();
                return fabrics.Count == 1 ? Toward(fabrics[0])
                    : sides.Distinct().Count() == 1 ? $"all {sides[0]}"
                    : Sentence.Join(", ", sides);
        }
    }

    /// <summary>A fabric's letter, or the name of a part that has several.</summary>
    private static Sentence Toward(string fabric) => fabric == UnitSeams.PiecedHalf ? (Sentence)"toward the pieced half" : $"toward {fabric}";

    /// <summary>The side of the drawing that a seam is pressed to.</summary>
    private static Sentence Side(PressedUnitSeam seam)
    {
        var (across, down) = (seam.To.X - seam.From.X, seam.To.Y - seam.From.Y);
        var (x, y) = seam.ToRight ? (-down, across) : (down, -across);
        return (Math.Sign(x.Ticks), Math.Sign(y.Ticks)) switch
        {
            (0, > 0) => (Sentence)"down",
            (0, _) => "up",
            ( > 0, 0) => "right",
            (_, 0) => "left",
            ( > 0, > 0) => "lower right",
            ( > 0, _) => "upper right",
            (_, > 0) => "lower left",
            _ => "upper left",
        };
    }
}
