namespace KittingBee.Planning.Cutting;

/// <summary>
/// Fills a number of equal sheets with as much as they hold, by beam search: pieces are laid one after the other on the open
/// column, else in a new column, else in a new strip, else on a new sheet, and after each piece only the most promising
/// states are kept. The idea of the branching and of rating by waste: Fontan and Libralesso, "An anytime tree search
/// algorithm for two-dimensional two- and three-staged guillotine packing problems" (2020). Nothing is random: the same
/// call fills the same sheets.
/// </summary>
internal sealed class SheetBeam
{
    private readonly SheetGround[] _grounds;
    private readonly long _longest;
    private readonly double _area;
    private readonly ulong[] _marks;
    private readonly List<Step> _steps = [];
    private readonly Candidates _candidates = new();
    private readonly HashSet<ulong> _sets = [];
    private Node[] _beam = [], _next = [];
    private ushort[] _left = [], _nextLeft = [];
    private double[] _worth = [];
    private int[][] _active = [];
    private double _bias;

    /// <param name="grounds">The ways to lay strips on the sheet.</param>
    /// <param name="sizes">How many sizes there are.</param>
    /// <param name="longest">No strip is higher, save for one piece that is.</param>
    public SheetBeam(SheetGround[] grounds, int sizes, long longest)
    {
        (_grounds, _longest) = (grounds, longest);
        _area = (double)grounds[0].Across * grounds[0].Along;
        _marks = new ulong[sizes];
        ulong state = 0x9E3779B97F4A7C15;
        for (var size = 0; size < sizes; size++)
        {
            state = unchecked((state ^ (state >> 29)) * 0xBF58476D1CE4E5B9 + 0x94D049BB133111EB);
            _marks[size] = state | 1;
        }
    }

    /// <summary>States rated so far: the measure of work that limits are set in.</summary>
    public long Work { get; private set; }

    /// <summary>True when the last call was strict and dropped no state: nothing better exists.</summary>
    public bool SawAll { get; private set; }

    /// <summary>Fills sheets and returns those with pieces on them.</summary>
    /// <param name="have">Pieces to lay, by size.</param>
    /// <param name="worth">What a piece of each size counts when not all can be laid.</param>
    /// <param name="sheets">The most sheets to use.</param>
    /// <param name="width">How many states are kept after each piece.</param>
    /// <param name="bias">Weight of laying big pieces early against laying without waste; 0 to 1.</param>
    /// <param name="strict">False to keep one state only for the same pieces laid, which makes for variety; true to keep all whose open ends differ.</param>
    public IReadOnlyList<FilledSheet> Fill(int[] have, double[] worth, int sheets, int width, double bias, bool strict)
    {
        var sizes = have.Length;
        SawAll = strict;
        (_worth, _bias) = (worth, bias);
        _active = [.. _grounds.Select(ground => Enumerable.Range(0, ground.Facings.Length).Where(facing => have[ground.Facings[facing].Size] > 0).ToArray())];
        _steps.Clear();
        if (_beam.Length < width)
        {
            (_beam, _next) = (new Node[width], new Node[width]);
            (_left, _nextLeft) = (new ushort[width * sizes], new ushort[width * sizes]);
        }

        _beam[0] = new Node { Step = -1 };
        for (var size = 0; size < sizes; size++)
        {
            _left[size] = (ushort)have[size];
        }

        var best = _beam[0];
        for (var count = 1; count > 0;)
        {
            _candidates.Clear();
            for (var index = 0; index < count; index++)
            {
                Expand(index, in _beam[index], _left.AsSpan(index * sizes, sizes), sheets);
            }

            Work += _candidates.Count;
            count = Keep(width, sizes, strict);
            for (var index = 0; index < count; index++)
            {
                best = _beam[index].Worth > best.Worth ? _beam[index] : best;
            }
        }

        return Read(best.Step, sizes);
    }

    private void Expand(int parent, in Node node, ReadOnlySpan<ushort> left, int sheets)
    {
        if (node.Sheets > 0)
        {
            var ground = _grounds[node.Ground];
            var active = _active[node.Ground];
            var done = (node.Sheets - 1) * _area + (double)node.Below * ground.Across;
            var before = _candidates.Count;

            // A column that still takes a piece is never closed, for that piece could as well come from later on; but the first column of a strip
            // sets its height and may stop anywhere.
            var room = node.First ? Math.Min(ground.Along - node.Below, _longest) : node.High;
            foreach (var facing in active)
            {
                ref readonly var piece = ref ground.Facings[facing];
                if (left[piece.Size] > 0 && piece.Width <= node.Last && node.Stack + piece.Height <= room)
                {
                    Offer(parent, in node, facing, Opens.Nothing, piece, done + (double)node.Before * node.High + (double)node.Column * (node.Stack + piece.Height));
                }
            }

            if (!node.First && _candidates.Count > before)
            {
                return;
            }

            before = _candidates.Count;
            foreach (var facing in active)
            {
                ref readonly var piece = ref ground.Facings[facing];
                if (left[piece.Size] > 0 && piece.Height <= node.High && node.Before + node.Column + piece.Width <= ground.Across)
                {
                    Offer(parent, in node, facing, Opens.Column, piece, done + (double)(node.Before + node.Column) * node.High + (double)piece.Width * piece.Height);
                }
            }

            if (_candidates.Count > before)
            {
                return;
            }

            foreach (var facing in active)
            {
                ref readonly var piece = ref ground.Facings[facing];
                if (left[piece.Size] > 0 && node.Below + node.High + piece.Height <= ground.Along)
                {
                    Offer(parent, in node, facing, Opens.Strip, piece, done + (double)node.High * ground.Across + (double)piece.Width * piece.Height);
                }
            }

            if (_candidates.Count > before)
            {
                return;
            }
        }

        for (var way = 0; way < _grounds.Length && node.Sheets < sheets; way++)
        {
            foreach (var facing in _active[way])
            {
                ref readonly var piece = ref _grounds[way].Facings[facing];
                if (left[piece.Size] > 0)
                {
                    Offer(parent, in node, facing, Opens.Sheet + way, piece, node.Sheets * _area + (double)piece.Width * piece.Height);
                }
            }
        }
    }

