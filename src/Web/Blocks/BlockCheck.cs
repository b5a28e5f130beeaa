using System.Globalization;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Blocks;

/// <summary>One line of the live cut list, in words.</summary>
public sealed record CheckedPiece(int Count, string Size, string Uses);

/// <summary>The pieces of one fabric.</summary>
public sealed record CheckedFabric(string Letter, string Name, IReadOnlyList<CheckedPiece> Pieces);

/// <summary>Something wrong, and the unit that it is about: its place among the units from 0, or null.</summary>
public sealed record CheckedProblem(string Message, int? Unit);

/// <summary>All that the editor shows beside the grid while a block is drawn.</summary>
/// <param name="Drawing">The block as SVG: the grid and one drawing unit around it.</param>
/// <param name="DrawingWidth">Width of the grid in the drawing's units.</param>
/// <param name="ColumnEdges">Grid lines as shares of the width, from 0 to 1; empty where the grid is wrong.</param>
/// <param name="RowEdges">Likewise for the height.</param>
/// <param name="HeightShare">Height of the block as a share of its width.</param>
/// <param name="ColumnSizes">Finished widths as people read them.</param>
/// <param name="RowSizes">Finished heights.</param>
/// <param name="Letters">Fabric letters, with their colours.</param>
/// <param name="Problems">What is wrong; empty for a block that can be cut.</param>
/// <param name="CutList">By fabric; empty while something is wrong.</param>
/// <param name="Says">One sentence.</param>
public sealed record BlockCheck(
    string Drawing,
    int DrawingWidth,
    IReadOnlyList<decimal> ColumnEdges,
    IReadOnlyList<decimal> RowEdges,
    decimal HeightShare,
    IReadOnlyList<string> ColumnSizes,
    IReadOnlyList<string> RowSizes,
    IReadOnlyList<CheckedLetter> Letters,
    IReadOnlyList<CheckedProblem> Problems,
    IReadOnlyList<CheckedFabric> CutList,
    string Says)
{
    private const int Width = 480;

    private static readonly decimal[] Unknown = [];

    /// <summary>Checks and draws a sketch. Keeps nothing.</summary>
    public static BlockCheck Of(BlockSketch sketch, ClassHabits habits)
    {
        var reading = sketch.Read(habits);
        if (reading.Block is not { } block)
        {
            return Nothing(reading.Problems);
        }

        var rules = UsualRules.For(habits.Metric);
        var result = CutLists.For(block, rules);
        var drawable = block.Columns is { Count: > 0 and <= BlockLimits.Cells } && block.Rows is { Count: > 0 and <= BlockLimits.Cells }
            && block.Columns.Concat(block.Rows).All(side => side.IsPositive && side <= BlockLimits.Side);
        return new(
            BlockPatches.Of(block).Patches.Count == 0 ? "" : BlockDrawing.Svg(block, new DrawingOptions { Width = Width, Letters = true, Sizes = habits.Style, Id = "editor" }),
            Width,
            drawable ? Edges(block.Columns) : Unknown,
            drawable ? Edges(block.Rows) : Unknown,
            drawable ? Sum(block.Rows) / Sum(block.Columns) : 1,
            [.. block.Columns.Select(habits.Show)],
            [.. block.Rows.Select(habits.Show)],
            [.. block.Fabrics.Select(fabric => new CheckedLetter(fabric.Letter, fabric.Name, FabricLook.Of(fabric.Letter).Colour))],
            [.. result.Problems.Select(Checked)],
            result.CutList is { } list ? Fabrics(list, habits) : [],
            Summary(result, habits));
    }

    private static BlockCheck Nothing(IReadOnlyList<Problem> problems) =>
        new("", Width, Unknown, Unknown, 1, [], [], [], [.. problems.Select(Checked)], [], Many(problems.Count));

    private static CheckedProblem Checked(Problem problem)
    {
        const string Start = "units[";
        var end = problem.Field.IndexOf(']', StringComparison.Ordinal);
        int? unit = problem.Field.StartsWith(Start, StringComparison.Ordinal)
            && int.TryParse(problem.Field.AsSpan(Start.Length, end - Start.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var index) ? index : null;
        return new(Say(problem.Said), unit);
    }

    private static string Summary(CutListResult result, ClassHabits habits)
    {
        if (result.CutList is not { } list)
        {
            return Many(result.Problems.Count);
        }

        var pieces = list.Fabrics.Sum(fabric => fabric.Pieces.Sum(piece => piece.Count));
        return Say($"It adds up: {habits.Show(list.UnfinishedWidth)} × {habits.Show(list.UnfinishedHeight)} unfinished, {pieces} pieces to cut.");
    }

    private static string Many(int problems) => problems == 1 ? Say("1 thing to put right.") : Say($"{problems} things to put right.");

    private static IReadOnlyList<CheckedFabric> Fabrics(CutList list, ClassHabits habits) =>
        [.. list.Fabrics.Select(fabric => new CheckedFabric(fabric.Letter, fabric.Name, [.. fabric.Pieces.Select(piece => new CheckedPiece(
            piece.Count,
            habits.ShowPiece(piece.Width, piece.Height),
            Listed(piece.Uses)))]))];

    private static decimal[] Edges(IReadOnlyList<Length> sides)
    {
        var whole = Sum(sides);
        var at = 0m;
        return [0m, .. sides.Select(side => Math.Round((at += side.Inches) / whole, 6))];
    }

    private static decimal Sum(IEnumerable<Length> sides) => sides.Sum(side => side.Inches);
}

/// <summary>A fabric's letter, its name and the colour it is drawn in.</summary>
public sealed record CheckedLetter(string Letter, string Name, string Colour);
