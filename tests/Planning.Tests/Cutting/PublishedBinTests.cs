using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>
/// The first problem of twenty pieces of some classes of Berkey and Wang (Journal of the Operational Research Society 38, 1987, 423–429; classes 1, 3
/// and 5) and of Martello and Vigo (Management Science 44, 1998, 388–399; classes 7, 9 and 10), pieces turned. The numbers of sheets are the best known,
/// read in a public solver's published results; all 500 problems are run by the benchmarks' bin-packing command.
/// </summary>
public sealed class PublishedBinTests
{
    [Theory]
    [InlineData(1, 10, 7, "5x9 4x2 10x6 5x7 6x3 10x7 1x5 3x5 6x9 2x4 6x7 7x2 8x3 4x10 4x5 10x3 8x3 7x8 8x3 8x7")]
    [InlineData(3, 40, 5, "18x30 13x5 33x19 17x22 18x9 34x24 1x16 9x15 19x31 4x11 19x23 24x4 27x9 13x33 13x15 34x9 27x10 22x28 26x11 25x25")]
    [InlineData(5, 100, 7, "50x85 35x14 94x54 47x62 52x25 96x67 1x43 24x42 53x86 11x31 52x65 66x11 76x25 36x94 36x42 97x24 76x29 61x79 74x29 71x69")]
    [InlineData(7, 100, 5, "56x75 98x27 74x24 99x34 80x1 84x43 88x6 89x6 98x38 78x21 75x49 31x93 90x37 21x73 71x4 93x35 89x48 90x12 13x79 10x42")]
    [InlineData(9, 100, 19, "56x75 97x77 62x73 98x84 71x50 76x93 83x55 83x55 97x88 67x71 64x99 80x89 85x87 70x60 57x53 89x85 84x98 85x61 62x70 10x42")]
    [InlineData(10, 100, 6, "7x25 47x27 13x24 48x34 21x1 76x93 33x6 33x6 97x88 18x21 64x99 31x40 85x87 21x11 8x4 89x85 34x48 85x61 13x20 10x42")]
    public void Plan_PublishedBinProblem_TakesTheBestKnownNumberOfSheets(int kind, int sheet, int known, string pieces)
    {
        var cut = pieces.Split(' ').Select((piece, index) => (Sides: piece.Split('x'), index))
            .Select(piece => new CutPiece($"{piece.index + 1}", Inches(piece.Sides[0]), Inches(piece.Sides[1]), 1));
        var request = new CuttingRequest(new CuttingStock(null, [Sheet("sheet", sheet, sheet, null, 1m)]), [.. cut])
        {
            LongestStrip = In(sheet),
            Objective = CuttingObjective.LeastLength,

            // The clock is no part of this: the work limit ends the search.
            TimeAllowance = TimeSpan.FromSeconds(30),
        };
        var used = Proved(request).Sheets.Sum(recipe => recipe.Repeat);
        Assert.True(used <= known, $"Class {kind}: {used} sheets, best known {known}.");
    }

    private static Length Inches(string text) => Length.FromInches(int.Parse(text, CultureInfo.InvariantCulture));
}