    private void Offer(int parent, in Node node, int facing, Opens opens, in Facing piece, double used)
    {
        var packed = node.Packed + (double)piece.Width * piece.Height;
        var worth = node.Worth + _worth[piece.Size];
        var rate = (_bias + ((used - packed) / used)) / worth;
        _candidates.Add(rate, parent, facing, opens, unchecked(node.Set + _marks[piece.Size]));
    }

    /// <summary>Keeps the best states, and of those that are alike only the best one; returns how many.</summary>
    private int Keep(int width, int sizes, bool strict)
    {
        var kept = 0;
        _sets.Clear();
        SawAll &= _candidates.Count <= 4 * width;
        foreach (var index in _candidates.Best(4 * width))
        {
            var candidate = _candidates[index];
            ref readonly var parent = ref _beam[candidate.Parent];
            var next = After(in parent, candidate, _steps.Count, out var size);
            if (!_sets.Add(strict ? next.OpenEnd() : next.Set))
            {
                continue;
            }

            if (kept == width)
            {
                SawAll = false;
                break;
            }

            _steps.Add(new Step(parent.Step, candidate.Facing, candidate.Opens));
            _next[kept] = next;
            _left.AsSpan(candidate.Parent * sizes, sizes).CopyTo(_nextLeft.AsSpan(kept * sizes, sizes));
            _nextLeft[(kept * sizes) + size]--;
            kept++;
        }

        (_beam, _next) = (_next, _beam);
        (_left, _nextLeft) = (_nextLeft, _left);
        return kept;
    }

    private Node After(in Node node, Candidate candidate, int step, out int size)
    {
        var next = node;
        if (candidate.Opens >= Opens.Sheet)
        {
            (next.Sheets, next.Ground, next.Below, next.High) = (node.Sheets + 1, candidate.Opens - Opens.Sheet, 0, 0);
        }

        var piece = _grounds[next.Ground].Facings[candidate.Facing];
        size = piece.Size;
        switch (candidate.Opens)
        {
            case Opens.Nothing:
                next.Stack = node.Stack + piece.Height;
                next.High = node.First ? next.Stack : node.High;
                break;
            case Opens.Column:
                (next.Before, next.Column, next.Stack, next.First) = (node.Before + node.Column, piece.Width, piece.Height, false);
                break;
            default:
                (next.Below, next.High, next.Before, next.Column, next.Stack, next.First) = (next.Below + next.High, piece.Height, 0, piece.Width, piece.Height, true);
                break;
        }

        (next.Last, next.Set, next.Step) = (piece.Width, candidate.Set, step);
        next.Packed += (double)piece.Width * piece.Height;
        next.Worth += _worth[piece.Size];
        return next;
    }

    private List<FilledSheet> Read(int step, int sizes)
    {
        var path = new Stack<Step>();
        for (; step >= 0; step = _steps[step].Parent)
        {
            path.Push(_steps[step]);
        }

        var sheets = new List<FilledSheet>();
        foreach (var (_, facing, opens) in path)
        {
            if (opens >= Opens.Sheet)
            {
                sheets.Add(new FilledSheet(opens - Opens.Sheet, sizes));
            }

            sheets[^1].Lay(facing, opens, _grounds[sheets[^1].Ground].Facings[facing].Size);
        }

        return sheets;
    }

    /// <summary>The open end of a filling: what is closed already does not matter any more, but for its waste.</summary>
    private struct Node
    {
        public int Sheets, Ground, Step;
        public long Below, High, Before, Column, Stack, Last;
        public bool First;
        public double Packed, Worth;
        public ulong Set;

        /// <summary>Pieces laid and the open end, as one number.</summary>
        public readonly ulong OpenEnd()
        {
            var mixed = Set;
            foreach (var part in (ReadOnlySpan<long>)[Sheets, Ground, Below, High, Before, Column, Stack, Last, First ? 1 : 0])
            {
                mixed = unchecked(((mixed ^ (mixed >> 31)) * 0x9E3779B97F4A7C15) + (ulong)part);
            }

            return mixed;
        }
    }

    private readonly record struct Step(int Parent, int Facing, Opens Opens);
}
