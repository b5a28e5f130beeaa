namespace KittingBee.Planning.Cutting;

/// <summary>
/// The tables of one ground. Where the sizes make too many sums for tables of useful size (4⅛ in beside 10.3 cm and a few
/// more), sizes are rounded up to a coarser step in the tables alone, so that what they find can always be cut; a second
/// set, rounded down, then gives the bound.
/// </summary>
internal sealed class GroundTables
{
    /// <summary>More places than this along one side are too many: 42 in in millimetres makes 1,067.</summary>
    private const int MostPlaces = 1400;

    /// <summary>Steps along a side in the coarse tables.</summary>
    private const int CoarsePlaces = 1024;

    private GroundTables(Ground ground, Facing[] facings, long longest, int sizes, int mostPlaces)
    {
        Ground = ground;
        Facings = facings;
        Longest = Math.Min(longest, ground.Along);
        SizeCount = sizes;

        var tallest = facings.Length == 0 ? 0 : facings.Max(facing => facing.Height);
        var limit = Math.Min(Math.Max(Longest, tallest), ground.Along);
        var heights = ReachableSums.Of(facings.Select(facing => facing.Height), limit, mostPlaces);
        var widths = ReachableSums.Of(facings.Select(facing => facing.Width), ground.Across, mostPlaces);
        if (heights is not null && widths is not null)
        {
            Tables = new StripTables(facings, heights, widths);
            Bounds = Tables;
            return;
        }

        var widthStep = widths is null ? (ground.Across / CoarsePlaces) + 1 : 1;
        var heightStep = heights is null ? (limit / CoarsePlaces) + 1 : 1;
        Tables = Coarse(limit, size => (size + widthStep - 1) / widthStep * widthStep, size => (size + heightStep - 1) / heightStep * heightStep);
        Bounds = Coarse(limit, size => Math.Max(1, size / widthStep) * widthStep, size => Math.Max(1, size / heightStep) * heightStep);
    }

    public Ground Ground { get; }

    /// <summary>The ways in which sizes lie here, in true ticks; the tables name them by index.</summary>
    public Facing[] Facings { get; }

    /// <summary>No strip is taller, save for a facing that is.</summary>
    public long Longest { get; }

    public int SizeCount { get; }

    /// <summary>Finds recipes; every one can be cut.</summary>
    public StripTables Tables { get; }

    /// <summary>Values here are never less than any recipe's worth; the same object as <see cref="Tables"/> where those are exact.</summary>
    public StripTables Bounds { get; }

    public bool IsExact => ReferenceEquals(Tables, Bounds);

    /// <summary>Tables for a ground; exact where no side has more than <paramref name="mostPlaces"/> sums.</summary>
    public static GroundTables For(CuttingModel model, Ground ground, int mostPlaces = MostPlaces)
    {
        var facings = Enumerable.Range(0, model.Sizes.Count).SelectMany(size => model.FacingsOn(ground, size)).ToArray();
        return new GroundTables(ground, facings, model.Request.LongestStrip.Ticks, model.Sizes.Count, mostPlaces);
    }

    /// <summary>Makes a recipe of stacks, in true sizes: as high as its highest stack, each column as wide as its widest piece.</summary>
    public Recipe Make(IEnumerable<int[]> stacks)
    {
        var yield = new int[SizeCount];
        var grouped = new List<Stack>();
        var places = new Dictionary<string, int>();
        long height = 0;
        foreach (var facings in stacks.Where(stack => stack.Length > 0))
        {
            Array.Sort(facings);
            height = Math.Max(height, facings.Sum(facing => Facings[facing].Height));
            foreach (var facing in facings)
            {
                yield[Facings[facing].Size]++;
            }

            var key = string.Join(' ', facings);
            if (places.TryGetValue(key, out var place))
            {
                grouped[place] = grouped[place] with { Repeat = grouped[place].Repeat + 1 };
            }
            else
            {
                places.Add(key, grouped.Count);
                grouped.Add(new Stack(facings.Max(facing => Facings[facing].Width), 1, facings));
            }
        }

        return new Recipe(height, grouped, yield);
    }

    /// <summary>Reads the row that the tables priced last.</summary>
    public Recipe ReadRecipe(int height, long width, int forced = -1)
    {
        var stacks = Tables.ReadRow(width).Select(column => Tables.ReadStack(column, height));
        return Make(forced < 0 ? stacks : stacks.Prepend([forced]));
    }

    private StripTables Coarse(long limit, Func<long, long> width, Func<long, long> height)
    {
        var facings = Facings.Select(facing => facing with { Width = width(facing.Width), Height = height(facing.Height) }).ToArray();
        return new StripTables(
            facings,
            ReachableSums.Of(facings.Select(facing => facing.Height), limit, int.MaxValue)!,
            ReachableSums.Of(facings.Select(facing => facing.Width), Ground.Across, int.MaxValue)!);
    }
}
