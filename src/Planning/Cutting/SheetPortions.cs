namespace KittingBee.Planning.Cutting;

/// <summary>For every portion of a small demand, the fewest sheets of one kind that it can be cut from.</summary>
internal sealed class SheetPortions
{
    private readonly Portions _portions;
    private readonly List<(int Ground, PortionStrips Strips)> _ways;

    private SheetPortions(Portions portions, List<(int Ground, PortionStrips Strips)> ways, int most, Func<int, bool> isUseful)
    {
        (_portions, _ways) = (portions, ways);
        Fewest = portions.NewTable();
        for (var portion = Fewest.Length - 1; portion > 0 && !portions.Work.IsSpent; portion--)
        {
            if (Fewest[portion] <= 1 || !IsHeld(portion) || !isUseful(portion))
            {
                continue;
            }

            if (most > 1)
            {
                portions.Offer(Fewest, portion, 1, most);
            }
            else if (most == 1)
            {
                Fewest[portion] = 1;
            }
        }
    }

    /// <summary>Sheets by portion.</summary>
    public long[] Fewest { get; }

    /// <summary>The table of a kind, or null where it takes more work than is allowed.</summary>
    /// <param name="tables">Of the kind's grounds: strips across, strips along.</param>
    /// <param name="ground">Index of the first of them.</param>
    /// <param name="portions">Of the demand.</param>
    /// <param name="need">The demand by size.</param>
    /// <param name="most">No plan that is looked for has more of the sheets.</param>
    /// <param name="isUseful">False for a portion that no plan worth looking for has on one sheet, or in a strip of so many ticks of a ground.</param>
    public static SheetPortions? Of(
        IReadOnlyList<GroundTables> tables, int ground, Portions portions, int[] need, int most, (Func<int, bool> Sheet, Func<int, int, long, bool> Strip) isUseful)
    {
        var ways = new List<(int Ground, PortionStrips Strips)>();
        foreach (var way in SheetPacking.AreMirrored(tables[ground], tables[ground + 1]) ? new[] { ground } : [ground, ground + 1])
        {
            if (PortionStrips.Of(tables[way], portions, need, (portion, ticks) => isUseful.Strip(way, portion, ticks)) is not { } strips)
            {
                return null;
            }

            ways.Add((way, strips));
        }

        var sheets = new SheetPortions(portions, ways, most, isUseful.Sheet);
        return portions.Work.IsSpent ? null : sheets;
    }

    /// <summary>Sheets that give a portion, each with its ground and strips.</summary>
    public IEnumerable<(int Ground, List<Recipe> Strips)> Read(int portion)
    {
        while (portion > 0)
        {
            var sheet = _portions.Within(portion).First(part => part > 0 && IsHeld(part) && Fewest[portion - part] + 1 == Fewest[portion]);
            var (ground, strips) = _ways.First(way => way.Strips.Lengths[sheet] < Portions.Never);
            yield return (ground, strips.Read(sheet));
            portion -= sheet;
        }
    }

    private bool IsHeld(int portion) => _ways.Exists(way => way.Strips.Lengths[portion] < Portions.Never);
}
