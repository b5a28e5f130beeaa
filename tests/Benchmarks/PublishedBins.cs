using System.Globalization;

namespace KittingBee.Benchmarks;

/// <summary>One published bin-packing problem: sheets of one size, and the pieces that must come out of as few as possible. Numbered within those of its class with as many pieces.</summary>
internal sealed record BinProblem(int Class, int Number, int Width, int Height, IReadOnlyList<(int Width, int Height)> Pieces);

/// <summary>
/// Reads the .2bp files of Berkey and Wang (Journal of the Operational Research Society 38, 1987, 423–429; classes 1–6) and
/// Martello and Vigo (Management Science 44, 1998, 388–399; classes 7–10): fifty problems a file, numbers at the head of each line.
/// </summary>
internal static class PublishedBins
{
    public static IEnumerable<BinProblem> In(string folder) => Directory
        .EnumerateFiles(folder, "*.2bp", SearchOption.AllDirectories)
        .OrderBy(Path.GetFileName, StringComparer.Ordinal)
        .SelectMany(Read);

    private static IEnumerable<BinProblem> Read(string file)
    {
        using var lines = File.ReadLines(file).Select(Numbers).Where(line => line.Length > 0).GetEnumerator();
        while (lines.MoveNext())
        {
            var kind = lines.Current[0];
            var pieces = Next()[0];
            var number = Next()[0];
            var sheet = Next();
            yield return new BinProblem(kind, number, sheet[1], sheet[0], [.. Enumerable.Range(0, pieces).Select(_ => Next()).Select(size => (size[1], size[0]))]);
        }

        int[] Next() => lines.MoveNext() ? lines.Current : throw new InvalidDataException($"{file} ends in the middle of a problem.");
    }

    /// <summary>The whole numbers a line begins with; the rest of it is a remark.</summary>
    private static int[] Numbers(string line) => [.. line
        .Split(' ', StringSplitOptions.RemoveEmptyEntries)
        .Select(word => int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : -1)
        .TakeWhile(number => number >= 0)];
}
