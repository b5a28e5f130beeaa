using System.Numerics;

namespace KittingBee.Planning.Cutting;

/// <summary>For every portion of a small demand, the fewest sheets of one kind that it can be cut from.</summary>
internal sealed class SheetPortions<T>
    where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
{
    private readonly Portions _portions;
    private readonly List<(int Ground, PortionStrips<T> Strips, T Along)> _ways;

    private SheetPortions(Portions portions, List<(int Ground, PortionStrips<T> Strips, T Along)> ways)
    {
        (_portions, _ways) = (portions, ways);
        Fewest = new PortionTable<T>(portions);
    }

    /// <summary>Sheets by portion.</summary>
    public PortionTable<T> Fewest { get; private set; }

    /// <summary>The table of a kind, or null where it takes more work than is allowed.</summary>
    /// <param name="tables">Of the kind's grounds: strips across, strips along.</param>
    /// <param name="ground">Index of the first of them.</param>
    /// <param name="portions">Of the demand.</param>
    /// <param name="need">The demand by size.</param>
    /// <param name="measure">Ticks that all sides are whole multiples of.</param>
    /// <param name="most">No plan that is looked for has more of the sheets.</param>
    /// <param name="needs">False for a portion that no plan worth looking for has on one sheet; and by ground, what a strip must be worth.</param>
    public static SheetPortions<T>? Of(
        IReadOnlyList<GroundTables> tables, int ground, Portions portions, int[] need, long measure, int most, (Func<int, bool> Sheet, Func<int, StripNeeds> Strip) needs)
    {
        var ways = new List<(int Ground, PortionStrips<T> Strips, T Along)>();
        foreach (var way in most == 0 ? [] : SheetPacking.AreMirrored(tables[ground], tables[ground + 1]) ? new[] { ground } : [ground, ground + 1])
        {
            var along = tables[way].Ground.Along;
            if (PortionStrips<T>.Of(tables[way], portions, need, measure, along, needs.Strip(way)) is not { } strips)
            {
                return null;
            }

            ways.Add((way, strips, T.CreateChecked(along / measure)));
            if (strips.Lengths[portions.All] <= ways[^1].Along)
            {
                break; // One sheet gives all.
            }
        }

        var sheets = new SheetPortions<T>(portions, ways);
        sheets.Fill(most, needs.Sheet);
        return portions.Work.IsSpent ? null : sheets;
    }

    /// <summary>Sheets that give a portion, each with its ground and strips.</summary>
    public IEnumerable<(int Ground, List<Recipe> Strips)> Read(int portion)
    {
        while (portion > 0)
        {
            var (all, most) = (portion, Fewest[portion] - T.One);
            var sheet = _portions.Within(all).First(part => part > 0 && IsHeld(part) && Fewest[all - part] <= most);
            var (ground, strips, _) = _ways.First(way => way.Strips.Lengths[sheet] <= way.Along);
            yield return (ground, strips.Read(sheet));
            portion -= sheet;
        }
    }

    /// <summary>One sheet more at a time: full ones are added to what fewer sheets give, and what gives more gives less, too.</summary>
    private void Fill(int most, Func<int, bool> isUseful)
    {
        foreach (var (_, strips, along) in _ways)
        {
            Fewest.LowerWhere(strips.Lengths, along, T.One);
        }

        Fewest[0] = T.Zero;
        var full = new List<int>();
        var beyond = Fewest.Beyond();
        for (var portion = 1; portion < _portions.Count; portion++)
        {
            if (Fewest.Has(portion) && !beyond.Has(portion) && isUseful(portion))
            {
                full.Add(portion);
            }
        }

        for (var number = 2; number <= most && !Fewest.Has(_portions.All) && !_portions.Work.IsSpent; number++)
        {
            var fewer = Fewest.Copy();
            foreach (var portion in full.TakeWhile(_ => !_portions.Work.IsSpent))
            {
                Fewest.Join(fewer, portion, T.One);
            }

            Fewest.Close();
        }
    }

    private bool IsHeld(int portion) => _ways.Exists(way => way.Strips.Lengths[portion] <= way.Along);
}
