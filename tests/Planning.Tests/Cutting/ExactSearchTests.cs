namespace KittingBee.Planning.Tests.Cutting;

/// <summary>The yardstick is itself measured on cases small enough to see.</summary>
public sealed class ExactSearchTests
{
    [Theory]
    [InlineData(10, 24, "5x3 5x3", 3)] // side by side
    [InlineData(9, 24, "5x3 5x3!", 5)] // one turned: 3 + 5 across
    [InlineData(4, 24, "4x2 4x2 4x2", 6)] // one on the other
    [InlineData(10, 24, "6x4 4x2 4x2", 4)] // two stacked beside one
    [InlineData(10, 24, "6x4 4x2 3x2", 4)] // the narrower one trimmed
    [InlineData(3, 2, "3x5 3x1", 6)] // taller than the ruler: a strip of its own height
    [InlineData(6, 2, "3x5 3x4", 5)] // and what lies beside it
    public void LeastLengths_CasesSeenAtAGlance_AreRight(int across, int longest, string pieces, int least)
    {
        var search = Of(pieces, longest);
        Assert.Equal(least, search.LeastLengths(across, lengthwise: false)[search.All]);
    }

    [Theory]
    [InlineData("5x5 5x5 5x5 5x5", 10, 10, 1)]
    [InlineData("5x5 5x5 5x5 5x5 1x1", 10, 10, 2)]
    [InlineData("2x10 8x5 8x5", 10, 10, 1)] // a strip up the side first, then two
    public void FewestSheets_CasesSeenAtAGlance_AreRight(string pieces, int width, int length, int fewest)
    {
        var search = Of(pieces, 24);
        Assert.Equal(fewest, search.FewestSheets(width, length)[search.All]);
    }

    /// <summary>Reads "5x3!": 5 across, 3 along, may turn.</summary>
    private static ExactSearch Of(string pieces, int longest) => new(
        [.. pieces.Split(' ').Select(piece => (piece.TrimEnd('!').Split('x'), piece.EndsWith('!')))
            .Select(read => (int.Parse(read.Item1[0], null), int.Parse(read.Item1[1], null), read.Item2))],
        longest);
}
