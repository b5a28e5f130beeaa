using System.Numerics;
using KittingBee.Planning.Cutting;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>
/// The best plan of a handful of pieces by looking at all of them: every way to part the pieces into strips, strips into
/// columns, and to turn each piece. Shares nothing with the planner; sizes are whole units. Sets of pieces are bit masks.
/// </summary>
internal sealed class ExactSearch
{
    private const int Never = int.MaxValue / 4;

    private readonly (int Width, int Height, bool Turns)[] pieces;
    private readonly int longest;

    public ExactSearch((int Width, int Height, bool Turns)[] pieces, int longest)
    {
        this.pieces = pieces;
        this.longest = longest;
    }

    public int All => (1 << pieces.Length) - 1;

    /// <summary>For each set of pieces, the least length of a cloth this wide that they can be cut from; <see cref="Never"/> where none is.</summary>
    public int[] LeastLengths(int across, bool lengthwise, int along = Never)
    {
        var strips = StripHeights(across, lengthwise, along);
        var least = new int[All + 1];
        for (var set = 1; set <= All; set++)
        {
            var first = set & -set;
            var rest = set ^ first;
            least[set] = Never;
            for (var part = rest; ; part = (part - 1) & rest)
            {
                least[set] = Math.Min(least[set], strips[part | first] + least[rest ^ part]);
                if (part == 0)
                {
                    break;
                }
            }
        }

        return least;
    }

    /// <summary>For each set of pieces, the fewest sheets of one size that hold it.</summary>
    public int[] FewestSheets(int width, int length)
    {
        var across = LeastLengths(width, lengthwise: false, length);
        var along = LeastLengths(length, lengthwise: true, width);
        var fewest = new int[All + 1];
        for (var set = 1; set <= All; set++)
        {
            fewest[set] = Never;
            for (var part = set; part > 0; part = (part - 1) & set)
            {
                if (across[part] <= length || along[part] <= width)
                {
                    fewest[set] = Math.Min(fewest[set], 1 + fewest[set ^ part]);
                }
            }
        }

        return fewest;
    }

    /// <summary>For each set, the least height of one strip that holds it.</summary>
    private int[] StripHeights(int across, bool lengthwise, int along)
    {
        var least = Enumerable.Repeat(Never, All + 1).ToArray();
        var heights = Enumerable.Range(1, pieces.Sum(piece => Math.Max(piece.Width, piece.Height))).Where(height => height <= along);
        foreach (var height in heights)
        {
            var columns = ColumnWidths(height, across, lengthwise, along);
            var widths = new int[All + 1];
            for (var set = 1; set <= All; set++)
            {
                var first = set & -set;
                var rest = set ^ first;
                widths[set] = Never;
                for (var part = rest; ; part = (part - 1) & rest)
                {
                    widths[set] = Math.Min(widths[set], columns[part | first] + widths[rest ^ part]);
                    if (part == 0)
                    {
                        break;
                    }
                }

                // Above the ruler's length only a strip with a piece of just that height, which has no lower way to lie.
                var allowed = height <= longest || Enumerable.Range(0, pieces.Length)
                    .Any(piece => (set >> piece & 1) == 1 && Ways(piece, across, lengthwise, along).Any(way => way.Height == height));
                if (allowed && widths[set] <= across)
                {
                    least[set] = Math.Min(least[set], height);
                }
            }
        }

        return least;
    }

    /// <summary>For each set, the least width of one column that stacks it within a height.</summary>
    private int[] ColumnWidths(int height, int across, bool lengthwise, int along)
    {
        var least = Enumerable.Repeat(Never, All + 1).ToArray();
        Extend(0, 0, 0, 0);
        return least;

        void Extend(int piece, int set, int width, int up)
        {
            if (up > height)
            {
                return;
            }

            if (piece == pieces.Length)
            {
                least[set] = Math.Min(least[set], width);
                return;
            }

            Extend(piece + 1, set, width, up);
            foreach (var way in Ways(piece, across, lengthwise, along))
            {
                Extend(piece + 1, set | (1 << piece), Math.Max(width, way.Width), up + way.Height);
            }
        }
    }

    private List<(int Width, int Height)> Ways(int index, int across, bool lengthwise, int along)
    {
        var piece = pieces[index];
        var asEntered = lengthwise ? (piece.Height, piece.Width) : (piece.Width, piece.Height);
        (int Width, int Height)[] ways = piece.Turns ? [asEntered, (asEntered.Item2, asEntered.Item1)] : [asEntered];
        var fitting = ways.Where(way => way.Width <= across && way.Height <= along).ToList();
        var usual = fitting.Where(way => way.Height <= longest).ToList();
        return usual.Count > 0 ? usual : fitting;
    }
}
