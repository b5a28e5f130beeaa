using System.Text.Json;
using System.Text.Json.Serialization;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using Microsoft.AspNetCore.Http.HttpResults;

namespace KittingBee.Web.Api;

/// <summary>A block and how it is made; lengths are inches or text.</summary>
public sealed record CutListCall
{
    /// <summary>The block: grid, fabrics and units.</summary>
    public required JsonElement Block { get; init; }

    /// <summary>Blocks in each kit.</summary>
    public int BlocksPerKit { get; init; } = 1;

    /// <summary>Seam allowance on each side; ¼ in when left out.</summary>
    public Length SeamAllowance { get; init; } = new CuttingRules().SeamAllowance;

    /// <summary>Cut sizes are rounded up to this; ⅛ in when left out.</summary>
    public Length CuttingStep { get; init; } = new CuttingRules().CuttingStep;

    /// <summary>How each kind of unit is made; the defaults when left out.</summary>
    public MethodsCall Methods { get; init; } = new();
}

/// <summary>How each kind of unit is made.</summary>
public sealed record MethodsCall
{
    /// <summary>Half-square triangles.</summary>
    [JsonPropertyName("half-square-triangle")]
    public HalfSquareMethod HalfSquareTriangle { get; init; }

    /// <summary>Quarter-square triangles.</summary>
    [JsonPropertyName("quarter-square-triangle")]
    public QuarterSquareMethod QuarterSquareTriangle { get; init; }

    /// <summary>Flying geese.</summary>
    [JsonPropertyName("flying-geese")]
    public GeeseMethod FlyingGeese { get; init; }

    /// <summary>Square in a square.</summary>
    [JsonPropertyName("square-in-a-square")]
    public SquareInASquareMethod SquareInASquare { get; init; }

    /// <summary>Rails.</summary>
    [JsonPropertyName("rails")]
    public PatchMethod Rails { get; init; }

    /// <summary>Checkerboards.</summary>
    [JsonPropertyName("checkerboard")]
    public PatchMethod Checkerboard { get; init; }

    /// <summary>Whether triangle squares are cut oversize and trimmed, or exact.</summary>
    [JsonPropertyName("trim")]
    public TrimMethod Trim { get; init; }

    /// <summary>As the planner takes them.</summary>
    public Methods ToMethods() => new()
    {
        HalfSquareTriangle = HalfSquareTriangle,
        QuarterSquareTriangle = QuarterSquareTriangle,
        FlyingGeese = FlyingGeese,
        SquareInASquare = SquareInASquare,
        Rails = Rails,
        Checkerboard = Checkerboard,
        Trim = Trim,
    };
}

/// <summary>A width and a height in inches.</summary>
public sealed record SizeAnswer(Length Width, Length Height);

/// <summary>Pieces of one size. A block's pieces are all cut, so nothing is said here of what is handed out uncut.</summary>
/// <param name="Width">Cut width.</param>
/// <param name="Height">Cut height.</param>
/// <param name="Count">How many.</param>
/// <param name="Uses">What they become.</param>
public sealed record PieceAnswer(Length Width, Length Height, int Count, IReadOnlyList<string> Uses);

/// <summary>The pieces of one fabric for one kit.</summary>
public sealed record FabricAnswer(string Letter, IReadOnlyList<PieceAnswer> Pieces);

/// <summary>Units alike: how many, what to trim them to, and how many are made beyond the need.</summary>
public sealed record UnitAnswer(UnitKind Kind, int Count, SizeAnswer TrimTo, int LeftOver);

/// <summary>The cut list of one kit.</summary>
public sealed record CutListAnswer(SizeAnswer Unfinished, IReadOnlyList<FabricAnswer> Fabrics, IReadOnlyList<UnitAnswer> Units, IReadOnlyList<SewingStep> Steps);

/// <summary>What has to be cut and sewn for one kit of a block.</summary>
public static class CutListApi
{
    /// <summary>Adds the call to its group.</summary>
    public static void MapCutList(this RouteGroupBuilder api) => api.MapPost("/cut-list", MakeCutList)
        .WithName("MakeCutList")
        .WithSummary("Cut list of a block: pieces by fabric, units to make and the steps that sew them.");

    private static Results<Ok<CutListAnswer>, ValidationProblem> MakeCutList(JsonBody<CutListCall> body)
    {
        var call = body.Call;
        var reading = BlockJson.Read(call.Block.GetRawText());
        if (reading.Block is null)
        {
            return ApiProblems.Invalid(InBlock(reading.Problems));
        }

        var rules = new CuttingRules
        {
            SeamAllowance = call.SeamAllowance,
            CuttingStep = call.CuttingStep,
            BlocksPerKit = call.BlocksPerKit,
            Methods = call.Methods.ToMethods(),
        };
        var result = CutLists.For(reading.Block, rules);
        return result.CutList is { } list
            ? TypedResults.Ok(Answer(list))
            : ApiProblems.Invalid(InBlock(result.Problems));
    }

    private static CutListAnswer Answer(CutList list) => new(
        new SizeAnswer(list.UnfinishedWidth, list.UnfinishedHeight),
        [.. list.Fabrics.Select(fabric => new FabricAnswer(fabric.Letter, [.. fabric.Pieces.Select(piece => new PieceAnswer(piece.Width, piece.Height, piece.Count, [.. piece.Uses.Select(use => use.ToString())]))]))],
        [.. list.Units.Select(unit => new UnitAnswer(unit.Kind, unit.Count, new SizeAnswer(unit.TrimWidth, unit.TrimHeight), unit.LeftOver))],
        list.Steps);

    // The planner knows the block and the rules; the caller knows them as parts of one request.
    private static IEnumerable<Problem> InBlock(IEnumerable<Problem> problems) =>
        problems.Select(problem => OfRequest(problem.Field) ? problem : problem with { Field = problem.Field.Length == 0 ? "block" : "block." + problem.Field });

    private static bool OfRequest(string field) =>
        field is "seamAllowance" or "cuttingStep" or "blocksPerKit" || field.StartsWith("methods", StringComparison.Ordinal);
}
