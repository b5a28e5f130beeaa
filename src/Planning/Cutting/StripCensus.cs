namespace KittingBee.Planning.Cutting;

/// <summary>
/// Lists every strip that could be part of a plan better than the best one known: with the relaxed solution's worths, no
/// strip of such a plan can waste more than lies between that plan and the bound. For small demands the list is short, and
/// an integer program over it settles the case.
/// </summary>
internal sealed class StripCensus
{
    /// <summary>Strips and parts of strips looked at before the case is given up as too large.</summary>
    private const int MostLooked = 150_000;

    private readonly GroundTables _ground;
    private readonly StripTables _tables;
    private readonly double[] _worth;
    private readonly int[] _left;
    private readonly Func<long, double> _least;
    private readonly Dictionary<string, Recipe> _found = [];
    private readonly List<Option> _chosen = [];
    private int _looked;

    private StripCensus(GroundTables ground, double[] worth, int[] need, Func<long, double> least)
    {
        _ground = ground;
        _tables = ground.Tables.Twin();
        _worth = worth;
        _left = [.. need];
        _least = least;
    }

    /// <summary>All strips within the need that are worth enough, of those that give the same the lowest; null where there are too many.</summary>
    /// <param name="ground">The cloth.</param>
    /// <param name="worth">Worth of a piece by size.</param>
    /// <param name="need">Pieces wanted by size.</param>
    /// <param name="least">What a strip of so many ticks must be worth at least.</param>
    public static IReadOnlyCollection<Recipe>? Take(GroundTables ground, double[] worth, int[] need, Func<long, double> least)
    {
        var census = new StripCensus(ground, worth, need, least);
        census._tables.Fill(worth);
        var heights = ground.Tables.Heights;
        for (var height = 1; height < heights.Count; height++)
        {
            var tall = heights.Sums[height] > ground.Longest;
            if (tall && !ground.Facings.Any(facing => facing.Height == heights.Sums[height]))
            {
                continue;
            }

            if (!census.LookAt(height, tall))
            {
                return null;
            }
        }

        return census._found.Values;
    }

    private bool LookAt(int height, bool tall)
    {
        var ticks = _tables.Heights.Sums[height];
        var least = _least(ticks);
        if (_tables.BestRow(height, _ground.Ground.Across) < least)
        {
            return true;
        }

        var options = new Dictionary<string, Option>();
        if (!ListStacks(ticks, 0, [], options))
        {
            return false;
        }

        return Row([.. options.Values.OrderByDescending(option => option.Width)], 0, _ground.Ground.Across, 0, least, tall ? ticks : 0);
    }

    /// <summary>Every stack that fits the height and the need; of stacks with the same pieces the narrowest.</summary>
    private bool ListStacks(long room, int from, List<int> stack, Dictionary<string, Option> options)
    {
        if (++_looked > MostLooked)
        {
            return false;
        }

        if (stack.Count > 0)
        {
            var facings = stack.ToArray();
            var width = facings.Max(facing => _ground.Facings[facing].Width);
            var key = string.Join(' ', facings.Select(facing => _ground.Facings[facing].Size).Order());
            if (!options.TryGetValue(key, out var other) || other.Width > width)
            {
                options[key] = new Option(width, facings, facings.Sum(facing => _worth[_ground.Facings[facing].Size]));
            }
        }

        for (var facing = from; facing < _ground.Facings.Length; facing++)
        {
            var lie = _ground.Facings[facing];
            if (lie.Height <= room && _left[lie.Size] > 0)
            {
                stack.Add(facing);
                _left[lie.Size]--;
                var whole = ListStacks(room - lie.Height, facing, stack, options);
                _left[lie.Size]++;
                stack.RemoveAt(stack.Count - 1);
                if (!whole)
                {
                    return false;
                }
            }
        }

        return true;
    }

    private bool Row(Option[] options, int from, long room, double worth, double least, long ownHeight)
    {
        if (++_looked > MostLooked)
        {
            return false;
        }

        if (worth >= least && _chosen.Count > 0 && (ownHeight == 0 || _chosen.Any(option => option.Facings.Any(facing => _ground.Facings[facing].Height == ownHeight))))
        {
            Keep();
        }

        for (var index = from; index < options.Length; index++)
        {
            var option = options[index];
            if (option.Width > room || worth + _tables.RowWorth(room) < least || !TryTake(option))
            {
                continue;
            }

            _chosen.Add(option);
            var whole = Row(options, index, room - option.Width, worth + option.Worth, least, ownHeight);
            _chosen.RemoveAt(_chosen.Count - 1);
            GiveBack(option, option.Facings.Length);
            if (!whole)
            {
                return false;
            }
        }

        return true;
    }

    private void Keep()
    {
        var recipe = _ground.Make(_chosen.Select(option => option.Facings.ToArray()));
        var key = string.Join(' ', recipe.Yield);
        if (!_found.TryGetValue(key, out var other) || other.Height > recipe.Height)
        {
            _found[key] = recipe;
        }
    }

    private bool TryTake(Option option)
    {
        for (var index = 0; index < option.Facings.Length; index++)
        {
            if (--_left[_ground.Facings[option.Facings[index]].Size] < 0)
            {
                GiveBack(option, index + 1);
                return false;
            }
        }

        return true;
    }

    private void GiveBack(Option option, int count)
    {
        for (var index = 0; index < count; index++)
        {
            _left[_ground.Facings[option.Facings[index]].Size]++;
        }
    }

    private sealed record Option(long Width, int[] Facings, double Worth);
}
