using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Exchange;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Blocks;

/// <summary>What the block editor sends to keep a draft: the version it knows, its own name and its number among what it sends.</summary>
public sealed record DraftCall(long Version, JsonObject Sketch, string Editor, long Sequence);

/// <summary>The version that a draft has now, since when, and which editor kept it.</summary>
public sealed record DraftAnswer(long Version, string UpdatedAt, string Editor)
{
    public static DraftAnswer Of(BlockDraft draft) => new(draft.Version, draft.UpdatedAt, draft.KeptBy);
}

/// <summary>The calls of the block editor, and a block as a file.</summary>
public static class BlockEndpoints
{
    // A sketch and its envelope; BlockJson refuses texts beyond a million characters.
    private const int LargestBody = 2_000_000;

    private const int LongestEditorName = 60;

    public static void MapBlocks(this IEndpointRouteBuilder app)
    {
        var blocks = app.MapGroup("/blocks").ExcludeFromDescription().WithMetadata(new RequestSizeLimitAttribute(LargestBody));
        blocks.MapPost("/check", Check).DisableAntiforgery();
        blocks.MapPut("/drafts/{id:long}/sketch", Keep).AddEndpointFilter(RefuseForeignPages);
        blocks.MapGet("/drafts/{id:long}/version", Version);
        blocks.MapGet("/{id:long}/block.json", Export);
        app.MapGet(FileSchema.Address, (Database database) => TypedResults.Text(FileSchema.Json(database), "application/schema+json", Encoding.UTF8)).ExcludeFromDescription();
        app.MapGet("/schemas/block.json", () => TypedResults.Text(BlockSchema.Json, "application/schema+json", Encoding.UTF8)).ExcludeFromDescription();
    }

    /// <summary>Checks and draws a sketch; keeps nothing.</summary>
    private static Results<Ok<BlockCheck>, BadRequest<string>> Check(JsonObject body, GuildStore guild) =>
        BlockSketch.Parse(body.ToJsonString()) is { } sketch
            ? TypedResults.Ok(BlockCheck.Of(sketch, Habits.Of(guild.Read())))
            : TypedResults.BadRequest("That is not a block being drawn.");

    /// <summary>Keeps a draft. 409 with the present version where somebody else kept it in the meantime.</summary>
    private static async Task<Results<Ok<DraftAnswer>, Conflict<DraftAnswer>, NotFound, BadRequest<string>>> Keep(long id, DraftCall call, DraftStore drafts)
    {
        if (BlockSketch.Parse(call.Sketch.ToJsonString()) is not { } sketch)
        {
            return TypedResults.BadRequest("That is not a block being drawn.");
        }

        if (call.Editor is not { Length: > 0 and <= LongestEditorName })
        {
            return TypedResults.BadRequest($"An editor gives itself a name of 1 to {LongestEditorName} characters.");
        }

        var (saved, now) = await drafts.Keep(id, call.Version, sketch.ToJson(), new(call.Editor, call.Sequence));
        return saved switch
        {
            Saved.Done => TypedResults.Ok(DraftAnswer.Of(now!)),
            Saved.Stale => TypedResults.Conflict(DraftAnswer.Of(now!)),
            _ => TypedResults.NotFound(),
        };
    }

    /// <summary>Which version is kept now, for an editor that was left open.</summary>
    private static Results<Ok<DraftAnswer>, NotFound> Version(long id, DraftStore drafts) =>
        drafts.Find(id) is { } draft ? TypedResults.Ok(DraftAnswer.Of(draft)) : TypedResults.NotFound();

    private static Results<FileContentHttpResult, NotFound> Export(long id, BlockStore blocks)
    {
        if (blocks.Find(id) is not { Json: { } json } stored)
        {
            return TypedResults.NotFound();
        }

        return TypedResults.File(Encoding.UTF8.GetBytes(json), "application/json", FileNames.For(stored.Name, "json"));
    }

    private static async ValueTask<object?> RefuseForeignPages(EndpointFilterInvocationContext context, EndpointFilterDelegate next) =>
        await context.HttpContext.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(context.HttpContext)
            ? await next(context)
            : TypedResults.BadRequest("This page was open for too long. Load it again.");
}
