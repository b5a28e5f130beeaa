using System.Numerics;
using System.Runtime.InteropServices;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The places along one side that a table is kept at. Where the sums lie close together on their common measure, every
/// multiple of it is a place, so that a size is the same distance everywhere and several places are bettered at once;
/// elsewhere the sums alone are. A place between two sums holds what the lower of them does, so that both give the same.
/// </summary>
internal sealed class TablePlaces
{
    /// <summary>More places than this for each sum would cost what is gained.</summary>
    private const int MostForASum = 3;

    private readonly ReachableSums _sums;
    private readonly int[] _places;

    /// <summary>The distance of places, or zero where the sums are the places.</summary>
    private readonly long _measure;

    /// <param name="sums">What can be reached.</param>
    /// <param name="sizes">What it is reached by.</param>
    public TablePlaces(ReachableSums sums, IEnumerable<long> sizes)
    {
        _sums = sums;
        var measure = sizes.Aggregate(0L, Floor.GreatestCommonDivisor);
        _measure = measure > 0 && sums.Sums[^1] / measure < (long)sums.Count * MostForASum ? measure : 0;
        _places = [.. sums.Sums.Select((sum, index) => _measure > 0 ? (int)(sum / _measure) : index)];
    }

    public int Count => _places[^1] + 1;

    /// <summary>The place of a sum, by its index.</summary>
    public int OfSum(int index) => _places[index];

    /// <summary>The last place within a length.</summary>
    public int At(long length) => _measure > 0 ? (int)Math.Min(length / _measure, _places[^1]) : _sums.IndexAtMost(length);

    /// <summary>The way from place to place that a size makes.</summary>
    public TableStep StepOf(long size) => _measure > 0
        ? new TableStep((int)(size / _measure), null)
        : new TableStep(_sums.IndexAtMost(size), _sums.Before(size));
}

/// <summary>How far back the place lies that a size is added to: by one distance, or by place.</summary>
/// <param name="First">The first place that the size reaches; where <paramref name="Before"/> is null, the distance as well.</param>
/// <param name="Before">The place before, by place.</param>
internal sealed record TableStep(int First, int[]? Before)
{
    public int From(int place) => Before is null ? place - First : Before[place];

    /// <summary>Adds a size, any number of times, where that is worth more than what the table has; and marks where it did.</summary>
    public void Take(Span<double> best, Span<long> choice, double worth, long mark)
    {
        unchecked
        {
            var at = First;
            if (Before is null)
            {
                at = TakeTogether(best, choice, worth, mark);
            }

            for (; at < best.Length; at++)
            {
                var value = best[From(at)] + worth;
                if (value > best[at])
                {
                    best[at] = value;
                    choice[at] = mark;
                }
            }
        }
    }

    /// <summary>As many places at once as the processor takes, where none of them comes from another; gives the first place not done.</summary>
    private int TakeTogether(Span<double> best, Span<long> choice, double worth, long mark)
    {
        var lanes = Vector<double>.Count;
        var at = First;
        if (First < lanes)
        {
            return at;
        }

        ref var values = ref MemoryMarshal.GetReference(best);
        ref var choices = ref MemoryMarshal.GetReference(choice);
        var (worths, marks) = (new Vector<double>(worth), new Vector<long>(mark));
        for (; at <= best.Length - lanes; at += lanes)
        {
            var known = Vector.LoadUnsafe(ref values, (nuint)at);
            var value = Vector.LoadUnsafe(ref values, (nuint)(at - First)) + worths;
            var isMore = Vector.GreaterThan(value, known);
            Vector.ConditionalSelect(isMore, value, known).StoreUnsafe(ref values, (nuint)at);
            Vector.ConditionalSelect(isMore, marks, Vector.LoadUnsafe(ref choices, (nuint)at)).StoreUnsafe(ref choices, (nuint)at);
        }

        return at;
    }
}
