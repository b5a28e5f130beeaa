namespace KittingBee.Planning.Blocks;

/// <summary>The order of sewing where no seam runs edge to edge: the middle first, then around it.</summary>
internal static class PartialSeams
{
    /// <summary>
    /// Five pieces around a middle come out as middle, then the one above it, then the others in turn on the side where the one
    /// above ends with the middle; so every seam but the first can be sewn from end to end, and the first is finished when the
    /// fourth is on. Larger knots start from a piece with no edge on the rim.
    /// </summary>
    public static IReadOnlyList<AssemblyPiece> Order(IReadOnlyList<AssemblyPiece> parts)
    {
        var left = parts.Min(part => part.Column);
        var top = parts.Min(part => part.Row);
        var right = parts.Max(part => part.Column + part.ColumnSpan);
        var bottom = parts.Max(part => part.Row + part.RowSpan);
        var middle = parts.FirstOrDefault(part =>
            part.Column > left && part.Row > top && part.Column + part.ColumnSpan < right && part.Row + part.RowSpan < bottom);
        if (middle is null)
        {
            return parts;
        }

        if (parts.Count != 5)
        {
            return [middle, .. parts.Where(part => part != middle)];
        }

        var above = parts.First(part => part != middle && part.Row + part.RowSpan == middle.Row);
        var after = parts.First(part => part != middle && part.Column == middle.Column + middle.ColumnSpan);
        var below = parts.First(part => part != middle && part.Row == middle.Row + middle.RowSpan);
        var before = parts.First(part => part != middle && part.Column + part.ColumnSpan == middle.Column);
        var endsTogether = above.Column + above.ColumnSpan == middle.Column + middle.ColumnSpan;
        return endsTogether ? [middle, above, after, below, before] : [middle, above, before, below, after];
    }
}
