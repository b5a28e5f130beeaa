using System.Globalization;
using System.Text.RegularExpressions;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;

namespace KittingBee.Web.Tests.Blocks;

public sealed partial class StartersTests
{
    public static TheoryData<string> Keys => [.. Starters.All.Select(starter => starter.Key)];

    [Fact]
    public void Starters_AreADozenOrMore_WithNamesOfTheirOwn()
    {
        Assert.True(Starters.All.Count >= 12, $"{Starters.All.Count} starters");
        Assert.Equal(Starters.All.Count, Starters.All.Select(starter => starter.Block.Name).Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Keys))]
    public void Starter_CanBeCut_AndSewnWithoutPartialSeams(string key)
    {
        var result = CutLists.For(Starters.Find(key)!.Block, new CuttingRules());
        Assert.Empty(result.Problems.Select(problem => problem.Message));
        Assert.NotEmpty(result.CutList!.Steps);
        Assert.All(result.CutList.Fabrics, fabric => Assert.NotEmpty(fabric.Pieces));
    }

    // Pieces of one size can come from different steps: the text says which one, and it must be an earlier one that made that size.
    [Theory]
    [MemberData(nameof(Keys))]
    public void Starter_StepsThatUseEarlierPieces_NameTheStepThatMadeThem(string key)
    {
        var steps = CutLists.For(Starters.Find(key)!.Block, new CuttingRules()).CutList!.Steps;
        var used = new HashSet<int>();
        foreach (var step in steps)
        {
            Assert.DoesNotMatch("piece(,|\\.)", step.Text);
            foreach (Match piece in PieceOfStep().Matches(step.Text))
            {
                var from = steps[int.Parse(piece.Groups["step"].Value, CultureInfo.InvariantCulture) - 1];
                Assert.True(from.Number < step.Number, step.Text);
                Assert.Contains(LengthText.Write(from.Width, LengthStyle.Eighths), piece.Value, StringComparison.Ordinal);
                Assert.Contains(LengthText.Write(from.Height, LengthStyle.Eighths), piece.Value, StringComparison.Ordinal);
                used.Add(from.Number);
            }
        }

        if (key == "bears-paw")
        {
            Assert.True(used.Count > 4, $"{used.Count} steps are used again.");
        }
    }

    // A unit's cells are its finished area; that the sum is the block's shows that nothing overlaps and nothing is missing.
    [Theory]
    [MemberData(nameof(Keys))]
    public void Starter_AreasOfUnits_AddUpToTheBlock(string key)
    {
        var block = Starters.Find(key)!.Block;
        decimal Sum(IReadOnlyList<Planning.Measures.Length> sides, int from, int count) => sides.Skip(from).Take(count).Sum(side => side.Inches);
        var units = block.Units.Sum(unit => Sum(block.Columns, unit.Column, unit.ColumnSpan) * Sum(block.Rows, unit.Row, unit.RowSpan));
        Assert.Equal(Sum(block.Columns, 0, block.Columns.Count) * Sum(block.Rows, 0, block.Rows.Count), units);
    }

    [Theory]
    [MemberData(nameof(Keys))]
    public void Starter_AsLinesOfText_ReadsBackTheSame(string key)
    {
        var block = Starters.Find(key)!.Block;
        var sketch = BlockSketch.Of(block, new(Metric: false, PaperA4: false, "USD"));
        var (units, problems) = UnitLines.Read(UnitLines.Write(sketch.Units), Planning.Measures.LengthUnit.Inch);
        Assert.Empty(problems);
        var read = (sketch with { Units = units }).Read(new(Metric: false, PaperA4: false, "USD"));
        Assert.Empty(read.Problems);
        Assert.Equal(BlockJson.Write(block), BlockJson.Write(read.Block!));
    }

    [GeneratedRegex("the (?<size>[^,]+?) piece of step (?<step>[0-9]+)")]
    private static partial Regex PieceOfStep();
}
