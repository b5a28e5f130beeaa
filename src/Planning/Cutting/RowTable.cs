using System.Numerics;
using System.Runtime.CompilerServices;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The best row of columns for every width. It is filled place by place, each from the places a column's width before it;
/// where every column is a fixed distance wide, as many places at once as the processor takes.
/// </summary>
internal sealed class RowTable
{
    /// <summary>Places before the first, which no row reaches; and as many after the last, so that the last go together too.</summary>
    private static readonly int _margin = Vector<double>.Count;

    private readonly TableStep[] _left;
    private readonly double[] _worth;
    private readonly long[] _choice;
    private readonly int[] _columns;

    /// <param name="across">Places across the cloth.</param>
    /// <param name="left">What each column's width leaves.</param>
    public RowTable(TablePlaces across, TableStep[] left)
    {
        _left = left;
        _worth = new double[across.Count + (2 * _margin)];
        _choice = new long[_worth.Length];
        _columns = new int[left.Length];
        Array.Fill(_worth, double.NegativeInfinity, 0, _margin);
    }

    public double WorthAt(int place) => _worth[_margin + place];

    /// <summary>The column chosen last at a place; −1 where there is none.</summary>
    public int ColumnAt(int place) => place <= 0 || _choice[_margin + place] == 0 ? -1 : _columns[_choice[_margin + place] - 1];

    /// <summary>Fills the table up to a place and gives what the best row is worth there.</summary>
    /// <param name="columns">The columns to choose from, by index, rising in width.</param>
    /// <param name="worth">What each is worth.</param>
    /// <param name="last">The last place to fill.</param>
    public double Fill(ReadOnlySpan<int> columns, ReadOnlySpan<double> worth, int last)
    {
        columns.CopyTo(_columns);
        var first = columns.Length == 0 ? last + 1 : Math.Min(last + 1, _left[columns[0]].First);
        Array.Clear(_worth, _margin, first);
        Array.Clear(_choice, _margin, first);
        if (columns.Length > 0 && _left[columns[0]] is { Before: null } narrowest && narrowest.First >= _margin)
        {
            FillTogether(columns, worth, first, last);
        }
        else
        {
            FillOneByOne(columns, worth, first, last);
        }

        return WorthAt(last);
    }

    private void FillOneByOne(ReadOnlySpan<int> columns, ReadOnlySpan<double> worth, int first, int last)
    {
        for (var place = first; place <= last; place++)
        {
            var (best, choice) = (0.0, 0);
            for (var index = 0; index < columns.Length && _left[columns[index]].First <= place; index++)
            {
                var value = WorthAt(_left[columns[index]].From(place)) + worth[index];
                (best, choice) = value > best ? (value, index + 1) : (best, choice);
            }

            (_worth[_margin + place], _choice[_margin + place]) = (best, choice);
        }
    }

    private void FillTogether(ReadOnlySpan<int> columns, ReadOnlySpan<double> worth, int first, int last)
    {
        Span<nint> distance = stackalloc nint[columns.Length];
        for (var index = 0; index < columns.Length; index++)
        {
            distance[index] = _left[columns[index]].First;
        }

        ref var start = ref _worth[_margin];
        ref var choices = ref _choice[_margin];
        unchecked
        {
            var within = 0;
            for (var place = first; place <= last; place += _margin)
            {
                for (; within < distance.Length && distance[within] < place + _margin; within++)
                {
                }

                var (best, choice) = (Vector<double>.Zero, Vector<long>.Zero);
                for (var index = 0; index < within; index++)
                {
                    var value = Vector.LoadUnsafe(ref Unsafe.Add(ref start, place - distance[index])) + new Vector<double>(worth[index]);
                    choice = Vector.ConditionalSelect(Vector.GreaterThan(value, best), new Vector<long>(index + 1), choice);
                    best = Vector.MaxNative(value, best);
                }

                best.StoreUnsafe(ref start, (nuint)place);
                choice.StoreUnsafe(ref choices, (nuint)place);
            }
        }
    }
}
