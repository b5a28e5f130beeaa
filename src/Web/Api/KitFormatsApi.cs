using KittingBee.Planning;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using Microsoft.AspNetCore.Http.HttpResults;

namespace KittingBee.Web.Api;

/// <summary>What one kit needs of one fabric, to be compared in every format.</summary>
public sealed record KitFormatsCall
{
    /// <summary>Pieces of one kit; each name once.</summary>
    public required IReadOnlyList<PieceCall> Pieces { get; init; }

    /// <summary>Kits to make.</summary>
    public required int Kits { get; init; }

    /// <summary>Formats to compare; all when left out.</summary>
    public IReadOnlyList<string>? Formats { get; init; }

    /// <summary>Cloth by the length, for cut pieces and yardage; 40 in usable by the ⅛ yd, without a price, when left out.</summary>
    public BoltCall? Bolt { get; init; }

    /// <summary>Precuts that differ from the usual ones, or that there are besides.</summary>
    public IReadOnlyList<PrecutCall> Precuts { get; init; } = [];

    /// <summary>True where the cloth has a direction, so that no piece may be turned.</summary>
    public bool Directional { get; init; }

    /// <summary>Layers that the teacher cuts at once.</summary>
    public int Layers { get; init; } = 4;
}

/// <summary>A precut as the shop sells it. For a format that is known already, what is left out is as usual.</summary>
public sealed record PrecutCall
{
    /// <summary>Code of the kit format; a new one for a precut of one's own.</summary>
    public required string Format { get; init; }

    /// <summary>One of it in words.</summary>
    public string? Name { get; init; }

    /// <summary>Size across, in the direction of a bolt's width, measured to the points where it is pinked.</summary>
    public Length? Width { get; init; }

    /// <summary>Size along the selvage, measured likewise.</summary>
    public Length? Length { get; init; }

    /// <summary>How many come in a pack.</summary>
    public int? PackSize { get; init; }

    /// <summary>Price of a pack; without it there is no cost.</summary>
    public decimal? PackPrice { get; init; }

    /// <summary>Edges that are pinked.</summary>
    public PinkedEdges? Pinked { get; init; }

    /// <summary>Lost at each pinked edge; 0 when left out.</summary>
    public Length? PinkedMargin { get; init; }
}

/// <summary>One format. Where it is not feasible, only <c>reason</c> is given.</summary>
/// <param name="Format">Its code.</param>
/// <param name="Feasible">True where every piece can be had this way.</param>
/// <param name="Reason">Why not, naming the piece.</param>
/// <param name="PerKit">Pieces or precuts in one kit; for <c>yardage</c> a length in inches.</param>
/// <param name="Total">The same for the class.</param>
/// <param name="Packs">Whole packs to buy, where it comes in packs.</param>
/// <param name="Cost">Money for the class, where a price is known.</param>
/// <param name="WasteShare">Share, 0 to 1, of the cloth that goes into no piece.</param>
/// <param name="TeacherMinutes">Cutting and counting for the class.</param>
/// <param name="StudentCuts">Strokes left to each student.</param>
public sealed record FormatAnswer(
    string Format,
    bool Feasible,
    string? Reason,
    decimal? PerKit,
    decimal? Total,
    int? Packs,
    decimal? Cost,
    decimal? WasteShare,
    decimal? TeacherMinutes,
    int? StudentCuts);

/// <summary>The formats side by side.</summary>
public sealed record KitFormatsAnswer(IReadOnlyList<FormatAnswer> Formats);

/// <summary>Compares the ways in which one fabric can go into the bags.</summary>
public static class KitFormatsApi
{
    private const int MostFormats = 50;

    /// <summary>Adds the call to its group.</summary>
    public static void MapKitFormats(this RouteGroupBuilder api) => api.MapPost("/kit-formats", CompareFormats)
        .WithName("CompareFormats")
        .WithSummary("Ways in which one fabric can go into the bags: what is possible, how much of it, cost, waste and work.");

    private static Results<Ok<KitFormatsAnswer>, ValidationProblem> CompareFormats(JsonBody<KitFormatsCall> body)
    {
        var call = body.Call;
        Problem[] problems = [.. CuttingPlanApi.ProblemsOf(call.Pieces), .. ProblemsOf(call.Formats), .. ProblemsOf(call.Precuts)];
        if (problems.Length > 0)
        {
            return ApiProblems.Invalid(problems);
        }

        var result = KitFormats.Compare(ToRequest(call));
        return result.Problems.Count > 0
            ? ApiProblems.Invalid(result.Problems)
            : TypedResults.Ok(new KitFormatsAnswer([.. result.Formats.Select(Answer)]));
    }

    private static FormatRequest ToRequest(KitFormatsCall call)
    {
        var plain = new FormatRequest([.. call.Pieces.Select(CuttingPlanApi.ToPiece)], call.Kits) { Formats = call.Formats, Directional = call.Directional, Layers = call.Layers };
        var bolt = CuttingPlanApi.ToBolt(call.Bolt) ?? plain.Bolt;
        var usual = PrecutSizes.Usual(bolt.UsableWidth);

        // Those of the call come first, so that a message about one of them names its place in the call.
        return plain with
        {
            Bolt = bolt,
            Precuts = [.. call.Precuts.Select(given => ToPrecut(given, usual.FirstOrDefault(known => known.Format == given.Format))), .. usual.Where(known => call.Precuts.All(given => given.Format != known.Format))],
        };
    }

    private static Precut ToPrecut(PrecutCall given, Precut? usual) => new(
        given.Format,
        given.Name ?? usual?.Name ?? given.Format,
        given.Width ?? usual?.Width ?? Length.Zero,
        given.Length ?? usual?.Length ?? Length.Zero,
        given.PackSize ?? usual?.PackSize ?? 1,
        given.PackPrice,
        given.Pinked ?? usual?.Pinked ?? PinkedEdges.None,
        given.PinkedMargin ?? Length.Zero);

    private static FormatAnswer Answer(FormatOption option)
    {
        var byLength = option.Format == FormatCodes.Yardage;
        return new(
            option.Format,
            option.Feasible,
            option.Reason,
            byLength ? Inches(option.LengthPerKit) : option.PerKit,
            byLength ? Inches(option.TotalLength) : option.Total,
            option.Packs,
            option.Cost,
            option.WasteShare,
            option.TeacherMinutes,
            option.StudentCuts);
    }

    private static decimal? Inches(Length? length) => length is { } known ? LengthJsonConverter.Inches(known) : null;

    private static IEnumerable<Problem> ProblemsOf(IReadOnlyList<PrecutCall> precuts) => precuts.Count > MostFormats
        ? [new Problem("precuts", $"{precuts.Count} precuts are more than {MostFormats}. Send those that differ from the usual ones.")]
        : CuttingPlanApi.Naming("precuts", [.. precuts.Select(precut => precut?.Format)], "format");

    private static IEnumerable<Problem> ProblemsOf(IReadOnlyList<string>? formats)
    {
        if (formats?.Count > MostFormats)
        {
            yield return new Problem("formats", $"{formats.Count} formats are more than there are. Name each once.");
        }

        for (var index = 0; index < Math.Min(formats?.Count ?? 0, MostFormats); index++)
        {
            if (formats![index] is null)
            {
                yield return new Problem($"formats[{index}]", "This format is null. Leave it out or name a format.");
            }
        }
    }
}
