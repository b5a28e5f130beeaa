using System.Text.Json.Serialization;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Equal pieces of one fabric for one kit.</summary>
/// <param name="Width">Cut width.</param>
/// <param name="Height">Cut height; never more than the width unless the piece is a strip.</param>
/// <param name="Count">Pieces for one kit.</param>
/// <param name="Uses">What they are for, one sentence part each: "half-square triangles, two at a time".</param>
/// <param name="Thing">What it is called where it is no cut piece but is handed out to be cut: "2½″ strip, 40″ long"; else null.</param>
public sealed record KitPiece(Length Width, Length Height, int Count, IReadOnlyList<Sentence> Uses, Sentence? Thing = null);

/// <summary>Everything to cut from one lettered fabric for one kit.</summary>
public sealed record FabricCutList(string Letter, string Name, IReadOnlyList<KitPiece> Pieces);

/// <summary>Units alike, made together.</summary>
/// <param name="Kind">What they are.</param>
/// <param name="Description">Kind, finished size and fabrics in words.</param>
/// <param name="Count">How many one kit needs.</param>
/// <param name="TrimWidth">Unfinished width to trim to.</param>
/// <param name="TrimHeight">Unfinished height to trim to.</param>
/// <param name="LeftOver">Units made beyond the need, because squares are cut whole.</param>
/// <param name="Note">Why another method was used, or null.</param>
public sealed record UnitReport(UnitKind Kind, Sentence Description, int Count, Length TrimWidth, Length TrimHeight, int LeftOver, Sentence? Note);

/// <summary>One sewing step with its checkpoint.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Said">What to do, a sentence or two.</param>
/// <param name="Width">Unfinished width that the piece must measure now.</param>
/// <param name="Height">Unfinished height that the piece must measure now.</param>
/// <param name="Times">How often the step is done for one kit.</param>
/// <param name="Column">Leftmost grid column of what is sewn (0 for units made apart).</param>
/// <param name="Row">Topmost grid row.</param>
/// <param name="ColumnSpan">Grid columns covered by the result; 0 for a step of a whole project, which has no place on the grid.</param>
/// <param name="RowSpan">Grid rows covered by the result.</param>
public sealed record SewingStep(int Number, [property: JsonIgnore] Sentence Said, Length Width, Length Height, int Times, int Column, int Row, int ColumnSpan, int RowSpan)
{
    /// <summary>What to do, as programs read it.</summary>
    public string Text => Said.ToString();
}

/// <summary>The cut list of one kit.</summary>
/// <param name="UnfinishedWidth">Width of the block before it is joined to anything.</param>
/// <param name="UnfinishedHeight">Height of the block before it is joined to anything.</param>
/// <param name="Fabrics">By letter, in the block's order.</param>
/// <param name="Units">What is made, how it is trimmed, what is left over.</param>
/// <param name="Steps">How it is sewn; empty for a typed cut list.</param>
public sealed record CutList(
    Length UnfinishedWidth,
    Length UnfinishedHeight,
    IReadOnlyList<FabricCutList> Fabrics,
    IReadOnlyList<UnitReport> Units,
    IReadOnlyList<SewingStep> Steps);

/// <summary>A cut list, or what is wrong with the block.</summary>
public sealed record CutListResult(CutList? CutList, IReadOnlyList<Problem> Problems);
