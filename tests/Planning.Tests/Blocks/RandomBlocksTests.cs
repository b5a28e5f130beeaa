using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>What must hold of every block, on 10,000 of them.</summary>
public sealed class RandomBlocksTests
{
    private const int Blocks = 10_000;

    /// <summary>Eight blocks a kit: every square of every method comes out even, so that nothing is left over.</summary>
    private static readonly CuttingRules Even = new()
    {
        BlocksPerKit = 8,
        Methods = new()
        {
            HalfSquareTriangle = HalfSquareMethod.CutTriangles,
            QuarterSquareTriangle = QuarterSquareMethod.CutTriangles,
            FlyingGeese = GeeseMethod.FlipCorners,
            SquareInASquare = SquareInASquareMethod.FlipCorners,
            Trim = TrimMethod.Exact,
        },
    };

    [Fact]
    public void AnyBlock_IsGoodAndItsPatchesFillIt()
    {
        var blocks = new RandomBlocks(11);
        for (var round = 0; round < Blocks; round++)
        {
            var block = blocks.Next();
            Assert.Empty(BlockChecks.Check(block).Select(problem => problem.Message));
            var patches = BlockPatches.Of(block);
            Assert.All(patches.Patches, patch => Assert.True(patch.TwiceArea > 0, "A patch runs the wrong way round."));
            var area = patches.Patches.Aggregate((Int128)0, (sum, patch) => sum + patch.TwiceArea);
            Assert.Equal(2 * (Int128)patches.Width.Ticks * patches.Height.Ticks, area);
        }
    }

    // The finished areas of all pieces add to the block's area; stitch-and-flip squares add none. Each piece's finished size
    // is worked back from its cut size by its use.
    [Fact]
    public void AnyBlock_PiecesFinishAtTheBlocksArea()
    {
        var blocks = new RandomBlocks(12);
        for (var round = 0; round < Blocks; round++)
        {
            var block = blocks.Next();
            var list = CutList(block, Even);
            var groups = UnitGroup.Of(PlacedBlock.Of(block), Even);
            Assert.All(list.Units, unit => Assert.Equal(0, unit.LeftOver));
            var finished = groups.SelectMany(group => group.Making.Pieces).Sum(FinishedArea);
            Assert.Equal(8 * (list.UnfinishedWidth.Inches - 0.5m) * (list.UnfinishedHeight.Inches - 0.5m), finished);

            // What the kit lists is what the groups need, piece for piece.
            Assert.Equal(
                groups.SelectMany(group => group.Making.Pieces).Sum(piece => piece.Count),
                list.Fabrics.SelectMany(fabric => fabric.Pieces).Sum(piece => piece.Count));
        }
    }

    private static decimal FinishedArea(MadePiece piece)
    {
        var (width, height) = (piece.Width.Inches, piece.Height.Inches);
        var each = piece.Use switch
        {
            _ when piece.Use.ToString().Contains("cut once", StringComparison.Ordinal) => (width - 0.875m) * (height - 0.875m),
            _ when piece.Use.ToString().Contains("cut twice", StringComparison.Ordinal) => (width - 1.25m) * (height - 1.25m),
            _ when piece.Use.ToString().Contains("flipped", StringComparison.Ordinal) && !piece.Use.ToString().StartsWith("patches", StringComparison.Ordinal) => 0m,
            _ => (width - 0.5m) * (height - 0.5m),
        };
        return each * piece.Count;
    }

    [Fact]
    public void AnyBlock_AssemblyUsesEveryUnitOnce()
    {
        var blocks = new RandomBlocks(13);
        var partial = 0;
        for (var round = 0; round < Blocks; round++)
        {
            var block = blocks.Next();
            var pieces = Assembly.For(block).PartsFirst().ToList();
            Assert.Equal(Enumerable.Range(1, block.Units.Count), pieces.Where(piece => piece.Join == JoinKind.Unit).Select(piece => piece.Unit).Order());

            // Each join of n parts has n - 1 seams; together they join all units.
            Assert.Equal(block.Units.Count - 1, pieces.Sum(piece => Math.Max(0, piece.Parts.Count - 1)));
            Assert.All(pieces, piece => Assert.Equal(piece.ColumnSpan * piece.RowSpan, piece.Parts.Count == 0 ? piece.ColumnSpan * piece.RowSpan : piece.Parts.Sum(part => part.ColumnSpan * part.RowSpan)));
            partial += pieces.Any(piece => piece.Join == JoinKind.PartialSeam) ? 1 : 0;
        }

        Assert.True(partial > 50, $"Only {partial} blocks had a partial seam.");
    }

    [Fact]
    public void AnyBlock_LastStepMeasuresTheBlock()
    {
        var blocks = new RandomBlocks(14);
        for (var round = 0; round < Blocks / 5; round++)
        {
            var block = blocks.Next();
            var list = CutList(block, new() { BlocksPerKit = 3 });
            Assert.Equal(Enumerable.Range(1, list.Steps.Count), list.Steps.Select(step => step.Number));
            if (block.Units.Count > 1)
            {
                var last = list.Steps[^1];
                Assert.Equal((list.UnfinishedWidth, list.UnfinishedHeight, 3), (last.Width, last.Height, last.Times));
            }

            Assert.All(list.Steps, step => Assert.True(step.Times >= 1 && step.Text.Length > 0));
        }
    }

    [Fact]
    public void AnyBlock_WrittenAndRead_IsTheSame()
    {
        var blocks = new RandomBlocks(15);
        for (var round = 0; round < Blocks; round++)
        {
            var text = BlockJson.Write(blocks.Next());
            var reading = BlockJson.Read(text);
            Assert.Empty(reading.Problems);
            Assert.Equal(text, BlockJson.Write(reading.Block!));
        }
    }

    [Fact]
    public void AnyBlock_TurnedByAQuarter_NeedsTheSamePieces()
    {
        var blocks = new RandomBlocks(16);
        for (var round = 0; round < Blocks / 5; round++)
        {
            var block = blocks.Next();
            var turned = block with
            {
                Columns = [.. block.Rows.Reverse()],
                Rows = block.Columns,
                Units = [.. block.Units.Select(unit => unit with
                {
                    Row = unit.Column,
                    Column = block.Rows.Count - unit.Row - unit.RowSpan,
                    RowSpan = unit.ColumnSpan,
                    ColumnSpan = unit.RowSpan,
                    Turn = (unit.Turn + 90) % 360,
                })],
            };
            Assert.Equal(InShort(CutList(block)), InShort(CutList(turned)));
        }
    }

    /// <summary>More kits never need fewer pieces, and eight kits at once never more than eight alone.</summary>
    [Fact]
    public void AnyBlock_InLargerKits_NeedsNoMoreThanTheKitsAlone()
    {
        var blocks = new RandomBlocks(17);
        for (var round = 0; round < Blocks / 5; round++)
        {
            var block = blocks.Next();
            var one = CutList(block);
            var eight = CutList(block, new() { BlocksPerKit = 8 });
            foreach (var (alone, together) in one.Fabrics.Zip(eight.Fabrics))
            {
                foreach (var (piece, many) in alone.Pieces.Zip(together.Pieces))
                {
                    Assert.Equal((piece.Width, piece.Height), (many.Width, many.Height));
                    Assert.InRange(many.Count, piece.Count, piece.Count * 8);
                }
            }
        }
    }
}
