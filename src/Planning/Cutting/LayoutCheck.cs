using System.Globalization;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>The part of <see cref="PlanChecker"/> that looks at one strip: does every piece lie inside it, whole and the right way round?</summary>
internal static class LayoutCheck
{
    /// <summary>Checks a strip and adds what it gives to <paramref name="cut"/>.</summary>
    /// <param name="request">What was asked.</param>
    /// <param name="strip">The strip.</param>
    /// <param name="name">How to name it in a sentence.</param>
    /// <param name="across">Ticks that its columns may take together.</param>
    /// <param name="lengthwise">True when the strip runs along the cloth.</param>
    /// <param name="strips">How many strips there are of it in all.</param>
    /// <param name="cut">Pieces cut so far, by line.</param>
    /// <param name="faults">Sentences so far.</param>
    public static void Strip(
        CuttingRequest request, Strip strip, string name, Int128 across, bool lengthwise, long strips, long[] cut, List<string> faults)
    {
        if (strip.Repeat < 1 || !strip.Height.IsPositive || strip.Columns.Count == 0)
        {
            faults.Add($"{name} is empty, has no height or is repeated {strip.Repeat} times.");
        }

        Int128 width = 0;
        foreach (var column in strip.Columns)
        {
            width += (Int128)column.Width.Ticks * column.Repeat;
            if (column.Repeat < 1 || !column.Width.IsPositive || column.Pieces.Count == 0)
            {
                faults.Add($"{name} has a column that is empty, has no width or is repeated {column.Repeat} times.");
            }

            Stack(request, strip, column, name, lengthwise, strips * column.Repeat, cut, faults);
        }

        if (width > across)
        {
            faults.Add($"{name} takes {InInches(width)} across, and there is {InInches(across)}.");
        }

        var taller = strip.Columns.SelectMany(column => column.Pieces).Any(piece => piece.Height == strip.Height && !MayLieLower(request, piece, across));
        if (strip.Height > request.LongestStrip && !taller)
        {
            faults.Add($"{name} is {strip.Height} high, and without a piece that has to be, the longest ruler, {request.LongestStrip}, is the limit.");
        }
    }

    /// <summary>True when a piece could be turned the other way, across the cloth and within the ruler.</summary>
    private static bool MayLieLower(CuttingRequest request, StackedPiece stacked, Int128 across) =>
        stacked.Piece >= 0 && stacked.Piece < request.Pieces.Count
        && request.Pieces[stacked.Piece].MayTurn && !request.Directional
        && stacked.Height.Ticks <= across && stacked.Width <= request.LongestStrip;

    private static void Stack(
        CuttingRequest request, Strip strip, Column column, string name, bool lengthwise, long columns, long[] cut, List<string> faults)
    {
        Int128 height = 0;
        foreach (var stacked in column.Pieces)
        {
            height += (Int128)stacked.Height.Ticks * stacked.Count;
            if (stacked.Piece < 0 || stacked.Piece >= cut.Length || stacked.Count < 1)
            {
                faults.Add($"{name} has {stacked.Count} of piece {stacked.Piece}, and there is no such piece.");
                continue;
            }

            cut[stacked.Piece] += stacked.Count * columns;
            var piece = request.Pieces[stacked.Piece];

            // A piece's own width lies across the bolt unless it is turned; in a lengthwise strip, across the bolt is up the strip.
            var swapped = stacked.Turned != lengthwise;
            var asAsked = swapped
                ? stacked.Width == piece.Height && stacked.Height == piece.Width
                : stacked.Width == piece.Width && stacked.Height == piece.Height;
            if (!asAsked)
            {
                faults.Add($"{name} cuts “{piece.Name}” {stacked.Width} × {stacked.Height}{(stacked.Turned ? ", turned" : string.Empty)}, and it is {piece.Width} × {piece.Height}.");
            }

            if (stacked.Turned && (request.Directional || !piece.MayTurn))
            {
                faults.Add($"{name} turns “{piece.Name}”, which must keep its direction.");
            }

            if (stacked.Width > column.Width)
            {
                faults.Add($"{name} has “{piece.Name}”, {stacked.Width} wide, in a column of {column.Width}.");
            }
        }

        if (height > strip.Height.Ticks)
        {
            faults.Add($"{name} has a column of {InInches(height)} in a height of {strip.Height}.");
        }
    }

    private static string InInches(Int128 ticks) =>
        string.Create(CultureInfo.InvariantCulture, $"{(decimal)ticks / Length.TicksPerInch:0.######} in");
}
