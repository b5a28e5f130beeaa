using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Pieces of one cut size under all their names; the planner counts sizes, names come back at the end.</summary>
/// <param name="Width">Cut size across the bolt, as entered.</param>
/// <param name="Height">Cut size along the bolt, as entered.</param>
/// <param name="Turns">True when it may lie turned by a quarter.</param>
/// <param name="Pieces">Indices of the request's pieces of this size.</param>
/// <param name="Demand">How many are needed under all names.</param>
internal sealed record Size(Length Width, Length Height, bool Turns, IReadOnlyList<int> Pieces, int Demand);

/// <summary>One way in which a size may lie in a strip.</summary>
/// <param name="Size">Index into the model's sizes.</param>
/// <param name="Turned">True when it lies turned against the grain by a quarter.</param>
/// <param name="Width">Ticks along the strip.</param>
/// <param name="Height">Ticks up the strip.</param>
internal readonly record struct Facing(int Size, bool Turned, long Width, long Height);

/// <summary>One kind of cloth and one way to lay strips on it.</summary>
/// <param name="Sheet">Index into the stock's sheets, or −1 for the bolt.</param>
/// <param name="Lengthwise">True where strips run along the sheet's length.</param>
/// <param name="Across">Ticks of room along a strip.</param>
/// <param name="Along">Ticks of room for strips on one sheet; unlimited on a bolt.</param>
internal sealed record Ground(int Sheet, bool Lengthwise, long Across, long Along)
{
    public bool IsBolt => Sheet < 0;
}

/// <summary>A request as the planner sees it: distinct sizes, and the washed and trued cloth they may be cut from.</summary>
internal sealed class CuttingModel
{
    private CuttingModel(CuttingRequest request, IReadOnlyList<Size> sizes, IReadOnlyList<Ground> grounds)
    {
        Request = request;
        Sizes = sizes;
        Grounds = grounds;
    }

    public CuttingRequest Request { get; }

    public IReadOnlyList<Size> Sizes { get; }

    public IReadOnlyList<Ground> Grounds { get; }

    public static CuttingModel From(CuttingRequest request)
    {
        var sizes = request.Pieces
            .Select((piece, index) => (Piece: piece, Index: index, Turns: !request.Directional && piece.MayTurn && piece.Width != piece.Height))
            .GroupBy(line => line.Turns
                ? (Length.Min(line.Piece.Width, line.Piece.Height), Length.Max(line.Piece.Width, line.Piece.Height), true)
                : (line.Piece.Width, line.Piece.Height, false))
            .Select(group => new Size(
                group.First().Piece.Width,
                group.First().Piece.Height,
                group.Key.Item3,
                [.. group.Select(line => line.Index)],
                group.Sum(line => line.Piece.Count)))
            .ToList();

        var grounds = new List<Ground>();
        if (Buying.BoltWidth(request.Stock) is { IsPositive: true } width)
        {
            grounds.Add(new Ground(-1, false, width.Ticks, long.MaxValue));
        }

        for (var index = 0; index < request.Stock.Sheets.Count; index++)
        {
            var across = Buying.SheetWidth(request.Stock, request.Stock.Sheets[index]).Ticks;
            var along = Buying.SheetLength(request.Stock, request.Stock.Sheets[index]).Ticks;
            if (across > 0 && along > 0 && request.Stock.Sheets[index].Available != 0)
            {
                grounds.Add(new Ground(index, false, across, along));
                grounds.Add(new Ground(index, true, along, across));
            }
        }

        return new CuttingModel(request, sizes, grounds);
    }

    /// <summary>Every way in which a size can lie on a ground; a way taller than the longest ruler only where there is no other.</summary>
    public IEnumerable<Facing> FacingsOn(Ground ground, int size)
    {
        var ways = WaysToLie(size, ground.Lengthwise).Where(way => way.Width <= ground.Across && way.Height <= ground.Along).ToList();
        var usual = ways.Where(way => way.Height <= Request.LongestStrip.Ticks).ToList();
        return usual.Count > 0 ? usual : ways;
    }

    private IEnumerable<Facing> WaysToLie(int index, bool lengthwise)
    {
        var size = Sizes[index];
        var (across, along) = (size.Width.Ticks, size.Height.Ticks);
        yield return lengthwise ? new Facing(index, false, along, across) : new Facing(index, false, across, along);
        if (size.Turns)
        {
            yield return lengthwise ? new Facing(index, true, across, along) : new Facing(index, true, along, across);
        }
    }
}
