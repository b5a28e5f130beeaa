using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>Compares the ways in which one fabric can go into the bags.</summary>
public static class KitFormats
{
    /// <summary>
    /// Tries every format on one kit. Bad input comes back as problems, never as an exception. The best format by cost and the
    /// best by time are marked; fabrics do not depend on each other, so the marked ones of all fabrics are the best mix.
    /// </summary>
    public static FormatResult Compare(FormatRequest request)
    {
        var problems = FormatProblems.In(request);
        if (problems.Count > 0)
        {
            return new([], problems);
        }

        var options = FormatProblems.Known(request).Where(code => request.Formats is null || request.Formats.Contains(code)).Select(code => code switch
        {
            FormatCodes.CutPieces => CutPieces(request),
            FormatCodes.Yardage => Yardage(request),
            _ => Precuts(request, request.Precuts.First(precut => precut.Format == code)),
        });
        return new(Marked([.. options]), []);
    }

    private static FormatOption CutPieces(FormatRequest request)
    {
        var cutting = Cutting(request, [.. request.Pieces.Select(piece => piece with { Count = piece.Count * request.Kits })], request.Layers);
        var result = CuttingPlanner.Plan(cutting);
        if (result.Plan is not { } plan)
        {
            return Impossible(FormatCodes.CutPieces, result.Problems[0].Said);
        }

        var perKit = request.Pieces.Sum(piece => piece.Count);
        return new()
        {
            Format = FormatCodes.CutPieces,
            Feasible = true,
            PerKit = perKit,
            IsLeast = true,
            Total = perKit * request.Kits,
            TotalLength = plan.Buy.Length,
            Cost = request.Bolt.PricePerYard > 0 ? plan.Buy.Cost : null,
            WasteShare = Waste(request, Area(Buying.BoltWidth(cutting.Stock), plan.Length)),
            TeacherMinutes = Minutes(request, plan.Strokes, perKit * request.Kits),
            StudentCuts = 0,
        };
    }

    private static FormatOption Yardage(FormatRequest request)
    {
        var cutting = Cutting(request, request.Pieces, request.StudentLayers);
        var result = CuttingPlanner.Plan(cutting);
        if (result.Plan is not { } plan)
        {
            return Impossible(FormatCodes.Yardage, result.Problems[0].Said);
        }

        var total = plan.Buy.Length * request.Kits;
        if (request.Bolt.Available is { } available && total > available)
        {
            return Impossible(FormatCodes.Yardage, $"The class needs {total.Yards:0.###} yd and {available.Yards:0.###} yd are to be had. Add cloth or choose another format.");
        }

        return new()
        {
            Format = FormatCodes.Yardage,
            Feasible = true,
            LengthPerKit = plan.Buy.Length,
            IsLeast = plan.Status == PlanStatus.ProvedBest,
            TotalLength = total,
            Cost = request.Bolt.PricePerYard > 0 ? Cents(total.Yards * request.Bolt.PricePerYard) : null,
            WasteShare = Waste(request, Area(request.Bolt.UsableWidth, total)),
            TeacherMinutes = Minutes(request, request.Kits, request.Kits),
            StudentCuts = plan.Strokes,
            Strips = plan.Strips,
        };
    }

    private static FormatOption Precuts(FormatRequest request, Precut precut)
    {
        var (width, length) = (precut.UsableWidth, precut.UsableLength);
        if (request.Pieces.FirstOrDefault(piece => !Fits(piece, width, length, request.Directional)) is { } tooLarge)
        {
            var mayTurn = tooLarge.MayTurn && !request.Directional;
            var size = PieceNames.SizeInWords(tooLarge.Width, tooLarge.Height, request.Style);
            var said = size.ToString();
            var what = tooLarge.Name.EndsWith(said, StringComparison.Ordinal)
                ? mayTurn ? (Sentence)$"“{tooLarge.Name[..^said.Length]}{size}” does not fit" : $"“{tooLarge.Name[..^said.Length]}{size}” does not fit and may not be turned"
                : mayTurn ? (Sentence)$"“{tooLarge.Name}” is {size}" : $"“{tooLarge.Name}” is {size} and may not be turned";
            return Impossible(
                precut.Format,
                $"{what}; a {precut.Name} has {PieceNames.SizeInWords(width, length, request.Style)} to cut from. Choose a larger cut.");
        }

        var needed = LeastSheets.For(new(precut.Name, width, length, null, 0m), request.Pieces, request.Directional, request.StudentLayers);
        var total = checked(needed.Count * request.Kits);
        var packs = ((total - 1) / precut.PackSize) + 1;
        return new()
        {
            Format = precut.Format,
            Feasible = true,
            PerKit = needed.Count,
            IsLeast = needed.IsLeast,
            Total = total,
            Packs = packs,
            Cost = precut.PackPrice is { } price ? Cents(packs * price) : null,
            WasteShare = Waste(request, Area(precut.Width, precut.Length) * total),
            TeacherMinutes = Minutes(request, 0, total),
            StudentCuts = (int)needed.Recipes.Sum(recipe => Strokes.OfSheet(recipe, width, length, request.StudentLayers)),
            Sheets = needed.Recipes,
        };
    }

    private static IReadOnlyList<FormatOption> Marked(IReadOnlyList<FormatOption> options)
    {
        var cheapest = options.Where(option => option.Feasible && option.Cost is not null).OrderBy(option => option.Cost).ThenBy(option => option.TeacherMinutes).FirstOrDefault();
        var quickest = options.Where(option => option.Feasible).OrderBy(option => option.TeacherMinutes).ThenBy(option => option.Cost ?? decimal.MaxValue).FirstOrDefault();
        return [.. options.Select(option => option with { BestByCost = option == cheapest, BestByTime = option == quickest })];
    }

    private static CuttingRequest Cutting(FormatRequest request, IReadOnlyList<CutPiece> pieces, int layers) =>
        new(new CuttingStock(request.Bolt, []), pieces) { Directional = request.Directional, Layers = layers };

    private static bool Fits(CutPiece piece, Length width, Length length, bool directional) =>
        (piece.Width <= width && piece.Height <= length) || (piece.MayTurn && !directional && piece.Height <= width && piece.Width <= length);

    private static FormatOption Impossible(string format, Sentence why) => new() { Format = format, Feasible = false, Why = why };

    /// <summary>Whole square ticks would overflow no Int128, but a share needs no more than square inches to 28 digits.</summary>
    private static decimal Area(Length width, Length length) => width.Inches * length.Inches;

    private static decimal Waste(FormatRequest request, decimal cloth) =>
        decimal.Round(Math.Max(0m, 1m - (request.Pieces.Sum(piece => Area(piece.Width, piece.Height) * piece.Count) * request.Kits / cloth)), 4);

    private static decimal Minutes(FormatRequest request, long strokes, long items) =>
        decimal.Round(((strokes * request.Rates.SecondsPerStroke) + (items * request.Rates.SecondsPerItem)) / 60m, 1, MidpointRounding.AwayFromZero);

    private static decimal Cents(decimal money) => decimal.Round(money, 2, MidpointRounding.AwayFromZero);
}
