namespace KittingBee.Planning.Cutting;

/// <summary>
/// The lengths that sums of given sizes can reach, up to a limit: the only places where a cut can usefully fall. The
/// tables are kept at these places alone, so eighths of an inch and millimetres both stay small, and sizes without a
/// common measure cost no more than the sums that they can make.
/// </summary>
internal sealed class ReachableSums
{
    private ReachableSums(long[] sums) => Sums = sums;

    /// <summary>In rising order; the first is zero.</summary>
    public long[] Sums { get; }

    public int Count => Sums.Length;

    /// <summary>The sums up to <paramref name="limit"/>, or null when there are more than <paramref name="most"/> of them.</summary>
    public static ReachableSums? Of(IEnumerable<long> sizes, long limit, int most)
    {
        var reached = new HashSet<long> { 0 };
        var ordered = new List<long> { 0 };
        foreach (var size in sizes.Distinct().Order())
        {
            // The list grows while it is walked, which is what makes multiples of one size reachable.
            for (var index = 0; index < ordered.Count; index++)
            {
                var sum = ordered[index] + size;
                if (sum <= limit && reached.Add(sum))
                {
                    ordered.Add(sum);
                    if (ordered.Count > most)
                    {
                        return null;
                    }
                }
            }
        }

        ordered.Sort();
        return new ReachableSums([.. ordered]);
    }

    /// <summary>Index of the greatest sum that is not more than <paramref name="length"/>; −1 below zero.</summary>
    public int IndexAtMost(long length)
    {
        if (length < 0)
        {
            return -1;
        }

        var found = Array.BinarySearch(Sums, length);
        return found >= 0 ? found : ~found - 1;
    }

    /// <summary>For every sum the index of the greatest sum that leaves room for <paramref name="size"/>, or −1.</summary>
    public int[] Before(long size)
    {
        var before = new int[Count];
        for (var index = 0; index < Count; index++)
        {
            before[index] = IndexAtMost(Sums[index] - size);
        }

        return before;
    }
}
