using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Printed counts of squares from fat quarters and precuts: one sheet gives the printed number, and not one more.</summary>
public sealed class PublishedSheetTests
{
    // Marcia Hohn, "Math Charts", 17 June 2002, quilterscache.com/M/MathChartsPage.html: squares from a fat quarter of 18 × 22 in; 2 to 6½ in also at
    // piecefulliving.blogspot.com, 13 Aug 2011.
    private const string FatQuarter =
        "2=99, 2 1/2=56, 2 7/8=42, 3=42, 3 1/2=30, 3 7/8=20, 4=20, 4 1/2=16, 4 7/8=12, 5=12, 5 1/2=12, 5 7/8=9, 6=9, 6 1/2=6, 6 7/8=6";

    [Fact]
    public void Plan_PrintedSquaresPerFatQuarter_AreWhatOneHolds()
    {
        foreach (var row in FatQuarter.Split(','))
        {
            var (size, count) = (LengthText.Read(row.Split('=')[0]).Value, int.Parse(row.Split('=')[1], CultureInfo.InvariantCulture));
            Assert.Equal(1, Sheets(22, 18, size, size, count));
            Assert.Equal(2, Sheets(22, 18, size, size, count + 1));
        }
    }

    // A chart made for 18 × 22 misleads at 18 × 21 and 18 × 20, which shops also sell (Quilting Daily, 18 Oct 2022: 18 × 20): worked out, not printed.
    [Theory]
    [InlineData(21, 5.5, 9)]
    [InlineData(20, 5.5, 9)]
    [InlineData(21, 3, 42)]
    [InlineData(20, 3, 36)]
    public void Plan_NarrowerFatQuarter_HoldsFewer(double width, double size, int count)
    {
        Assert.Equal(1, Sheets((decimal)width, 18, In((decimal)size), In((decimal)size), count));
        Assert.Equal(2, Sheets((decimal)width, 18, In((decimal)size), In((decimal)size), count + 1));
    }

    // whip-stitch.com/charm-packs-jelly-rolls-layer-cakes-oh-my-2/: a 10 in square cut in quarters is four 5 in squares.
    [Fact]
    public void Plan_TenInchSquare_IsFourOfFiveInches()
    {
        Assert.Equal(1, Sheets(10, 10, In(5), In(5), 4));
        Assert.Equal(2, Sheets(10, 10, In(5), In(5), 5));
    }

    // Squares from 10 in and 5 in precuts: worked out as whole rows, not printed.
    [Theory]
    [InlineData(10, 2.5, 16)]
    [InlineData(10, 3.5, 4)]
    [InlineData(10, 4.5, 4)]
    [InlineData(10, 2, 25)]
    [InlineData(5, 2.5, 4)]
    [InlineData(5, 4.5, 1)]
    [InlineData(5, 1.5, 9)]
    public void Plan_SquaresFromAPrecutSquare_AreWholeRows(double sheet, double size, int count)
    {
        Assert.Equal(1, Sheets((decimal)sheet, (decimal)sheet, In((decimal)size), In((decimal)size), count));
        Assert.Equal(2, Sheets((decimal)sheet, (decimal)sheet, In((decimal)size), In((decimal)size), count + 1));
    }

    [Fact]
    public void Plan_MoreThanTheSheetsHold_IsRefusedWithThePlace()
    {
        var result = CuttingPlanner.Plan(CutSheets([Sheet("5 in square", 5, 5, 3)], Piece("square", 2.5m, 2.5m, 13)));
        Assert.Null(result.Plan);
        Assert.StartsWith("stock", Assert.Single(result.Problems).Field, StringComparison.Ordinal);
    }

    // American Patchwork & Quilting, "Built-to-Order" runner, 11 Oct 2022, allpeoplequilt.com/quilt-patterns/table-runners/built-to-order-table-runner:
    // one fat quarter of 18 × 21 for ten squares of 3⅞, one for ten of 3½; a 12 in square for five of 3½.
    [Theory]
    [InlineData(21, 18, 3.875, 10)]
    [InlineData(21, 18, 3.5, 10)]
    [InlineData(12, 12, 3.5, 5)]
    public void Plan_PrintedRunner_NeedsOneSheetOfEach(double width, double length, double size, int count) =>
        Assert.Equal(1, Sheets((decimal)width, (decimal)length, In((decimal)size), In((decimal)size), count));

    private static int Sheets(decimal width, decimal length, Length across, Length along, int count) =>
        Proved(CutSheets([Sheet("sheet", width, length, null, 1)], new CutPiece("patch", across, along, count))).Sheets.Sum(recipe => recipe.Repeat);
}
