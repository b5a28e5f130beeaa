namespace KittingBee.Planning.Tests.Formats;

/// <summary>
/// The least number of sheets by trying everything: every way to turn the pieces, to deal them onto sheets, a sheet's onto
/// strips and a strip's into columns. Only for a handful of pieces.
/// </summary>
internal static class EveryPlan
{
    public static int LeastSheets(int width, int length, IReadOnlyList<(int Width, int Height)> pieces, bool directional) =>
        Partitions(pieces.Count).Where(sheets => sheets.All(sheet => FitsOne(width, length, [.. sheet.Select(index => pieces[index])], directional)))
            .Min(sheets => sheets.Count);

    private static bool FitsOne(int width, int length, List<(int Width, int Height)> pieces, bool directional)
    {
        for (var turns = 0; turns < (directional ? 1 : 1 << pieces.Count); turns++)
        {
            var lying = pieces.Select((piece, index) => (turns >> index & 1) == 0 ? piece : (Width: piece.Height, Height: piece.Width)).ToList();
            var along = lying.ConvertAll(piece => (Width: piece.Height, Height: piece.Width));
            if (LeastHeight(width, lying) <= length || LeastHeight(length, along) <= width)
            {
                return true;
            }
        }

        return false;
    }

    private static int LeastHeight(int width, List<(int Width, int Height)> pieces) =>
        Partitions(pieces.Count).Min(strips => strips.Sum(strip => LeastStrip(width, strip.ConvertAll(index => pieces[index]))));

    private static int LeastStrip(int width, List<(int Width, int Height)> pieces) =>
        Partitions(pieces.Count)
            .Where(columns => columns.Sum(column => column.Max(index => pieces[index].Width)) <= width)
            .Select(columns => columns.Max(column => column.Sum(index => pieces[index].Height)))
            .DefaultIfEmpty(1000).Min();

    /// <summary>Every way to deal so many things into groups.</summary>
    private static IEnumerable<List<List<int>>> Partitions(int count)
    {
        if (count == 0)
        {
            yield return [];
            yield break;
        }

        foreach (var smaller in Partitions(count - 1))
        {
            for (var group = 0; group < smaller.Count; group++)
            {
                yield return [.. smaller.Select((members, index) => index == group ? [.. members, count - 1] : members.ToList())];
            }

            yield return [.. smaller, [count - 1]];
        }
    }
}
