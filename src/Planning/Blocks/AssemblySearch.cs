namespace KittingBee.Planning.Blocks;

/// <summary>A rectangle of grid cells, edges exclusive at the far side.</summary>
internal readonly record struct Cells(int Left, int Top, int Right, int Bottom)
{
    public int Area => (Right - Left) * (Bottom - Top);
}

/// <summary>
/// Splits a grid along seams that run edge to edge. Splitting along all such seams of one direction at once is never
/// worse than along some of them, since a part of a piece never needs more rounds than the piece; so the fewest rounds
/// are found by trying both directions for each rectangle, each rectangle once.
/// </summary>
internal sealed class AssemblySearch
{
    /// <summary>Neighbours looked at together: pairs, threes and fours, as blocks are built.</summary>
    private const int MostAlike = 4;

    private readonly PlacedBlock block;
    private readonly int[,] owner;
    private readonly Dictionary<Cells, AssemblyPiece> found = [];

    /// <summary>Pieces made already, standing as one owner: owner number to piece.</summary>
    private readonly Dictionary<int, AssemblyPiece> made;

    private AssemblySearch(PlacedBlock block, int[,] owner, Dictionary<int, AssemblyPiece> made)
    {
        this.block = block;
        this.owner = owner;
        this.made = made;
    }

    public static AssemblyPiece Of(PlacedBlock block)
    {
        var owner = new int[block.Rows, block.Columns];
        var made = new Dictionary<int, AssemblyPiece>();
        foreach (var unit in block.Units)
        {
            var piece = new AssemblyPiece(unit.Column, unit.Row, unit.ColumnSpan, unit.RowSpan, JoinKind.Unit, unit.Number, []);
            made.Add(unit.Number, piece);
            Fill(owner, piece, unit.Number);
        }

        return new AssemblySearch(block, owner, made).Best(new(0, 0, block.Columns, block.Rows));
    }

    private static void Fill(int[,] owner, AssemblyPiece piece, int number)
    {
        for (var row = piece.Row; row < piece.Row + piece.RowSpan; row++)
        {
            for (var column = piece.Column; column < piece.Column + piece.ColumnSpan; column++)
            {
                owner[row, column] = number;
            }
        }
    }

    private AssemblyPiece Best(Cells cells)
    {
        if (found.TryGetValue(cells, out var known))
        {
            return known;
        }

        var first = owner[cells.Top, cells.Left];
        var piece = IsOneOwner(cells, first) ? made[first] : Split(cells) ?? AroundTheMiddle(cells);
        found.Add(cells, piece);
        return piece;
    }

    /// <summary>The better of rows and columns; rows where both take as many rounds, as blocks are usually sewn in rows.</summary>
    private AssemblyPiece? Split(Cells cells)
    {
        var levels = Enumerable.Range(cells.Top + 1, cells.Bottom - cells.Top - 1).Where(line => IsLevelSeam(cells, line)).ToList();
        var uprights = Enumerable.Range(cells.Left + 1, cells.Right - cells.Left - 1).Where(line => IsUprightSeam(cells, line)).ToList();
        var stacked = levels.Count == 0 ? null : Joined(cells, JoinKind.Stacked, AlikeTogether(levels.Prepend(cells.Top)
            .Zip(levels.Append(cells.Bottom), (top, bottom) => cells with { Top = top, Bottom = bottom })));
        var beside = uprights.Count == 0 ? null : Joined(cells, JoinKind.SideBySide, AlikeTogether(uprights.Prepend(cells.Left)
            .Zip(uprights.Append(cells.Right), (left, right) => cells with { Left = left, Right = right })));
        return stacked is null || (beside is not null && beside.Depth < stacked.Depth) ? beside : stacked;
    }

