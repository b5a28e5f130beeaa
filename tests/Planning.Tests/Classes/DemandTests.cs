using CsCheck;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Classes;

public sealed class DemandTests
{
    private static readonly Length Square = Length.FromInches(4, 1, 2);
    private static readonly Length Narrow = Length.FromInches(2, 1, 2);
    private static readonly SparePieces NoSpares = new();

    private static readonly CutList TwoFabrics = List(
        new FabricCutList("A", "sky", [new(Square, Square, 4, ["plain"]), new(Square, Narrow, 3, ["plain"])]),
        new FabricCutList("B", "star", [new(Square, Square, 5, ["half-square triangles, two at a time"])]));

    [Fact]
    public void For_TwoColourwaysThatShareAFabric_SumsEqualSizes()
    {
        var result = Demand.For(TwoFabrics, [new("Dawn", Fabrics(10, 20), 3), new("Dusk", Fabrics(20, 30), 2)], NoSpares);

        Assert.Empty(result.Problems);
        Assert.Equal([10L, 20L, 30L], result.Fabrics.Select(fabric => fabric.Fabric));
        Assert.Equal([new("A: 4½″ square", Square, Square, 12), new("A: 4½″ × 2½″", Square, Narrow, 9)], result.Fabrics[0].Pieces);
        Assert.Equal([new("A, B: 4½″ square", Square, Square, 23), new("A: 4½″ × 2½″", Square, Narrow, 6)], result.Fabrics[1].Pieces);
        Assert.Equal([new("B: 4½″ square", Square, Square, 10)], result.Fabrics[2].Pieces);
    }

    [Fact]
    public void For_PercentAndPromise_TakesTheLargerPerLine()
    {
        // 12 and 9 pieces: 10 % is 2 and 1. Of 12 + 1 pieces at most one is wrong with probability .9730 at 1 in 50, of 9 + 1 .9838; none of 12 .7847, none of 9 .8337 (exact sums).
        var pieces = Demand.For(TwoFabrics, [new("Dawn", Fabrics(1, 2), 3)], new(10m, 0.02m, 0.95m)).Fabrics[0].Pieces;
        Assert.Equal([14, 10], pieces.Select(piece => piece.Count));
        pieces = Demand.For(TwoFabrics, [new("Dawn", Fabrics(1, 2), 3)], new(0m, 0.02m, 0.95m)).Fabrics[0].Pieces;
        Assert.Equal([13, 10], pieces.Select(piece => piece.Count));
    }

    [Fact]
    public void For_LetterWithoutFabric_NamesColourwayAndLetter()
    {
        var result = Demand.For(TwoFabrics, [new("Dawn", Fabrics(1, 2), 1), new("Dusk", new Dictionary<string, long> { ["A"] = 1 }, 4)], NoSpares);
        Assert.Empty(result.Fabrics);
        Assert.Equal(
            [new Problem("kits[1].fabricOfLetter.B", "Colourway “Dusk” has no fabric for letter B (star). Choose one from the shelf, or move its students to another colourway.")],
            result.Problems);
    }

    [Fact]
    public void For_ColourwayNobodyChose_MayLackALetter() =>
        Assert.Empty(Demand.For(TwoFabrics, [new("Dawn", Fabrics(1, 2), 1), new("Dusk", new Dictionary<string, long>(), 0)], NoSpares).Problems);

    [Theory]
    [InlineData(0, 0, "kits", "There are no kits to make yet. Add students, spare kits or a sample.")]
    [InlineData(-1, 0, "kits[0].kits", "Colourway “Dawn” has -1 kits. Give 0 or more.")]
    [InlineData(1, -5, "spares.percent", "Spare pieces of -5 % cannot be planned. Give 0 to 100.")]
    [InlineData(250_000, 0, "kits", "The class needs 1,250,000 pieces of “B: 4½″ square”; the most is 1,000,000. Check the number of kits and the blocks in each.")]
    [InlineData(int.MaxValue, 0, "kits", "The class needs 10,737,418,235 pieces of “B: 4½″ square”; the most is 1,000,000. Check the number of kits and the blocks in each.")]
    public void For_FiguresThatCannotBe_NamesThem(int kits, int percent, string field, string message)
    {
        var result = Demand.For(TwoFabrics, [new("Dawn", Fabrics(1, 2), kits)], new(percent));
        Assert.Empty(result.Fabrics);
        Assert.Contains(new Problem(field, message), result.Problems);
    }

    [Theory]
    [InlineData(0.3, 0.95, "spares.miscutShare", "A share of miscuts of 0.3 cannot be planned for. Give 0 to 0.25 (1 in 4).")]
    [InlineData(0.02, 1, "spares.promise", "A promise of 1 cannot be kept. Give a share above 0 and at most 0.9999, such as 0.95.")]
    public void For_PromiseThatCannotBeKept_NamesIt(decimal share, decimal promise, string field, string message) => Assert.Equal(
        [new Problem(field, message)],
        Demand.For(TwoFabrics, [new("Dawn", Fabrics(1, 2), 1)], new(0, share, promise)).Problems);

    [Fact]
    public void For_CutListWithoutPieces_SaysSo() =>
        Assert.Equal("cutList", Assert.Single(Demand.For(List(), [new("Dawn", Fabrics(1, 2), 1)], NoSpares).Problems).Field);

    [Fact]
    public void For_SizesThatLookAlike_GetNamesOfTheirOwn()
    {
        var list = List(new FabricCutList("A", "sky", [new(Square, Square, 1, []), new(Square + Length.FromTicks(1), Square + Length.FromTicks(1), 1, []), new(Square + Length.FromTicks(2), Square + Length.FromTicks(2), 1, [])]));
        var names = Demand.For(list, [new("Dawn", Fabrics(1, 2), 1)], NoSpares).Fabrics[0].Pieces.Select(piece => piece.Name);
        Assert.Equal(["A: ≈4½″ square", "A: ≈4½″ square (2)", "A: 4½″ square"], names);
    }

    [Fact]
    public void For_AnyKits_NoPieceIsLostOrDoubled() =>
        Gen.Select(Gen.Int[0, 60], Gen.Int[0, 60], Gen.Long[1, 3], Gen.Long[1, 3], Gen.Long[1, 3], Gen.Long[1, 3]).Where((dawn, dusk, _, _, _, _) => dawn + dusk > 0).Sample(
            (dawn, dusk, a, b, c, d) =>
            {
                var result = Demand.For(TwoFabrics, [new("Dawn", Fabrics(a, b), dawn), new("Dusk", Fabrics(c, d), dusk)], NoSpares);
                return result.Fabrics.Sum(fabric => fabric.Pieces.Sum(piece => piece.Count)) == 12 * (dawn + dusk)
                    && result.Fabrics.All(fabric => fabric.Pieces.Select(piece => (piece.Width, piece.Height)).Distinct().Count() == fabric.Pieces.Count);
            },
            iter: 1_000);

    private static Dictionary<string, long> Fabrics(long a, long b) => new() { ["A"] = a, ["B"] = b };

    private static CutList List(params FabricCutList[] fabrics) => new(Square, Square, fabrics, [], []);
}
