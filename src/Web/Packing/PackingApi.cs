using System.Globalization;
using KittingBee.Planning;
using KittingBee.Web.Api;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.HttpResults;

namespace KittingBee.Web.Packing;

/// <summary>A mark that is on the disk, or counts as one that is.</summary>
/// <param name="Id">The device's id.</param>
/// <param name="Outcome">stored or known.</param>
/// <param name="Sequence">Sequence of the mark that it is or counts as; 0 where it counts for nothing.</param>
public sealed record MarkAnswer(Guid Id, string Outcome, long Sequence);

/// <summary>A mark that cannot be; it need not be sent again.</summary>
public sealed record RefusedMark(Guid Id, string Why);

/// <summary>What came of the marks, and how their lines stand now.</summary>
public sealed record MarksAnswer(IReadOnlyList<MarkAnswer> Marks, IReadOnlyList<RefusedMark> Refused, TableChange Table);

/// <summary>Marks from phones, and everyone's changes to them as they happen.</summary>
public static class PackingApi
{
    private const int MostMarks = 1000;

    public static void MapPacking(this IEndpointRouteBuilder app)
    {
        var packing = app.MapGroup("/api/classes/{classId:long}")
            .WithTags("Packing")
            .RequireAuthorization(Access.Packing)
            .DisableAntiforgery() // That is for forms; marks are JSON and bear their token in a header.
            .ProducesProblem(StatusCodes.Status404NotFound);
        packing.MapPost("/marks", Mark)
            .AddEndpointFilter(RefuseForged)
            .AddEndpointFilter(JsonBody.RefuseBadBodies)
            .WithName("MarkKits")
            .WithSummary("Stores packing marks, once each however often they are sent. Answered when they are on the disk.");
        packing.MapGet("/marks", Since)
            .WithName("KitMarks")
            .WithSummary("How lines stand that changed after a sequence; 0 gives all.");
        packing.MapPost("/shortages", ReportsApi.Report)
            .AddEndpointFilter(RefuseForged)
            .AddEndpointFilter(JsonBody.RefuseBadBodies)
            .WithName("ReportShortage")
            .WithSummary("Stores that a bag lacks pieces, once however often it is sent, or takes such a report back.");
        packing.MapGet("/table", TableEvents.Listen).RequireRateLimiting(RateLimits.Listening).ExcludeFromDescription();
    }

    private static async Task<Results<Ok<MarksAnswer>, NotFound, ValidationProblem>> Mark(
        long classId, JsonBody<MarksCall> body, ClassStore classes, MarkDesk desk, HttpContext context)
    {
        if (Problems(body.Call).ToList() is { Count: > 0 } problems)
        {
            return ApiProblems.Invalid(problems);
        }

        if (!desk.Knows(classId) && classes.Find(classId) is null)
        {
            return TypedResults.NotFound();
        }

        var receipts = await desk.Mark(classId, [.. body.Call.Marks.Select(mark => New(mark, context.Request))]);
        return TypedResults.Ok(new MarksAnswer(
            [.. receipts.Where(receipt => receipt.Outcome != MarkOutcome.Refused).Select(receipt => new MarkAnswer(receipt.Id, receipt.Outcome == MarkOutcome.Stored ? "stored" : "known", receipt.Mark?.Sequence ?? 0))],
            [.. receipts.Where(receipt => receipt.Outcome == MarkOutcome.Refused).Select(receipt => new RefusedMark(receipt.Id, Say(receipt.Why!)))],
            desk.Table(classId).Lines(receipts.Where(receipt => receipt.Mark is not null).Select(receipt => receipt.Mark!))));
    }

    private static Results<Ok<TableChange>, NotFound> Since(long classId, ClassStore classes, MarkDesk desk, long after = 0) =>
        classes.Find(classId) is null ? TypedResults.NotFound() : TypedResults.Ok(desk.Table(classId).Since(after));

    private static NewMark New(MarkCall mark, HttpRequest request) =>
        new(mark.Id, mark.Kit, mark.Line, mark.State, Helper.ForMark(request, mark.Who), mark.Undoes, mark.UndoesSequence);

    private static IEnumerable<Problem> Problems(MarksCall call)
    {
        if (call.Marks.Count is 0 or > MostMarks)
        {
            yield return new("marks", string.Create(CultureInfo.InvariantCulture, $"{call.Marks.Count} marks were sent. Send 1 to {MostMarks} at a time."));
        }

        for (var at = 0; at < Math.Min(call.Marks.Count, MostMarks); at++)
        {
            var mark = call.Marks[at];
            if (mark.Id == Guid.Empty)
            {
                yield return new($"marks[{at}].id", "The id is all zeros. Make a new one on the device for each mark.");
            }

            if (mark is { Undoes: null, UndoesSequence: null } && !KitState.Fits(mark.Line, mark.State))
            {
                yield return new($"marks[{at}].state", $"“{mark.State}” is no state of “{mark.Line}”. A line is cut or bagged; the line “kit” is checked or handed-over.");
            }

            if (mark.Line.Length > 80)
            {
                yield return new($"marks[{at}].line", "The line is longer than any line’s key. Take it from the packing table.");
            }
        }
    }

    private static async ValueTask<object?> RefuseForged(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var antiforgery = context.HttpContext.RequestServices.GetRequiredService<IAntiforgery>();
        return await antiforgery.IsRequestValidAsync(context.HttpContext)
            ? await next(context)
            : TypedResults.Problem("The page that sent this is too old or not ours. Load the packing table again; marks that wait on the device are kept.", statusCode: StatusCodes.Status403Forbidden);
    }
}
