using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class PressingTests
{
    private const int MostSeams = 11;

    /// <summary>Every choice of sides, scored anew from the assembly alone: nests, then few toward pieced units, then rows one way.</summary>
    private static (int Nested, int Toward, int OneWay, int Crossings) ByTryingAll(Block block)
    {
        var seams = new List<(AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open)>();
        foreach (var join in Assembly.For(block).PartsFirst().Where(piece => piece.Join is JoinKind.SideBySide or JoinKind.Stacked))
        {
            seams.AddRange(join.Parts.Zip(join.Parts.Skip(1), (before, after) => (join, before, after, IsThick(block, join, after))));
        }

        var crossings = new List<(int, int)>();
        for (var one = 0; one < seams.Count; one++)
        {
            for (var other = 0; other < seams.Count; other++)
            {
                if (MeetEndToEnd(seams[one], seams[other]))
                {
                    crossings.Add((one, other));
                }
            }
        }

        var best = (-1, 0, 0, crossings.Count);
        for (var sides = 0; sides < 1 << seams.Count; sides++)
        {
            bool Far(int seam) => (sides >> seam & 1) == 1;
            var nested = crossings.Count(pair => !seams[pair.Item1].Open && !seams[pair.Item2].Open && Far(pair.Item1) != Far(pair.Item2));
            var toward = Enumerable.Range(0, seams.Count).Count(seam => !seams[seam].Open && TouchesPieced(block, seams[seam], Far(seam)));
            var oneWay = Enumerable.Range(0, seams.Count).Where(seam => !seams[seam].Open).GroupBy(seam => seams[seam].Join)
                .Count(row => row.Count() > 1 && row.Select(Far).Distinct().Count() == 1);
            var score = (nested, -toward, oneWay);
            if (score.CompareTo((best.Item1, -best.Item2, best.Item3)) > 0)
            {
                best = (nested, toward, oneWay, crossings.Count);
            }
        }

        return best;
    }

    private static bool MeetEndToEnd((AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open) one, (AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open) other)
    {
        if (one.Join.Join != other.Join.Join)
        {
            return false;
        }

        return one.Join.Join == JoinKind.SideBySide
            ? one.After.Column == other.After.Column && one.Join.Row + one.Join.RowSpan == other.Join.Row
            : one.After.Row == other.After.Row && one.Join.Column + one.Join.ColumnSpan == other.Join.Column;
    }

    private static bool TouchesPieced(Block block, (AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open) seam, bool far)
    {
        var part = far ? seam.After : seam.Before;
        return block.Units.Any(unit =>
        {
            var inside = unit.Row >= part.Row && unit.Row < part.Row + part.RowSpan && unit.Column >= part.Column && unit.Column < part.Column + part.ColumnSpan;
            var touches = seam.Join.Join == JoinKind.SideBySide
                ? (far ? unit.Column == part.Column : unit.Column + unit.ColumnSpan == part.Column + part.ColumnSpan)
                : (far ? unit.Row == part.Row : unit.Row + unit.RowSpan == part.Row + part.RowSpan);
            return inside && touches && unit.Kind is not (UnitKind.Plain or UnitKind.Template);
        });
    }

    private static bool IsThick(Block block, AssemblyPiece join, AssemblyPiece after)
    {
        var patches = BlockPatches.Of(block);
        var upright = join.Join == JoinKind.SideBySide;
        var (start, end) = upright ? (join.Row + 1, join.Row + join.RowSpan) : (join.Column + 1, join.Column + join.ColumnSpan);
        return Enumerable.Range(start, end - start).Any(cross =>
        {
            var (x, y) = upright
                ? (patches.ColumnEdges[after.Column], patches.RowEdges[cross])
                : (patches.ColumnEdges[cross], patches.RowEdges[after.Row]);
            return patches.Patches.Count(patch => patch.Corners.Any(corner => corner.X == x && corner.Y == y)) >= 8;
        });
    }

    private static void AgreesWithBruteForce(Block block)
    {
        var plan = PressingPlan.For(block);
        var best = ByTryingAll(block);
        Assert.Equal(best, (plan.Nested, plan.TowardPieced, plan.RowsOneWay, plan.Crossings));
    }

    [Fact]
    public void Plan_OfRandomSmallBlocks_IsAsGoodAsTryingEverything()
    {
        var blocks = new RandomBlocks(21);
        var (tried, open) = (0, 0);
        for (var round = 0; round < 10_000 && tried < 1_500; round++)
        {
            var block = blocks.Next(4, 0);
            if (block.Units.Count is > 1 and <= MostSeams + 1)
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
        Assert.Equal((1, 1), (plan.Crossings, plan.Nested));
        Assert.Equal("Rows 1 to 2, columns 1 to 2: press the seam open.", plan.Lines()[^1]);
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
