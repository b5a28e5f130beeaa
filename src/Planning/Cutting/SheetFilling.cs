namespace KittingBee.Planning.Cutting;

/// <summary>One way to lay strips on a sheet: the room along a strip and for strips, and the ways in which pieces lie.</summary>
internal sealed record SheetGround(long Across, long Along, Facing[] Facings);

/// <summary>What a piece opens when it is laid; a sheet may be opened in several ways, each one above the other.</summary>
internal enum Opens
{
    Nothing,
    Column,
    Strip,
    Sheet,
}

/// <summary>A sheet with pieces on it: strips of columns of facings.</summary>
internal sealed class FilledSheet(int ground, int sizes)
{
    /// <summary>Which way its strips run.</summary>
    public int Ground { get; } = ground;

    public List<List<List<int>>> Strips { get; } = [];

    /// <summary>Pieces on it, by size.</summary>
    public int[] Yield { get; } = new int[sizes];

    public void Lay(int facing, Opens opens, int size)
    {
        if (opens >= Opens.Strip)
        {
            Strips.Add([]);
        }

        if (opens >= Opens.Column)
        {
            Strips[^1].Add([]);
        }

        Strips[^1][^1].Add(facing);
        Yield[size]++;
    }
}

/// <summary>A state that could be kept.</summary>
internal readonly record struct Candidate(int Parent, int Facing, Opens Opens, ulong Set);

/// <summary>Rated states, of which the best are wanted in order without sorting them all.</summary>
internal sealed class Candidates
{
    private double[] _rates = new double[1024];
    private Candidate[] _states = new Candidate[1024];
    private int[] _order = [];

    public int Count { get; private set; }

    public Candidate this[int index] => _states[index];

    public void Clear() => Count = 0;

    public void Add(double rate, int parent, int facing, Opens opens, ulong set)
    {
        if (Count == _rates.Length)
        {
            Array.Resize(ref _rates, 2 * Count);
            Array.Resize(ref _states, 2 * Count);
        }

        _rates[Count] = rate;
        _states[Count++] = new Candidate(parent, facing, opens, set);
    }

    /// <summary>Indices of the lowest rates, lowest first; of equal rates the one that was added first.</summary>
    public ReadOnlySpan<int> Best(int most)
    {
        if (_order.Length < Count)
        {
            _order = new int[_rates.Length];
        }

        for (var index = 0; index < Count; index++)
        {
            _order[index] = index;
        }

        var taken = Math.Min(most, Count);
        Part(taken);
        _order.AsSpan(0, taken).Sort(Compare);
        return _order.AsSpan(0, taken);
    }

    private int Compare(int one, int other)
    {
        var rates = _rates[one].CompareTo(_rates[other]);
        return rates != 0 ? rates : one.CompareTo(other);
    }

    /// <summary>Brings the lowest <paramref name="most"/> to the front, in any order (Hoare's selection).</summary>
    private void Part(int most)
    {
        int low = 0, high = Count - 1;
        while (low < high)
        {
            var pivot = _order[low + ((high - low) / 2)];
            int left = low, right = high;
            while (left <= right)
            {
                while (Compare(_order[left], pivot) < 0)
                {
                    left++;
                }

                while (Compare(_order[right], pivot) > 0)
                {
                    right--;
                }

                if (left <= right)
                {
                    (_order[left], _order[right]) = (_order[right], _order[left]);
                    left++;
                    right--;
                }
            }

            if (most <= right + 1)
            {
                high = right;
            }
            else if (most >= left)
            {
                low = left;
            }
            else
            {
                break;
            }
        }
    }
}
