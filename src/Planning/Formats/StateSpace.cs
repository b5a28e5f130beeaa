namespace KittingBee.Planning.Formats;

/// <summary>All ways to take up to so many of each size, numbered: the digits of the number are the counts.</summary>
internal sealed class StateSpace
{
    private readonly int[] weights;
    private readonly int[] digits;

    public StateSpace(IReadOnlyList<int> caps)
    {
        Caps = [.. caps];
        weights = new int[caps.Count];
        var states = 1;
        for (var digit = 0; digit < caps.Count; digit++)
        {
            weights[digit] = states;
            states *= caps[digit] + 1;
        }

        Count = states;

        // The tables ask for digits many million times: divisions would be most of the work.
        digits = new int[states * caps.Count];
        for (var index = 0; index < digits.Length; index++)
        {
            var (state, size) = (index / caps.Count, index % caps.Count);
            digits[index] = state / weights[size] % (caps[size] + 1);
        }
    }

    /// <summary>The most of each size.</summary>
    public IReadOnlyList<int> Caps { get; }

    /// <summary>How many states there are.</summary>
    public int Count { get; }

    /// <summary>How many states these caps would make.</summary>
    public static double CountFor(IEnumerable<int> caps) => caps.Aggregate(1.0, (product, cap) => product * (cap + 1));

    /// <summary>The counts of a state.</summary>
    public int[] Counts(int state) => digits[(state * weights.Length)..((state + 1) * weights.Length)];

    /// <summary>The state of the counts, each cut down to its cap.</summary>
    public int Of(IReadOnlyList<int> counts) => weights.Select((weight, size) => weight * Math.Min(counts[size], Caps[size])).Sum();

    /// <summary>What is still wanted when a state's pieces are taken off another's; never under zero.</summary>
    public int Less(int wanted, int[] taken)
    {
        var result = 0;
        var first = wanted * weights.Length;
        for (var size = 0; size < taken.Length; size++)
        {
            var left = digits[first + size] - taken[size];
            if (left > 0)
            {
                result += left * weights[size];
            }
        }

        return result;
    }

    /// <summary>True when no state with one piece more passes as well.</summary>
    public bool IsLargest(int state, Func<int, bool> passes)
    {
        for (var size = 0; size < weights.Length; size++)
        {
            if (digits[(state * weights.Length) + size] < Caps[size] && passes(state + weights[size]))
            {
                return false;
            }
        }

        return true;
    }
}
