using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Layouts and how often each is cut.</summary>
internal sealed record LayoutUse(Layout Layout, int Times);

/// <summary>
/// Turns layouts of sizes into the strips and sheets of a plan: sizes get their pieces' names back, equal recipes become
/// one, and columns stand widest first.
/// </summary>
internal sealed class PlanAssembly
{
    private readonly CuttingModel _model;
    private readonly GroundTables[] _tables;
    private readonly Queue<(int Piece, long Left)>[] _names;
    private readonly Dictionary<string, int> _places = [];
    private readonly List<Strip> _strips = [];
    private readonly List<SheetRecipe> _sheets = [];
    private readonly long[] _cut;

    private PlanAssembly(CuttingModel model, GroundTables[] tables)
    {
        _model = model;
        _tables = tables;
        _names = [.. model.Sizes.Select(size => new Queue<(int, long)>(size.Pieces.Select(piece => (piece, (long)model.Request.Pieces[piece].Count))))];
        _cut = new long[model.Request.Pieces.Count];
    }

    public static (IReadOnlyList<Strip> Strips, IReadOnlyList<SheetRecipe> Sheets, IReadOnlyList<Surplus> Surplus) Assemble(
        CuttingModel model, GroundTables[] tables, IEnumerable<LayoutUse> uses)
    {
        var assembly = new PlanAssembly(model, tables);
        foreach (var use in uses.OrderByDescending(use => use.Layout.Strips.Max(strip => strip.Height)).ThenByDescending(use => use.Times))
        {
            assembly.Take(use);
        }

        var surplus = model.Request.Pieces
            .Select((piece, index) => new Surplus(index, checked((int)(assembly._cut[index] - piece.Count))))
            .Where(one => one.Count > 0)
            .ToList();
        return (assembly._strips, assembly._sheets, surplus);
    }

    /// <summary>Cuts a layout as often as its names last, then once with names mixed, and so on.</summary>
    private void Take(LayoutUse use)
    {
        var left = use.Times;
        while (left > 0)
        {
            var alike = left;
            for (var size = 0; size < _names.Length; size++)
            {
                if (use.Layout.Yield[size] > 0 && _names[size].Count > 1)
                {
                    alike = (int)Math.Min(alike, _names[size].Peek().Left / use.Layout.Yield[size]);
                }
            }

            var times = Math.Max(1, alike);
            var strips = Merge(use.Layout.Strips.Select(strip => Write(strip, _tables[use.Layout.Ground], times)));
            var ground = _model.Grounds[use.Layout.Ground];
            if (ground.IsBolt)
            {
                Keep(_strips, strips[0] with { Repeat = times }, KeyOf(strips[0]), strip => strip with { Repeat = strip.Repeat + times });
            }
            else
            {
                var name = _model.Request.Stock.Sheets[ground.Sheet].Name;
                var key = $"{ground.Sheet}|{ground.Lengthwise}|{string.Join('|', strips.Select(strip => $"{KeyOf(strip)}*{strip.Repeat}"))}";
                Keep(_sheets, new SheetRecipe(ground.Sheet, name, times, ground.Lengthwise, strips), key, sheet => sheet with { Repeat = sheet.Repeat + times });
            }

            left -= times;
        }
    }

    private void Keep<T>(List<T> list, T item, string key, Func<T, T> again)
    {
        if (_places.TryGetValue(key, out var place))
        {
            list[place] = again(list[place]);
            return;
        }

        _places.Add(key, list.Count);
        list.Add(item);
    }

    private Strip Write(Recipe recipe, GroundTables tables, int times)
    {
        var columns = new List<Column>();
        foreach (var stack in recipe.Stacks)
        {
            var left = stack.Repeat;
            while (left > 0)
            {
                // A column is repeated with one set of names for as long as those names last.
                var together = left;
                foreach (var kind in stack.Facings.GroupBy(facing => tables.Facings[facing].Size))
                {
                    if (_names[kind.Key].Count > 1)
                    {
                        together = (int)Math.Min(together, _names[kind.Key].Peek().Left / ((long)kind.Count() * times));
                    }
                }

                together = Math.Max(1, together);
                var pieces = stack.Facings
                    .Select(facing => Name(tables, tables.Facings[facing], (long)together * times))
                    .GroupBy(piece => piece with { Count = 1 })
                    .Select(group => group.Key with { Count = group.Count() })
                    .OrderByDescending(piece => piece.Width).ThenByDescending(piece => piece.Height).ThenBy(piece => piece.Piece)
                    .ToList();
                columns.Add(new Column(Length.FromTicks(stack.Width), together, pieces));
                left -= together;
            }
        }

        return new Strip(Length.FromTicks(recipe.Height), 1, [.. columns
            .OrderByDescending(column => column.Width)
            .ThenByDescending(column => column.Repeat)
            .ThenBy(column => column.Pieces[0].Piece)]);
    }

    private StackedPiece Name(GroundTables tables, Facing facing, long count)
    {
        var names = _names[facing.Size];
        var (piece, left) = names.Dequeue();
        _cut[piece] += count;
        if (left > count || names.Count == 0)
        {
            // The last name takes what is over; the queue is walked from its head, so the rest is put back there.
            var rest = names.ToArray();
            names.Clear();
            names.Enqueue((piece, left - count));
            foreach (var name in rest)
            {
                names.Enqueue(name);
            }
        }

        var asked = _model.Request.Pieces[piece];
        var (across, along) = tables.Ground.Lengthwise ? (facing.Height, facing.Width) : (facing.Width, facing.Height);
        var turned = asked.Width.Ticks != across || asked.Height.Ticks != along;
        return new StackedPiece(piece, Length.FromTicks(facing.Width), Length.FromTicks(facing.Height), turned, 1);
    }

    private static List<Strip> Merge(IEnumerable<Strip> strips)
    {
        var merged = new List<Strip>();
        var places = new Dictionary<string, int>();
        foreach (var strip in strips)
        {
            var key = KeyOf(strip);
            if (places.TryGetValue(key, out var place))
            {
                merged[place] = merged[place] with { Repeat = merged[place].Repeat + 1 };
            }
            else
            {
                places.Add(key, merged.Count);
                merged.Add(strip);
            }
        }

        return [.. merged.OrderByDescending(strip => strip.Height)];
    }

    private static string KeyOf(Strip strip) => string.Join(';', strip.Columns.Select(column =>
        $"{column.Width.Ticks}x{column.Repeat}:{string.Join(',', column.Pieces.Select(piece => $"{piece.Piece}.{piece.Turned}.{piece.Count}"))}"));
}
