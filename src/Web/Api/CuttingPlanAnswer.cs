using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Api;

/// <summary>Pieces of one size in a stack; <c>width</c> lies across the strip and <c>height</c> up it, as cut.</summary>
/// <param name="Piece">Name of the piece in the request.</param>
public sealed record StackedAnswer(string Piece, Length Width, Length Height, bool Turned, int Count);

/// <summary>One sub-cut of a strip, side by side <c>repeat</c> times, cross-cut into its stack of pieces.</summary>
public sealed record ColumnAnswer(Length Width, int Repeat, IReadOnlyList<StackedAnswer> Pieces);

/// <summary>A recipe for a strip and how many strips are cut by it.</summary>
public sealed record StripAnswer(Length Height, int Repeat, IReadOnlyList<ColumnAnswer> Columns);

/// <summary>A recipe for a sheet; <c>lengthwise</c> where its strips run along its length.</summary>
public sealed record SheetAnswer(string Name, int Repeat, bool Lengthwise, IReadOnlyList<StripAnswer> Strips);

/// <summary>Pieces beyond what was asked.</summary>
/// <param name="Piece">Name of the piece in the request.</param>
public sealed record SurplusAnswer(string Piece, int Count);

/// <summary>A cutting plan. Lengths are inches; <c>length</c> is what the strips take, <c>buy</c> what the shop sells for it.</summary>
public sealed record CuttingPlanAnswer(
    Length Length,
    Length Floor,
    Purchase Buy,
    Purchase OneSizePerStrip,
    IReadOnlyList<StripAnswer> Strips,
    IReadOnlyList<SheetAnswer> Sheets,
    IReadOnlyList<SurplusAnswer> Surplus,
    int Strokes)
{
    /// <summary>The plan with its pieces called by the names of the request.</summary>
    public static CuttingPlanAnswer From(CuttingPlan plan, IReadOnlyList<PieceCall> pieces)
    {
        StripAnswer Strip(Strip strip) => new(strip.Height, strip.Repeat, [.. strip.Columns.Select(Column)]);
        ColumnAnswer Column(Column column) => new(column.Width, column.Repeat, [.. column.Pieces.Select(Stacked)]);
        StackedAnswer Stacked(StackedPiece stacked) => new(pieces[stacked.Piece].Name, stacked.Width, stacked.Height, stacked.Turned, stacked.Count);

        return new(
            plan.Length,
            plan.Floor,
            plan.Buy,
            plan.OneSizePerStrip,
            [.. plan.Strips.Select(Strip)],
            [.. plan.Sheets.Select(sheet => new SheetAnswer(sheet.Name.ToString(), sheet.Repeat, sheet.Lengthwise, [.. sheet.Strips.Select(Strip)]))],
            [.. plan.Surplus.Select(surplus => new SurplusAnswer(pieces[surplus.Piece].Name, surplus.Count))],
            plan.Strokes);
    }
}
