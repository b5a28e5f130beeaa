using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Reads the marks of a class as they stand: what was undone does not count, and the last mark on a line wins.</summary>
public static class KitMarks
{
    /// <summary>The standing mark of each kit's line.</summary>
    public static IReadOnlyDictionary<(long KitId, string Line), KitMark> Standing(IReadOnlyList<KitMark> marks)
    {
        var undone = new HashSet<Guid>();
        var standing = new Dictionary<(long, string), KitMark>();

        // From the newest, so that an undo that was itself undone is known before it takes anything back.
        foreach (var mark in marks.Reverse())
        {
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
                standing.TryAdd((mark.KitId, mark.Line), mark);
            }
        }

        return standing;
    }

    /// <summary>How many kits have been checked or handed over.</summary>
    public static int Ready(IReadOnlyDictionary<(long KitId, string Line), KitMark> standing, IEnumerable<long> kits) => kits.Count(kit =>
        standing.TryGetValue((kit, KitMark.WholeKit), out var mark) && mark.State is ("checked" or "handed-over"));
}
