namespace KittingBee.Planning.Cutting;

/// <summary>
/// Packs pieces into as few equal sheets as it can: a beam search over everything first, then, again and again, one sheet
/// is given up and its pieces are pressed into the others, a few sheets at a time, pieces that stay out weighing more and
/// more. Work is counted, not timed, so the same pieces give the same sheets.
/// </summary>
internal sealed class SheetPacker
{
    /// <summary>Up to so many pieces it may be possible to see every filling there is.</summary>
    private const int MostToSeeAll = 20;

    private readonly SheetBeam _beam;
    private readonly double[] _areas;
    private readonly int[] _demand;
    private readonly int _fewest;
    private readonly Random _random = new(1);

    /// <param name="grounds">The ways to lay strips on a sheet.</param>
    /// <param name="areas">Area of a piece, by size.</param>
    /// <param name="demand">Pieces wanted, by size.</param>
    /// <param name="longest">The longest ruler.</param>
    /// <param name="fewest">No packing has fewer sheets: where it is met, the search ends.</param>
    public SheetPacker(SheetGround[] grounds, double[] areas, int[] demand, long longest, int fewest)
    {
        (_areas, _demand) = (areas, demand);
        _beam = new SheetBeam(grounds, demand.Length, longest);
        _fewest = Math.Max(fewest, (int)Math.Ceiling((areas.Select((area, size) => area * demand[size]).Sum() / ((double)grounds[0].Across * grounds[0].Along)) - 1e-9));
    }

    /// <summary>True when no packing has fewer sheets than the last one found.</summary>
    private bool IsProved { get; set; }

    /// <summary>The best packing found with so much work (states rated; a few tens of millions a second).</summary>
    public IReadOnlyList<FilledSheet> Pack(long work, CancellationToken clock)
    {
        IReadOnlyList<FilledSheet>? best = null;
        for (var width = 2; best is null || (best.Count > _fewest && _beam.Work < work / 4 && width <= 512); width *= 4)
        {
            foreach (var bias in new[] { 0.0, 0.1, 0.4 })
            {
                var filled = _beam.Fill(_demand, _areas, int.MaxValue, width, bias, strict: false);
                best = best is null || filled.Count < best.Count ? filled : best;
            }
        }

        IsProved = best.Count <= _fewest;
        while (!IsProved && _beam.Work < work && Fewer(best, work, clock) is { } fewer)
        {
            best = fewer;
            IsProved = best.Count <= _fewest;
        }

        return best;
    }

    /// <summary>Tries to do without one of the sheets; null when the work is spent.</summary>
    private List<FilledSheet>? Fewer(IReadOnlyList<FilledSheet> full, long work, CancellationToken clock)
    {
        var sheets = full.OrderByDescending(sheet => Weight(sheet.Yield, _areas)).ToList();
        var left = sheets[^1].Yield.ToArray();
        sheets.RemoveAt(sheets.Count - 1);
        if (sheets.Count == 0)
        {
            return null;
        }

        if (_demand.Sum() <= MostToSeeAll)
        {
            var all = _beam.Fill(_demand, _areas, sheets.Count, 4096, 0, strict: true);
            if (all.Sum(sheet => sheet.Yield.Sum()) == _demand.Sum())
            {
                return [.. all];
            }

            IsProved = _beam.SawAll;
        }

        var worth = _areas.ToArray();
        var idle = 0;
        while (!IsProved && _beam.Work < work && !clock.IsCancellationRequested)
        {
            var chosen = Choose(sheets);
            var have = left.ToArray();
            foreach (var index in chosen)
            {
                Add(have, sheets[index].Yield, 1);
            }

            var filled = _beam.Fill(have, worth, chosen.Count, 8 << _random.Next(4), _random.Next(8) * 0.05, strict: _random.Next(3) == 0);
            var over = have.ToArray();
            foreach (var sheet in filled)
            {
                Add(over, sheet.Yield, -1);
            }

            var (was, now) = (Weight(left, worth), Weight(over, worth));
            if (now <= was)
            {
                idle = now < was ? 0 : idle + 1;
                foreach (var index in chosen.OrderDescending())
                {
                    sheets.RemoveAt(index);
                }

                sheets.AddRange(filled);
                left = over;
                if (Array.TrueForAll(left, count => count == 0))
                {
                    return sheets;
                }
            }
            else
            {
                idle++;
            }

            if (idle >= 20)
            {
                idle = 0;
                for (var size = 0; size < worth.Length; size++)
                {
                    worth[size] *= left[size] > 0 ? 1.1 : 1.0;
                }
            }
        }

        return null;
    }

    /// <summary>A few sheets to fill anew: as many as hold some two dozen pieces.</summary>
    private List<int> Choose(List<FilledSheet> sheets)
    {
        var chosen = new List<int>();
        var pieces = 0;
        var most = 12 + _random.Next(16);
        while (chosen.Count < sheets.Count && (chosen.Count < 2 || pieces < most))
        {
            var index = _random.Next(sheets.Count);
            if (!chosen.Contains(index))
            {
                chosen.Add(index);
                pieces += sheets[index].Yield.Sum();
            }
        }

        return chosen;
    }

    private static double Weight(int[] counts, double[] worth) => counts.Select((count, size) => count * worth[size]).Sum();

    private static void Add(int[] to, int[] counts, int sign)
    {
        for (var size = 0; size < to.Length; size++)
        {
            to[size] += sign * counts[size];
        }
    }
}
