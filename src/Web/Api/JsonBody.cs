using System.Buffers;
using System.Reflection;
using System.Text.Json;
using System.Text.Unicode;
using KittingBee.Planning;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Extensions.Options;

namespace KittingBee.Web.Api;

/// <summary>A request's body, read or refused; <see cref="RefuseBadBodies"/> answers for the refused ones.</summary>
public abstract class JsonBody
{
    /// <summary>The most that a call may send: far above a class of thousands, far below what would hurt.</summary>
    public const int LargestBody = 1_000_000;

    /// <summary>The answer to a body that could not be read, or null.</summary>
    public IResult? Refusal { get; protected init; }

    /// <summary>Endpoint filter: handlers behind it see read bodies only.</summary>
    public static async ValueTask<object?> RefuseBadBodies(EndpointFilterInvocationContext context, EndpointFilterDelegate next) =>
        context.Arguments.OfType<JsonBody>().FirstOrDefault(body => body.Refusal is not null)?.Refusal ?? await next(context);

    /// <summary>The body's bytes, or null where there are more than <see cref="LargestBody"/>.</summary>
    protected static async ValueTask<byte[]?> BytesOf(HttpRequest request, CancellationToken cancelled)
    {
        if (request.ContentLength > LargestBody)
        {
            return null;
        }

        var buffer = new ArrayBufferWriter<byte>();
        int read;
        do
        {
            read = await request.Body.ReadAsync(buffer.GetMemory(), cancelled);
            buffer.Advance(read);
        }
        while (read > 0 && buffer.WrittenCount <= LargestBody);
        return buffer.WrittenCount <= LargestBody ? buffer.WrittenSpan.ToArray() : null;
    }
}

/// <summary>A body of one shape.</summary>
public sealed class JsonBody<TCall> : JsonBody, IEndpointParameterMetadataProvider
    where TCall : class
{
    /// <summary>What was sent; read it only behind <see cref="JsonBody.RefuseBadBodies"/>.</summary>
    public TCall Call { get; private init; } = null!;

#pragma warning disable CA1000 // The framework finds these two by their names on the type itself.
    /// <summary>Reads the body; the framework calls this. Bad input is a refusal, never an exception.</summary>
    public static async ValueTask<JsonBody<TCall>> BindAsync(HttpContext context, ParameterInfo parameter)
    {
        if (!context.Request.HasJsonContentType())
        {
            return new() { Refusal = ApiProblems.Unreadable(StatusCodes.Status415UnsupportedMediaType, "Send JSON, with the header Content-Type: application/json.") };
        }

        var bytes = await BytesOf(context.Request, context.RequestAborted);
        if (bytes is null)
        {
            return new() { Refusal = ApiProblems.Unreadable(StatusCodes.Status413PayloadTooLarge, $"The body is larger than {LargestBody:N0} bytes. Send fewer pieces in one call.") };
        }

        // JSON that travels is UTF-8 (RFC 8259, section 8.1); half a character inside a text would come to light only when somebody reads that text.
        if (Utf8.IsValid(bytes) is false)
        {
            return new() { Refusal = ApiProblems.Invalid([new Problem(JsonComplaints.WholeBody, "The body is not UTF-8. Save or send it in UTF-8.")]) };
        }

        var options = context.RequestServices.GetRequiredService<IOptions<JsonOptions>>().Value.SerializerOptions;
        try
        {
            var call = JsonSerializer.Deserialize<TCall>(WithoutByteOrderMark(bytes), options);
            return call is null
                ? new() { Refusal = ApiProblems.Invalid([new Problem(JsonComplaints.WholeBody, "The body is null. Send an object in braces.")]) }
                : new() { Call = call };
        }
        catch (JsonException exception)
        {
            var every = JsonShape.Problems(WithoutByteOrderMark(bytes), typeof(TCall), options);
            return new() { Refusal = ApiProblems.Invalid(every.Count > 0 ? every : JsonComplaints.From(exception)) };
        }
    }

    /// <inheritdoc/>
    public static void PopulateMetadata(ParameterInfo parameter, EndpointBuilder builder) =>
        builder.Metadata.Add(new AcceptsMetadata(["application/json"], typeof(TCall)));
#pragma warning restore CA1000

    private static ReadOnlySpan<byte> WithoutByteOrderMark(ReadOnlySpan<byte> bytes) =>
        bytes.StartsWith("\uFEFF"u8) ? bytes[3..] : bytes;
}
