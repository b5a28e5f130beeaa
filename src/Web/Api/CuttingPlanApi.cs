using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using Microsoft.AspNetCore.Http.HttpResults;

namespace KittingBee.Web.Api;

/// <summary>One fabric's cutting problem; lengths are inches or text.</summary>
public sealed record CuttingPlanCall
{
    /// <summary>The cloth: a bolt, sheets, or both.</summary>
    public required StockCall Stock { get; init; }

    /// <summary>True where the cloth has a direction, so that no piece may be turned.</summary>
    public bool Directional { get; init; }

    /// <summary>Layers that the cutter takes in one stroke.</summary>
    public int Layers { get; init; } = 4;

    /// <summary>The longest ruler; 24 in when left out.</summary>
    public Length LongestStrip { get; init; } = Length.FromInches(24);

    /// <summary>What to prefer among plans of equal cost.</summary>
    public CuttingObjective Objective { get; init; } = CuttingObjective.LeastWork;

    /// <summary>What to cut; each name once.</summary>
    public required IReadOnlyList<PieceCall> Pieces { get; init; }
}

/// <summary>The cloth that one fabric is cut from.</summary>
public sealed record StockCall
{
    /// <summary>Cloth by the length, or left out.</summary>
    public BoltCall? Bolt { get; init; }

    /// <summary>Precuts, fat quarters and remnants; each name once.</summary>
    public IReadOnlyList<SheetCall> Sheets { get; init; } = [];
}

/// <summary>Cloth by the length.</summary>
public sealed record BoltCall
{
    /// <summary>Width between the selvages.</summary>
    public required Length UsableWidth { get; init; }

    /// <summary>The shop sells multiples of this; ⅛ yd when left out.</summary>
    public Length Increment { get; init; } = Length.FromInches(4, 1, 2);

    /// <summary>The least length that the shop cuts; one increment when left out.</summary>
    public Length? Minimum { get; init; }

    /// <summary>Price of a yard of the whole width.</summary>
    public decimal PricePerYard { get; init; }
}

/// <summary>Flat pieces of cloth of one size.</summary>
public sealed record SheetCall
{
    /// <summary>What the plan calls it.</summary>
    public required string Name { get; init; }

    /// <summary>Size across, in the direction of a bolt's width.</summary>
    public required Length Width { get; init; }

    /// <summary>Size along the selvage.</summary>
    public required Length Length { get; init; }

    /// <summary>How many there are; left out or null where as many as wanted can be bought.</summary>
    public int? Available { get; init; }

    /// <summary>Price of one; 0 for what is on the shelf already.</summary>
    public decimal Price { get; init; }
}

/// <summary>Equal pieces to cut.</summary>
public sealed record PieceCall
{
    /// <summary>What the plan calls it.</summary>
    public required string Name { get; init; }

    /// <summary>Cut size across the bolt.</summary>
    public required Length Width { get; init; }

    /// <summary>Cut size along the bolt.</summary>
    public required Length Height { get; init; }

    /// <summary>How many are needed.</summary>
    public required int Count { get; init; }
}

/// <summary>Finds how one fabric is cut with the least cloth and then the least work.</summary>
public static class CuttingPlanApi
{
    private const int MostLines = 300;

    // 15 cm, the metric ruler of the same kind as one of 6 in.
    private static readonly Length ShortestRuler = Length.FromMillimetres(150);

    /// <summary>Adds the call to its group.</summary>
    public static void MapCuttingPlan(this RouteGroupBuilder api) => api.MapPost("/cutting-plan", PlanCutting)
        .WithName("PlanCutting")
        .WithSummary("Cutting plan of one fabric: strips and sheets to cut, what to buy, and the floor under any plan.");

    /// <summary>Problems of a list of pieces that the planner itself does not look for: names twice or empty, too many lines.</summary>
    public static IEnumerable<Problem> ProblemsOf(IReadOnlyList<PieceCall> pieces) => Naming("pieces", [.. pieces.Select(piece => piece?.Name)]);

    /// <summary>A piece as the planner takes it.</summary>
    public static CutPiece ToPiece(PieceCall piece) => new(piece.Name, piece.Width, piece.Height, piece.Count);

    private static Results<Ok<CuttingPlanAnswer>, ValidationProblem> PlanCutting(JsonBody<CuttingPlanCall> body)
    {
        var call = body.Call;
        Problem[] problems = [.. ProblemsOf(call.Pieces), .. Naming("stock.sheets", [.. call.Stock.Sheets.Select(sheet => sheet?.Name)]), .. Slips(call)];
        if (problems.Length > 0)
        {
            return ApiProblems.Invalid(problems);
        }

        var result = CuttingPlanner.Plan(ToRequest(call));
        return result.Plan is { } plan
            ? TypedResults.Ok(CuttingPlanAnswer.From(plan, call.Pieces))
            : ApiProblems.Invalid(result.Problems);
    }

    private static CuttingRequest ToRequest(CuttingPlanCall call) => new(
        new CuttingStock(ToBolt(call.Stock.Bolt), [.. call.Stock.Sheets.Select(ToSheet)]),
        [.. call.Pieces.Select(ToPiece)])
    {
        Directional = call.Directional,
        Layers = call.Layers,
        LongestStrip = call.LongestStrip,
        Objective = call.Objective,
    };

    /// <summary>Cloth by the length as the planner takes it.</summary>
    public static BoltStock? ToBolt(BoltCall? bolt) => bolt is null
        ? null
        : new BoltStock(bolt.UsableWidth, bolt.Increment, bolt.Minimum ?? bolt.Increment, bolt.PricePerYard);

    private static SheetStock ToSheet(SheetCall sheet) => new(sheet.Name, sheet.Width, sheet.Length, sheet.Available, sheet.Price);

    // Sizes that could be planned and are surely slips of the keyboard.
    private static IEnumerable<Problem> Slips(CuttingPlanCall call)
    {
        if (call.Stock.Bolt is { } bolt && bolt.UsableWidth > CuttingRulesChecks.WidestCloth)
        {
            yield return new Problem("stock.bolt.usableWidth", $"The usable width is {bolt.UsableWidth}: cloth is no wider than {CuttingRulesChecks.WidestCloth}. Check the number and its unit.");
        }

        if (call.LongestStrip.IsPositive && call.LongestStrip < ShortestRuler)
        {
            yield return new Problem("longestStrip", $"The longest ruler is {call.LongestStrip}: it must be {ShortestRuler} at least. Check the number and its unit.");
        }
    }

    /// <summary>Lines of a list that are null, or whose names are empty or used twice; <paramref name="field"/> is what the call calls a name.</summary>
    public static IEnumerable<Problem> Naming(string list, IReadOnlyList<string?> names, string field = "name")
    {
        if (names.Count > MostLines)
        {
            yield return new Problem(list, $"{names.Count} lines are more than the {MostLines} that one call may send. Put equal sizes together.");
            yield break;
        }

        // The answer speaks of pieces and sheets by name, so a name must mean one of them.
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var index = 0; index < names.Count; index++)
        {
            switch (names[index])
            {
                case null:
                    yield return new Problem($"{list}[{index}]", "This line is null. Leave it out or fill it in.");
                    break;
                case var name when string.IsNullOrWhiteSpace(name):
                    yield return new Problem($"{list}[{index}].{field}", $"The {field} is empty. Give each line a {field} of its own.");
                    break;
                case var name when !seen.Add(name):
                    yield return new Problem($"{list}[{index}].{field}", $"\"{ApiFormException.Shorten(name)}\" is the {field} of an earlier line. Give each line a {field} of its own.");
                    break;
            }
        }
    }
}
