using System.Text.Json;
using System.Text.Json.Serialization;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Web.Sharing;

namespace KittingBee.Web.Api;

/// <summary>The planning calls: they keep no state and store nothing.</summary>
public static class PlanningApi
{
    // Blocks may nest in blocks; each level takes five levels of JSON.
    private const int DeepestNesting = 40;

    /// <summary>How JSON is read and written, and the OpenAPI document.</summary>
    public static IServiceCollection AddPlanningApi(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(options => Configure(options.SerializerOptions));
        services.AddProblemDetails();
        services.AddOpenApi("v1", options =>
        {
            options.AddSchemaTransformer(ApiDescription.DescribeSchema);
            options.CreateSchemaReferenceId = ApiDescription.NameOfShape;
            options.AddDocumentTransformer(ApiDescription.DescribeDocument);
        });
        return services;
    }

    /// <summary>Adds the calls under /api and their description at /openapi/v1.json.</summary>
    public static void MapPlanningApi(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("/api")
            .WithTags("Planning")
            .DisableAntiforgery()
            .RequireRateLimiting(RateLimits.Planning)
            .AddEndpointFilter(JsonBody.RefuseBadBodies)
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(JsonBody.LargestBody))
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status415UnsupportedMediaType);
        api.MapCutList();
        api.MapCuttingPlan();
        api.MapKitFormats();
        app.MapOpenApi();
    }

    private static void Configure(JsonSerializerOptions options)
    {
        options.NumberHandling = JsonNumberHandling.Strict;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.AllowDuplicateProperties = false;
        options.RespectNullableAnnotations = true;
        options.RespectRequiredConstructorParameters = true;
        options.MaxDepth = DeepestNesting;
        // Messages carry ″ and ½; the answers are JSON and never stand in HTML.
        options.Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        options.Converters.Add(new LengthJsonConverter());
        options.Converters.Add(new WordJsonConverter<UnitKind>());
        options.Converters.Add(new WordJsonConverter<HalfSquareMethod>());
        options.Converters.Add(new WordJsonConverter<QuarterSquareMethod>());
        options.Converters.Add(new WordJsonConverter<GeeseMethod>());
        options.Converters.Add(new WordJsonConverter<SquareInASquareMethod>());
        options.Converters.Add(new WordJsonConverter<PatchMethod>());
        options.Converters.Add(new WordJsonConverter<TrimMethod>());
        options.Converters.Add(new WordJsonConverter<CuttingObjective>());
        options.Converters.Add(new WordJsonConverter<PinkedEdges>());
    }
}
