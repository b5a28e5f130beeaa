using System.Buffers;
using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Blocks;

/// <summary>The fabrics of a block as people list them: a letter and a name on each line.</summary>
public static class FabricLines
{
    private const string Marks = " \t:.)=-–\u00A0";

    private static readonly SearchValues<char> MarkSet = SearchValues.Create(Marks);

    /// <summary>Reads every line that says anything. A line that does not start with a letter on its own keeps its first word as the letter, for the checks to refuse.</summary>
    public static IReadOnlyList<BlockFabric> Read(string text) =>
        [.. text.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0).Select(Line)];

    public static string Write(IEnumerable<BlockFabric> fabrics) =>
        string.Join('\n', fabrics.Select(fabric => $"{fabric.Letter} {fabric.Name}".TrimEnd()));

    private static BlockFabric Line(string line)
    {
        var end = line.AsSpan().IndexOfAny(MarkSet);
        var word = end < 0 ? line : line[..end];
        var letter = word.Length == 1 ? word.ToUpperInvariant() : word;
        return new(letter, end < 0 ? "" : line[end..].Trim(Marks.ToCharArray()));
    }
}
