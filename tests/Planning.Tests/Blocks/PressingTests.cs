using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class PressingTests
{
    private const int MostSeams = 11;

    private static void AgreesWithBruteForce(Block block)
    {
        var plan = PressingPlan.For(block);
        var best = PressingByTryingAll.Best(block);
        Assert.Equal(best, (plan.Nested, plan.TowardPieced, plan.RowsOneWay, plan.Crossings));
    }

    /// <summary>Seams to choose for, where all are of a kind that the brute force knows and none is partial; else 0.</summary>
    private static int FreeSeams(Block block)
    {
        var known = block.Units.All(unit => unit.Kind is UnitKind.Plain or UnitKind.HalfSquareTriangle or UnitKind.FlyingGeese or UnitKind.FlippedCorners or UnitKind.SquareInASquare or UnitKind.Rails);
        return known && Assembly.For(block).PartsFirst().All(piece => piece.Join != JoinKind.PartialSeam)
            ? block.Units.Count - 1 + PressingByTryingAll.FreeSeamsInside(block)
            : 0;
    }

    [Fact]
    public void Plan_OfRandomSmallBlocks_IsAsGoodAsTryingEverything()
    {
        var blocks = new RandomBlocks(21);
        var (tried, open) = (0, 0);
        for (var round = 0; round < 20_000 && tried < 1_500; round++)
        {
            var block = blocks.Next(4, 0);
            if (block.Units.Count > 1 && FreeSeams(block) is > 0 and <= MostSeams)
            {
                AgreesWithBruteForce(block);
                tried++;
                open += PressingPlan.For(block).Seams.Any(seam => seam.Press == PressTo.Open) ? 1 : 0;
            }
        }

        Assert.Equal(1_500, tried);
    }

    /// <summary>Every grid up to 3 × 3 cells with each cell plain or pieced.</summary>
    [Fact]
    public void Plan_OfEverySmallGrid_IsAsGoodAsTryingEverything()
    {
        foreach (var (rows, columns) in new[] { (1, 2), (1, 3), (2, 1), (2, 2), (2, 3), (3, 2), (3, 3) })
        {
            for (var pieced = 0; pieced < 1 << (rows * columns); pieced++)
            {
                var units = Enumerable.Range(0, rows * columns).Select(cell => (pieced >> cell & 1) == 1
                    ? Made(cell / columns, cell % columns, UnitKind.SquareInASquare, 0, "AB")
                    : Plain(cell / columns, cell % columns, "A"));
                AgreesWithBruteForce(Of("Grid", Equal("2", columns), Equal("2", rows), "AB", [.. units]));
            }
        }
    }

    // "Open when more than 4 seams meet (8 in a windmill)": ajpadilla.com.
    [Fact]
    public void Plan_OfAPinwheel_PressesTheLastSeamOpen()
    {
        var block = Of("Pinwheel", Equal("3", 2), Equal("3", 2), "AB", Half(0, 0, "AB", 90), Half(0, 1, "AB", 180), Half(1, 0, "AB"), Half(1, 1, "AB", 270));
        var plan = PressingPlan.For(block);
        Assert.Equal(PressTo.Open, plan.Seams[^1].Press);

        // The middle under the last seam, and the diagonals there under each of the first two.
        Assert.Equal((3, 3), (plan.Crossings, plan.Nested));
        Assert.Equal(4, plan.UnitSeams.Count);
        Assert.Equal("Rows 1 to 2, columns 1 to 2: press the seam open.", plan.Lines()[^1]);
    }

    // Seams that meet are pressed in opposite directions: American Patchwork & Quilting, "The Perfect 1/4 in Seam". Here they meet at
    // the upper end of the seam between two units, and in the middle of the seam between two four-patches.
    [Fact]
    public void Plan_OfTwoTriangleSquaresMeetingAtACorner_PressesThemOppositeWays()
    {
        var plan = PressingPlan.For(Of("Peak", Equal("3", 2), Sides("3"), "AB", Half(0, 0, "AB"), Half(0, 1, "AB", 90)));
        Assert.Equal((1, 1), (plan.Crossings, plan.Nested));
        Assert.Equal(["A", "B"], plan.UnitSeams.Select(seam => seam.Toward).Order());
        Assert.Matches("^Half-square triangles: the one at row 1, column [12] toward [AB]; the one at row 1, column [12] toward [AB]\\.$", plan.Lines()[0].ToString());
    }

    [Fact]
    public void Plan_OfTwoFourPatches_PressesTheirMiddlesOppositeWays()
    {
        var four = Made(0, 0, UnitKind.Checkerboard, 0, "") with { Patches = [["A", "B"], ["B", "A"]] };
        var plan = PressingPlan.For(Of("Two", Equal("4", 2), Sides("4"), "AB", four, four with { Column = 1 }));
        Assert.Equal((1, 1), (plan.Crossings, plan.Nested));
        var middles = plan.UnitSeams.Where(seam => seam.From.Y == seam.To.Y).Select(seam => seam.ToRight).ToList();
        Assert.Equal([false, true], middles.Order());

        // Within each, the two short seams are pressed by turns, so that they nest in themselves.
        Assert.All(plan.UnitSeams.Where(seam => seam.From.X == seam.To.X).GroupBy(seam => seam.Unit), unit => Assert.Equal([false, true], unit.Select(seam => seam.ToRight).Order()));
    }

    [Fact]
    public void Plan_OfAnHourglassAndGeese_SaysHowEachIsPressed()
    {
        var plan = PressingPlan.For(Of("Mixed", Sides("4", "4"), Sides("4"), "AB", Quarter(0, 0, "ABAB"), Made(0, 1, UnitKind.FlyingGeese, 90, "ABB") with { Column = 1 }) with { Columns = Sides("4", "2") });
        Assert.Contains("Flying geese: press toward the skies.", plan.Lines());
        Assert.Contains(plan.Lines(), line => line.ToString().StartsWith("Quarter-square triangles: press the short seams toward ", StringComparison.Ordinal));
        var shorts = plan.UnitSeams.Where(seam => seam.Kind == UnitKind.QuarterSquareTriangle).Skip(1).Select(seam => seam.Toward).Distinct();
        Assert.Single(shorts);
    }

    // Rows in alternate directions; seams that meet pressed opposite ways: American Patchwork & Quilting, "The Perfect 1/4 in Seam".
    [Fact]
    public void Plan_OfANinePatch_AlternatesRowByRow()
    {
        var block = Of("Nine", Equal("2", 3), Equal("2", 3), "AB", [.. Enumerable.Range(0, 9).Select(cell => Plain(cell / 3, cell % 3, cell % 2 == 0 ? "A" : "B"))]);
        var plan = PressingPlan.For(block);
        Assert.Equal((4, 4, 4, 4), (plan.Crossings, plan.Nested, plan.Rows, plan.RowsOneWay));
        var rows = plan.Seams.Where(seam => seam.IsUpright).GroupBy(seam => seam.From).Select(row => Assert.Single(row.Select(seam => seam.Press).Distinct())).ToList();
        Assert.NotEqual(rows[0], rows[1]);
        Assert.Equal(rows[0], rows[2]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(401)]
    public void Plan_OfTheLargestGrid_NestsEverything(int pieced)
    {
        var block = Of("Grid", Equal("1", 20), Equal("1", 20), "AB", [.. Enumerable.Range(0, 400).Select(cell => cell % pieced == 1
            ? Half(cell / 20, cell % 20, "AB")
            : Plain(cell / 20, cell % 20, "A"))]);
        var plan = PressingPlan.For(block);
        Assert.Equal(plan.Crossings, plan.Nested);
    }

    [Fact]
    public void Plan_OfOneUnit_IsEmpty() => Assert.Empty(PressingPlan.For(Of("One", Sides("3"), Sides("3"), "A", Plain(0, 0, "A"))).Seams);
}
