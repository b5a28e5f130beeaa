using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class AssemblyTests
{
    /// <summary>Fewest rounds by trying every choice of seams, not only all of one direction; null where no seam runs across.</summary>
    private static int? FewestRounds(IReadOnlyList<Unit> units, (int Left, int Top, int Right, int Bottom) area)
    {
        if (units.Count == 1)
        {
            return 0;
        }

        int? best = null;
        foreach (var upright in new[] { true, false })
        {
            var (from, to) = upright ? (area.Left, area.Right) : (area.Top, area.Bottom);
            var lines = Enumerable.Range(from + 1, to - from - 1).Where(line => units.All(unit => upright
                ? unit.Column >= line || unit.Column + unit.ColumnSpan <= line
                : unit.Row >= line || unit.Row + unit.RowSpan <= line)).ToList();
            for (var chosen = 1; chosen < 1 << lines.Count; chosen++)
            {
                List<int> cuts = [from, .. lines.Where((_, index) => (chosen >> index & 1) == 1), to];
                int? rounds = 0;
                foreach (var (start, end) in cuts.Zip(cuts.Skip(1)))
                {
                    var part = upright ? (start, area.Top, end, area.Bottom) : (area.Left, start, area.Right, end);
                    var inside = units.Where(unit => (upright ? unit.Column : unit.Row) >= start && (upright ? unit.Column : unit.Row) < end).ToList();
                    rounds = FewestRounds(inside, part) is { } inner && rounds is { } most ? Math.Max(most, inner) : null;
                }

                best = rounds is { } found && (best is null || found + 1 < best) ? found + 1 : best;
            }
        }

        return best;
    }

    [Fact]
    public void Assembly_OfRandomBlocks_TakesTheFewestRounds()
    {
        var blocks = new RandomBlocks(31);
        var (tried, partial) = (0, 0);
        for (var round = 0; round < 3_000; round++)
        {
            var block = blocks.Next(4, 0);
            if (block.Units.Count > 9)
            {
                continue;
            }

            var assembly = Assembly.For(block);
            var fewest = FewestRounds(block.Units, (0, 0, block.Columns.Count, block.Rows.Count));
            var isPartial = assembly.PartsFirst().Any(piece => piece.Join == JoinKind.PartialSeam);
            Assert.Equal(fewest is null, isPartial);
            if (fewest is { } rounds)
            {
                Assert.Equal(rounds, assembly.Depth);
                tried++;
            }
            else
            {
                partial++;
            }
        }

        Assert.True(tried > 500 && partial > 5, $"{tried} with seams across, {partial} without");
    }

    private static Block Spiral(int turn) => turn == 0
        ? Of("Spiral", Equal("2", 3), Equal("2", 3), "AB", Plain(0, 0, "A", 1, 2), Plain(0, 2, "B", 2, 1), Plain(2, 1, "A", 1, 2), Plain(1, 0, "B", 2, 1), Plain(1, 1, "A"))
        : Of("Spiral", Equal("2", 3), Equal("2", 3), "AB", Plain(0, 1, "A", 1, 2), Plain(1, 2, "B", 2, 1), Plain(2, 0, "A", 1, 2), Plain(0, 0, "B", 2, 1), Plain(1, 1, "A"));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Assembly_OfASpiral_NeedsAPartialSeamAndSaysWhere(int turn)
    {
        var assembly = Assembly.For(Spiral(turn));
        Assert.Equal(JoinKind.PartialSeam, assembly.Join);
        Assert.Equal((1, 1), (assembly.Parts[0].Row, assembly.Parts[0].Column));
        var step = Assert.Single(CutList(Spiral(turn)).Steps);
        Assert.StartsWith("Partial seam at row 2, column 2", step.Text, StringComparison.Ordinal);
        Assert.Equal((In("6 1/2"), In("6 1/2")), (step.Width, step.Height));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Assembly_OfASpiral_SewsEverySeamButTheFirstFromEndToEnd(int turn)
    {
        var parts = Assembly.For(Spiral(turn)).Parts;

        // Each piece after the second touches what is sewn already with whole sides only, and with one at least.
        for (var next = 2; next < parts.Count; next++)
        {
            var piece = parts[next];
            bool IsSewn((int Row, int Column) cell) => parts.Take(next).Any(part =>
                cell.Row >= part.Row && cell.Row < part.Row + part.RowSpan && cell.Column >= part.Column && cell.Column < part.Column + part.ColumnSpan);
            var rows = Enumerable.Range(piece.Row, piece.RowSpan).ToList();
            var columns = Enumerable.Range(piece.Column, piece.ColumnSpan).ToList();
            int[] sewn =
            [
                rows.Count(row => IsSewn((row, piece.Column - 1))),
                rows.Count(row => IsSewn((row, piece.Column + piece.ColumnSpan))),
                columns.Count(column => IsSewn((piece.Row - 1, column))),
                columns.Count(column => IsSewn((piece.Row + piece.RowSpan, column))),
            ];
            int[] whole = [piece.RowSpan, piece.RowSpan, piece.ColumnSpan, piece.ColumnSpan];
            Assert.Contains(true, sewn.Zip(whole, (some, all) => some == all));
            Assert.All(sewn.Zip(whole), side => Assert.True(side.First == 0 || side.First == side.Second, $"Part {next} is sewn on with part of a side."));
        }
    }

    [Fact]
    public void Assembly_OfASpiralWithPiecedArms_MakesTheArmsFirst()
    {
        // The upper arm is two bars: they are sewn together, then the spiral is sewn.
        var block = Of(
            "Spiral",
            Equal("2", 3),
            Sides("1", "1", "2", "2"),
            "AB",
            Plain(0, 0, "A", 1, 2), Plain(1, 0, "B", 1, 2), Plain(0, 2, "B", 3, 1), Plain(3, 1, "A", 1, 2), Plain(2, 0, "B", 2, 1), Plain(2, 1, "A"));
        var assembly = Assembly.For(block);
        Assert.Equal(5, assembly.Parts.Count);
        Assert.Equal(2, assembly.Depth);
        Assert.Contains(assembly.Parts, part => part is { Join: JoinKind.Stacked, Row: 0, Column: 0, ColumnSpan: 2, RowSpan: 2 });
    }

    [Fact]
    public void Assembly_OfANinePatch_IsThreeRowsThenTheBlock()
    {
        var block = Of("Nine", Equal("2", 3), Equal("2", 3), "AB", [.. Enumerable.Range(0, 9).Select(cell => Plain(cell / 3, cell % 3, cell % 2 == 0 ? "A" : "B"))]);
        var steps = CutList(block, new() { BlocksPerKit = 4 }).Steps;

        // Rows 1 and 3 are alike: one step for both, chain-pieced, four blocks' worth.
        Assert.Equal([8, 4, 4], steps.Select(step => step.Times));
        Assert.Equal([(In("6 1/2"), In("2 1/2")), (In("6 1/2"), In("2 1/2")), (In("6 1/2"), In("6 1/2"))], steps.Select(step => (step.Width, step.Height)));
        Assert.Contains("Make 8 alike, chain-pieced.", steps[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Assembly_OfPairsTurnedAllWays_SewsThemAsPairs()
    {
        // Four pairs of geese, each pair turned by a quarter from the last: four alike squares, not a square and two strips.
        Unit Goose(int row, int column, int turn) => Made(row, column, UnitKind.FlyingGeese, turn, "ABB") with
        {
            RowSpan = turn % 180 == 0 ? 1 : 2,
            ColumnSpan = turn % 180 == 0 ? 2 : 1,
        };
        var block = Of(
            "Pairs",
            Equal("2", 4),
            Equal("2", 4),
            "AB",
            Goose(0, 0, 0), Goose(1, 0, 0), Goose(0, 2, 90), Goose(0, 3, 90), Goose(2, 2, 180), Goose(3, 2, 180), Goose(2, 0, 270), Goose(2, 1, 270));
        var steps = CutList(block).Steps;
        Assert.Equal([8, 4, 2, 1], steps.Select(step => step.Times));
        Assert.StartsWith("Sew 4 pairs one above the other", steps[1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Steps_OfTwoPatches_AreCountedInPairs()
    {
        var step = Assert.Single(CutList(Of("Two", Sides("2", "2"), Sides("2"), "AB", Plain(0, 0, "A"), Plain(0, 1, "B")), new() { BlocksPerKit = 8 }).Steps);
        Assert.Equal("Sew 8 pairs side by side, left to right: A patch, B patch.", step.Text);
    }

    [Fact]
    public void Assembly_OfTheLargestGrid_IsFound()
    {
        var block = Of("Large", Equal("1", 24), Equal("1", 16), "A", [.. Enumerable.Range(0, 384).Select(cell => Plain(cell / 24, cell % 24, "A"))]);
        Assert.Equal(2, Assembly.For(block).Depth);
        Assert.NotEmpty(CutList(block).Steps);
    }

    [Fact]
    public void Assembly_OfSpiralsWithinSpirals_IsFound()
    {
        // Eleven spirals round one middle: no seam runs across at any level.
        var units = new List<Unit> { Plain(11, 11, "A") };
        for (var ring = 1; ring <= 11; ring++)
        {
            var (start, side) = (11 - ring, 2 * ring);
            units.Add(Plain(start, start, "A", 1, side));
            units.Add(Plain(start, start + side, "B", side, 1));
            units.Add(Plain(start + side, start + 1, "A", 1, side));
            units.Add(Plain(start + 1, start, "B", side, 1));
        }

        var block = Of("Spirals", Equal("1", 23), Equal("1", 23), "AB", [.. units]);
        var assembly = Assembly.For(block);
        Assert.Equal(11, assembly.PartsFirst().Count(piece => piece.Join == JoinKind.PartialSeam));
        Assert.Equal(11, assembly.Depth);
        Assert.NotEmpty(CutList(block).Steps);
    }
}
