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
        Problem[] problems = [.. CuttingPlanApi.ProblemsOf(call.Pieces), .. ProblemsOf(call.Formats)];
        if (problems.Length > 0)
        {
            return ApiProblems.Invalid(problems);
        }

        var result = KitFormats.Compare(new FormatRequest([.. call.Pieces.Select(CuttingPlanApi.ToPiece)], call.Kits) { Formats = call.Formats });
        return result.Problems.Count > 0
            ? ApiProblems.Invalid(result.Problems)
            : TypedResults.Ok(new KitFormatsAnswer([.. result.Formats.Select(Answer)]));
    }

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
