namespace KittingBee.Planning.Cutting;

/// <summary>For every portion of a small demand, the fewest sheets of one kind that it can be cut from.</summary>
internal sealed class SheetPortions
{
    private readonly Portions _portions;
    private readonly List<(int Ground, PortionStrips Strips)> _ways;

    private SheetPortions(Portions portions, List<(int Ground, PortionStrips Strips)> ways, int? available)
    {
        (_portions, _ways) = (portions, ways);
        Fewest = portions.NewTable();
        for (var portion = Fewest.Length - 1; portion > 0 && !portions.Work.IsSpent; portion--)
        {
            if (IsHeld(portion) && Fewest[portion] > 1)
            {
                portions.Offer(Fewest, portion, 1, available ?? Portions.Never);
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
    /// <param name="available">Sheets to be had, or null.</param>
    public static SheetPortions? Of(IReadOnlyList<GroundTables> tables, int ground, Portions portions, int[] need, int? available)
    {
        var ways = new List<(int Ground, PortionStrips Strips)>();
        foreach (var way in SheetPacking.AreMirrored(tables[ground], tables[ground + 1]) ? new[] { ground } : [ground, ground + 1])
        {
            if (PortionStrips.Of(tables[way], portions, need) is not { } strips)
            {
                return null;
            }

            ways.Add((way, strips));
        }

        var sheets = new SheetPortions(portions, ways, available);
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
