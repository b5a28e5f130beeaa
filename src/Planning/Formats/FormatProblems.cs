using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>Reads a request for everything that makes a comparison meaningless.</summary>
internal static class FormatProblems
{
    private const int MostKits = 100_000;
    private const int MostPieces = 10_000;
    private const int MostLines = 40;
    private const decimal MostMoney = 1_000_000m;

    /// <summary>No cloth is longer or wider; a slip of the keyboard is.</summary>
    private static readonly Length Longest = Length.FromYards(1_000);

    /// <summary>Codes that can be asked for, in the order in which they are shown.</summary>
    public static IEnumerable<string> Known(FormatRequest request) =>
        [FormatCodes.CutPieces, .. request.Precuts.Select(precut => precut.Format).Distinct(), FormatCodes.Yardage];

    public static IReadOnlyList<Problem> In(FormatRequest request) =>
    [
        .. Counts(request), .. Pieces(request), .. Bolt(request.Bolt), .. request.Precuts.SelectMany(Precut), .. Names(request),
    ];

    private static IEnumerable<Problem> Counts(FormatRequest request)
    {
        if (request.Kits is < 1 or > MostKits)
        {
            yield return new("kits", $"{request.Kits} kits cannot be planned. Give 1 to {MostKits:N0}.");
        }

        if (request.Pieces.Count is < 1 or > MostLines)
        {
            yield return new("pieces", $"There are {request.Pieces.Count} lines of pieces. Give 1 to {MostLines}.");
        }

        if (request.Layers is < 1 or > 20)
        {
            yield return new("layers", $"{request.Layers} layers cannot be cut in one stroke. Give 1 to 20, and no more than the cutter's maker allows.");
        }

        if (request.StudentLayers is < 1 or > 20)
        {
            yield return new("studentLayers", $"{request.StudentLayers} layers cannot be cut in one stroke. Give 1 to 20, and no more than the cutter's maker allows.");
        }

        if (request.Rates.SecondsPerStroke is < 0 or > 3600 || request.Rates.SecondsPerItem is < 0 or > 3600)
        {
            yield return new("rates", "A stroke or a count takes 0 to 3,600 seconds. Give both so.");
        }
    }

    private static IEnumerable<Problem> Pieces(FormatRequest request)
    {
        for (var index = 0; index < Math.Min(request.Pieces.Count, MostLines); index++)
        {
            var piece = request.Pieces[index];
            if (piece.Count is < 1 or > MostPieces)
            {
                yield return new($"pieces[{index}].count", $"{piece.Count} of “{piece.Name}” in a kit cannot be planned. Give 1 to {MostPieces:N0}.");
            }
            else if ((long)piece.Count * request.Kits > RequestProblems.MostPieces)
            {
                yield return new($"pieces[{index}].count", $"“{piece.Name}” is needed {(long)piece.Count * request.Kits:N0} times in all; the most is {RequestProblems.MostPieces:N0}. Check the number of kits.");
            }

            if (!Usable(piece.Width))
            {
                yield return new($"pieces[{index}].width", $"The width of “{piece.Name}” is {LengthText.Write(piece.Width)}. Give more than 0 and at most 1,000 yd.");
            }

            if (!Usable(piece.Height))
            {
                yield return new($"pieces[{index}].height", $"The height of “{piece.Name}” is {LengthText.Write(piece.Height)}. Give more than 0 and at most 1,000 yd.");
            }
        }
    }

    private static IEnumerable<Problem> Bolt(BoltStock bolt)
    {
        if (!Usable(bolt.UsableWidth))
        {
            yield return new("bolt.usableWidth", $"The usable width is {LengthText.Write(bolt.UsableWidth)}. Give more than 0, as measured between the selvages.");
        }

        if (!Usable(bolt.Increment))
        {
            yield return new("bolt.increment", $"The shop's increment is {LengthText.Write(bolt.Increment)}. Give more than 0, such as ⅛ yd.");
        }

        if (bolt.PricePerYard is < 0 or > MostMoney)
        {
            yield return new("bolt.pricePerYard", $"A price of {bolt.PricePerYard} a yard cannot be. Give 0 to {MostMoney:N0}.");
        }
    }

    private static IEnumerable<Problem> Precut(Precut precut, int index)
    {
        if (!Usable(precut.Width) || !Usable(precut.Length))
        {
            yield return new($"precuts[{index}]", $"A {precut.Name} of {LengthText.Write(precut.Width)} × {LengthText.Write(precut.Length)} cannot be cut. Give both sizes, each more than 0.");
        }

        if (precut.PackSize is < 1 or > MostPieces)
        {
            yield return new($"precuts[{index}].packSize", $"A pack of {precut.PackSize} cannot be bought. Give 1 to {MostPieces:N0}.");
        }

        if (precut.PackPrice is < 0 or > MostMoney)
        {
            yield return new($"precuts[{index}].packPrice", $"A price of {precut.PackPrice} a pack cannot be. Give 0 to {MostMoney:N0}, or leave it empty.");
        }

        if (precut.PinkedMargin < Length.Zero)
        {
            yield return new($"precuts[{index}].pinkedMargin", $"The pinked margin is {LengthText.Write(precut.PinkedMargin)}. Give 0 or more.");
        }
    }

    private static IEnumerable<Problem> Names(FormatRequest request)
    {
        foreach (var name in (request.Formats ?? []).Except(Known(request)))
        {
            yield return new("formats", $"“{name}” is not a kit format. The formats are {string.Join(", ", Known(request))}.");
        }

        foreach (var code in request.Precuts.GroupBy(precut => precut.Format).Where(same => same.Count() > 1 || same.Key is FormatCodes.CutPieces or FormatCodes.Yardage))
        {
            yield return new("precuts", $"Format “{code.Key}” is given twice. Give each precut a code of its own.");
        }
    }

    private static bool Usable(Length length) => length.IsPositive && length <= Longest;
}
