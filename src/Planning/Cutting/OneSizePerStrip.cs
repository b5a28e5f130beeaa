using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The handbooks' way of cutting, for comparison: each size has strips of its own across the usable width, cut into as many
/// pieces as fit side by side, one row a strip. A piece that may be turned lies the way that takes less length (then fewer
/// strips, then as entered), but never higher than the longest ruler where it has a lower way. Lines of one size that may all be turned alike share strips.
/// </summary>
public static class OneSizePerStrip
{
    /// <summary>
    /// The strips for all pieces, or null when there is no bolt or a piece is wider than the bolt either way. How much cloth
    /// is to be had is not looked at, and sheets are not used: a handbook buys what it needs.
    /// </summary>
    public static IReadOnlyList<Strip>? Strips(CuttingRequest request)
    {
        var width = Buying.BoltWidth(request.Stock);
        var strips = new List<Strip>();
        var sizes = request.Pieces
            .Select((piece, index) => (Piece: piece, Index: index, Turns: piece.MayTurn && !request.Directional))
            .GroupBy(line => (line.Piece.Width, line.Piece.Height, line.Turns));
        foreach (var size in sizes)
        {
            var need = size.Sum(line => (long)line.Piece.Count);
            var fitting = Ways(size.Key.Width, size.Key.Height, size.Key.Turns).Where(one => one.Across <= width).ToList();
            var usual = fitting.Where(one => one.Up <= request.LongestStrip).ToList();
            var way = (usual.Count > 0 ? usual : fitting)
                .Select(one => (one.Across, one.Up, one.Turned, PerStrip: width.CountOf(one.Across)))
                .Select(one => (Way: one, Strips: (need + one.PerStrip - 1) / one.PerStrip))
                .OrderBy(one => one.Way.Up * one.Strips).ThenBy(one => one.Strips).ThenBy(one => one.Way.Turned)
                .Select(one => ((Length Across, Length Up, bool Turned, long PerStrip)?)one.Way)
                .FirstOrDefault();
            if (way is not { } chosen)
            {
                return null;
            }

            strips.AddRange(Rows(size.Select(line => (line.Index, line.Piece.Count)), chosen.Across, chosen.Up, chosen.Turned, chosen.PerStrip));
        }

        return [.. strips.OrderByDescending(strip => strip.Height)];
    }

    /// <summary>What the handbooks' plan buys, or null where it has none.</summary>
    public static Purchase? Buy(CuttingRequest request) => Strips(request) is { } strips
        ? Buying.For(request.Stock, LengthOf(strips), [])
        : null;

    /// <summary>The length of bolt that strips take together.</summary>
    public static Length LengthOf(IEnumerable<Strip> strips) =>
        strips.Aggregate(Length.Zero, (sum, strip) => sum + (strip.Height * strip.Repeat));

    private static IEnumerable<(Length Across, Length Up, bool Turned)> Ways(Length width, Length height, bool turns)
    {
        yield return (width, height, false);
        if (turns && width != height)
        {
            yield return (height, width, true);
        }
    }

    /// <summary>Lays lines of one size end to end: full strips as one recipe, and a strip of its own where two lines meet or the last one ends.</summary>
    private static IEnumerable<Strip> Rows(IEnumerable<(int Index, int Count)> lines, Length across, Length up, bool turned, long perStrip)
    {
        var open = new List<Column>();
        long free = perStrip;
        foreach (var (index, count) in lines)
        {
            long left = count;
            while (left > 0)
            {
                if (free == perStrip && left >= perStrip)
                {
                    yield return new Strip(up, checked((int)(left / perStrip)), [Stand(index, perStrip)]);
                    left %= perStrip;
                    continue;
                }

                var taken = Math.Min(free, left);
                open.Add(Stand(index, taken));
                (free, left) = (free - taken, left - taken);
                if (free == 0)
                {
                    yield return new Strip(up, 1, [.. open]);
                    open.Clear();
                    free = perStrip;
                }
            }
        }

        if (open.Count > 0)
        {
            yield return new Strip(up, 1, [.. open]);
        }

        Column Stand(int index, long count) =>
            new(across, checked((int)count), [new StackedPiece(index, across, up, turned, 1)]);
    }
}
