using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>
/// Reads the marks of a class as they stand. What was undone does not count; of the rest the furthest along wins, not the
/// last: a phone that was away and brings an older "cut" does not take a line out of the bag.
/// </summary>
public static class KitMarks
{
    /// <summary>The standing mark of each kit's line that has one.</summary>
    public static IReadOnlyDictionary<(long KitId, string Line), KitMark> Standing(IReadOnlyList<KitMark> marks)
    {
        var standing = new Dictionary<(long, string), KitMark>();
        foreach (var line in marks.GroupBy(mark => (mark.KitId, mark.Line)))
        {
            if (Furthest([.. line]) is { } mark)
            {
                standing.Add(line.Key, mark);
            }
        }

        return standing;
    }

    /// <summary>Marks of one line, oldest first, that are neither undone nor undo another.</summary>
    public static IEnumerable<KitMark> NotUndone(IReadOnlyList<KitMark> line)
    {
        var undone = new HashSet<Guid>();

        // From the newest, so that an undo that was itself undone is known before it takes anything back.
        for (var at = line.Count - 1; at >= 0; at--)
        {
            var mark = line[at];
            if (undone.Contains(mark.Id))
            {
                continue;
            }

            if (mark.Undoes is { } other)
            {
                undone.Add(other);
            }
            else
            {
                yield return mark;
            }
        }
    }

    /// <summary>What one line shows, from its marks, oldest first; null where nothing stands.</summary>
    public static KitMark? Furthest(IReadOnlyList<KitMark> line) => NotUndone(line).MaxBy(mark => KitState.Rank(mark.State));

    /// <summary>How many kits have been checked or handed over.</summary>
    public static int Ready(IReadOnlyDictionary<(long KitId, string Line), KitMark> standing, IEnumerable<long> kits) =>
        kits.Count(kit => standing.ContainsKey((kit, KitMark.WholeKit)));
}