    /// <summary>
    /// The pieces on some neighbouring rectangles. Neighbours that look like another, joined piece of the same row when they are
    /// sewn together are sewn together first, so that alike pieces are chain-pieced; that takes no more rounds, since the other
    /// piece takes as many.
    /// </summary>
    private List<AssemblyPiece> AlikeTogether(IEnumerable<Cells> neighbours)
    {
        var parts = neighbours.ToList();
        var models = parts.Where(part => Best(part).Parts.Count > 0).Select(Look).ToHashSet(StringComparer.Ordinal);
        for (var start = 0; models.Count > 0 && start < parts.Count; start++)
        {
            for (var end = start + 1; end < parts.Count && end - start < MostAlike && (start > 0 || end < parts.Count - 1); end++)
            {
                var together = parts[start] with { Right = parts[end].Right, Bottom = parts[end].Bottom };
                if (models.Contains(Look(together)))
                {
                    parts.RemoveRange(start, end - start + 1);
                    parts.Insert(start, together);
                    break;
                }
            }
        }

        return [.. parts.Select(Best)];
    }

    private string Look(Cells cells) =>
        block.Part(cells.Left, cells.Top, cells.Right - cells.Left, cells.Bottom - cells.Top).KeyOfAllTurns();

    /// <summary>
    /// Where no seam runs across, whole pieces within are made first, largest first; what is left cannot be split, and its
    /// first seam is sewn in part.
    /// </summary>
    private AssemblyPiece AroundTheMiddle(Cells cells)
    {
        var within = new AssemblySearch(block, (int[,])owner.Clone(), new(made));
        var next = -1;
        while (within.LargestPiece(cells) is { } inner)
        {
            var piece = within.Best(inner);
            while (within.made.ContainsKey(next))
            {
                next--;
            }

            within.made.Add(next, piece);
            Fill(within.owner, piece, next);
            within.found.Clear();
        }

        var parts = within.Owners(cells).Select(number => within.made[number]).ToList();
        return Joined(cells, JoinKind.PartialSeam, PartialSeams.Order(parts));
    }

    private static AssemblyPiece Joined(Cells cells, JoinKind join, IEnumerable<AssemblyPiece> parts) =>
        new(cells.Left, cells.Top, cells.Right - cells.Left, cells.Bottom - cells.Top, join, 0, [.. parts]);

    /// <summary>The largest rectangle of two or more pieces inside these cells whose edges no piece crosses.</summary>
    private Cells? LargestPiece(Cells cells)
    {
        Cells? best = null;
        for (var top = cells.Top; top < cells.Bottom; top++)
        {
            for (var left = cells.Left; left < cells.Right; left++)
            {
                for (var bottom = top + 1; bottom <= cells.Bottom; bottom++)
                {
                    for (var right = left + 1; right <= cells.Right; right++)
                    {
                        var inner = new Cells(left, top, right, bottom);
                        if (inner != cells && inner.Area > (best?.Area ?? 0) && !IsOneOwner(inner, owner[top, left]) && IsClosed(inner, cells))
                        {
                            best = inner;
                        }
                    }
                }
            }
        }

        return best;
    }

    private bool IsClosed(Cells inner, Cells outer) =>
        (inner.Top == outer.Top || IsLevelSeam(inner, inner.Top))
        && (inner.Bottom == outer.Bottom || IsLevelSeam(inner, inner.Bottom))
        && (inner.Left == outer.Left || IsUprightSeam(inner, inner.Left))
        && (inner.Right == outer.Right || IsUprightSeam(inner, inner.Right));

    private bool IsLevelSeam(Cells cells, int line)
    {
        for (var column = cells.Left; column < cells.Right; column++)
        {
            if (owner[line - 1, column] == owner[line, column])
            {
                return false;
            }
        }

        return true;
    }

    private bool IsUprightSeam(Cells cells, int line)
    {
        for (var row = cells.Top; row < cells.Bottom; row++)
        {
            if (owner[row, line - 1] == owner[row, line])
            {
                return false;
            }
        }

        return true;
    }

    private bool IsOneOwner(Cells cells, int number)
    {
        for (var row = cells.Top; row < cells.Bottom; row++)
        {
            for (var column = cells.Left; column < cells.Right; column++)
            {
                if (owner[row, column] != number)
                {
                    return false;
                }
            }
        }

        return true;
    }

    private List<int> Owners(Cells cells)
    {
        var owners = new List<int>();
        for (var row = cells.Top; row < cells.Bottom; row++)
        {
            for (var column = cells.Left; column < cells.Right; column++)
            {
                if (!owners.Contains(owner[row, column]))
                {
                    owners.Add(owner[row, column]);
                }
            }
        }

        return owners;
    }
}
