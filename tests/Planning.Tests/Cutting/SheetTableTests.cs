using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>
/// Beasley's guillotine problems (Journal of the Operational Research Society 36, 1985, 297–306): one sheet, any number of each
/// piece, greatest area, three stages with trimming. The greatest values were recomputed by an exact dynamic program of its
/// own; for gcut1 to gcut12 without turning the better of the two first cuts is also the unlimited value read on
/// G. Cintra's page of dynamic-programming results (University of São Paulo).
/// </summary>
public sealed class SheetTableTests
{
    // Pieces "length × width" from a sheet of 250 × 250 and one of 500 × 500.
    private const string First = "167x184 114x118 167x152 83x140 70x86 143x166 120x160 66x148 87x141 69x165";
    private const string Fifth = "198x205 179x155 364x236 272x147 352x145 343x245 132x174 164x250 282x356 342x151";

    [Theory]
    [InlineData(250, First, 56460, 58136)]
    [InlineData(500, Fifth, 246000, 246000)]
    public void BestSheet_SmallPublishedProblem_HasTheGreatestValue(int sheet, string pieces, int straight, int turned)
    {
        var sizes = pieces.Split(' ').Select(piece => piece.Split('x')).Select(sides => (Whole(sides[0]), Whole(sides[1]))).ToList();
        Assert.Equal(straight, Best(sheet, sizes, turns: false));
        Assert.Equal(turned, Best(sheet, sizes, turns: true));
    }

    [Theory]
    [InlineData("gcut1", 56460, 58136)]
    [InlineData("gcut2", 60536, 60611)]
    [InlineData("gcut3", 61036, 61399)]
    [InlineData("gcut4", 61698, 62265)]
    [InlineData("gcut5", 246000, 246000)]
    [InlineData("gcut6", 238998, 240951)]
    [InlineData("gcut7", 242567, 245866)]
    [InlineData("gcut8", 246633, 247462)]
    [InlineData("gcut9", 971100, 971100)]
    [InlineData("gcut10", 982025, 982025)]
    [InlineData("gcut11", 980096, 980096)]
    [InlineData("gcut12", 979986, 988694)]
    [InlineData("gcut13", 8997780, 9000000)]
    public void BestSheet_PublishedFile_HasTheGreatestValue(string name, int straight, int turned)
    {
        var file = Path.Combine(PublishedFiles.Folder("gcut"), name + ".txt");
        var numbers = File.ReadAllText(file).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(Whole).ToArray();
        Assert.Equal(numbers[1], numbers[2]);
        var sizes = numbers.Skip(3).Chunk(3).Select(piece => (piece[0], piece[1])).ToList();
        Assert.Equal(numbers[0], sizes.Count);
        Assert.Equal(straight, Best(numbers[1], sizes, turns: false));
        Assert.Equal(turned, Best(numbers[1], sizes, turns: true));
    }

    /// <summary>Area of the best square sheet, either way first, whose recipes are made and measured besides.</summary>
    private static long Best(int sheet, List<(int Length, int Width)> sizes, bool turns)
    {
        var side = Length.FromInches(sheet);
        var request = new CuttingRequest(
            new CuttingStock(null, [new SheetStock("sheet", side, side, null, 1m)]),
            [.. sizes.Select(size => new CutPiece("piece", Length.FromInches(size.Width), Length.FromInches(size.Length), 1, turns))])
        {
            LongestStrip = side,
        };
        var model = CuttingModel.From(request);
        var worth = model.Sizes.Select(size => (double)(size.Width.Inches * size.Height.Inches)).ToArray();
        return model.Grounds.Select((ground, index) =>
        {
            var tables = GroundTables.For(model, ground, mostPlaces: 3_000);
            Assert.True(tables.IsExact);
            var (best, strips) = new LayoutPricing(model, index, tables, 1).BestSheet(worth, CancellationToken.None);

            // What the tables promise is what their recipes give, and it fits.
            Assert.Equal(best, strips.Sum(strip => strip.Yield.Select((count, size) => count * worth[size]).Sum()), 3);
            Assert.True(strips.Sum(strip => strip.Height) <= ground.Along);
            Assert.All(strips, strip => Assert.True(strip.Stacks.Sum(stack => stack.Width * stack.Repeat) <= ground.Across));
            return (long)Math.Round(best);
        }).Max();
    }

    private static int Whole(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
