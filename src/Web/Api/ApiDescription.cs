using System.Text.Json.Nodes;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace KittingBee.Web.Api;

/// <summary>Tells the OpenAPI document what our own converters read and write, which it cannot see for itself.</summary>
public static class ApiDescription
{
    /// <summary>Lengths as numbers (in requests also texts), choices as their words, the block by its own shape.</summary>
    public static async Task DescribeSchema(OpenApiSchema schema, OpenApiSchemaTransformerContext context, CancellationToken cancelled)
    {
        var type = Nullable.GetUnderlyingType(context.JsonTypeInfo.Type) ?? context.JsonTypeInfo.Type;
        if (type == typeof(Length))
        {
            DescribeLength(schema, sent: context.JsonPropertyInfo is { } property && IsSent(property.DeclaringType));
        }
        else if (type == typeof(IReadOnlyList<Length>))
        {
            schema.Items ??= new OpenApiSchema(); // The length itself is described in its own turn.
        }
        else if (type.IsEnum)
        {
            schema.Type = JsonSchemaType.String;
            schema.Enum = [.. Words(type).Select(word => (JsonNode)JsonValue.Create(word))];
        }
        else if (type == typeof(CutListCall) && schema.Properties is { } properties)
        {
            properties["block"] = await context.GetOrCreateSchemaAsync(typeof(Block), null, cancelled);
        }
    }

    /// <summary>Title, what it is for, and the unit's own lengths: the block's shape is made without knowledge of who sends it.</summary>
    public static Task DescribeDocument(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancelled)
    {
        document.Info.Title = "Kitting Bee planning";
        document.Info.Description = "Cut lists, cutting plans and kit formats for patchwork classes. Lengths are inches. Nothing that is sent is stored.";
        foreach (var (shape, field) in new[] { ("Block", "columns"), ("Block", "rows"), ("Unit", "widths"), ("Unit", "corner"), ("Unit", "cutWidth"), ("Unit", "cutHeight") })
        {
            var schema = document.Components!.Schemas![shape].Properties![field];
            var length = (OpenApiSchema)(schema.Items ?? schema);
            length.Description = null;
            DescribeLength(length, sent: true);
        }

        return Task.CompletedTask;
    }

    /// <summary>Lengths and choices stand inside their fields; everything else is a named shape.</summary>
    public static string? NameOfShape(System.Text.Json.Serialization.Metadata.JsonTypeInfo type)
    {
        var plain = Nullable.GetUnderlyingType(type.Type) ?? type.Type;
        return plain == typeof(Length) || plain.IsEnum ? null : OpenApiOptions.CreateDefaultSchemaReferenceId(type);
    }

    private static void DescribeLength(OpenApiSchema schema, bool sent)
    {
        schema.Type = sent ? JsonSchemaType.Number | JsonSchemaType.String : JsonSchemaType.Number;
        schema.Description = ((sent ? "Inches, or a text such as 4 1/2, 4½, 11.5 cm or 1 3/8 yd. " : "Inches. ") + schema.Description).Trim();
    }

    private static bool IsSent(Type type) => type.Name.EndsWith("Call", StringComparison.Ordinal);

    private static IEnumerable<string> Words(Type type) =>
        Enum.GetNames(type).Select(System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName);
}
