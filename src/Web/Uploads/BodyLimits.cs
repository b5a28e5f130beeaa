using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.Metadata;

namespace KittingBee.Web.Uploads;

/// <summary>
/// How large what is sent may be: a few megabytes unless an endpoint says otherwise. A page that is sent too much is shown again with the
/// reason, so that nobody loses the way.
/// </summary>
public static class BodyLimits
{
    /// <summary>For every request whose endpoint names no limit of its own: a long roster pasted is a tenth of it.</summary>
    public const long Usual = 4_000_000;

    private const string Message = "body-too-large";

    // Read to the end, and thrown away, so that the browser gets to see the answer; whoever sends more is cut off.
    private const long MostDiscarded = 300_000_000;

    public static void LimitBodies(this WebApplicationBuilder builder) => builder.WebHost.ConfigureKestrel(kestrel => kestrel.Limits.MaxRequestBodySize = Usual);

    /// <summary>Answers 413 before anything is read where the length is named; elsewhere the server stops reading at the limit. Call it after routing.</summary>
    public static void UseBodyLimits(this WebApplication app) => app.Use(async (context, next) =>
    {
        if (context.GetEndpoint() is { } endpoint && context.Request.ContentLength is { } length && !context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal))
        {
            var limit = endpoint.Metadata.GetMetadata<IRequestSizeLimitMetadata>() is { } own ? own.MaxRequestBodySize ?? long.MaxValue : Usual;
            if (length > limit)
            {
                await Discard(context, length);
                context.Items[Message] = Say($"That is too large: {length / 1_000_000m:0.0} MB were sent, and {limit / 1_000_000m:0.0} MB is the most here. Nothing of it was stored. Send less at a time, or a smaller file.");
                context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
                if (!endpoint.Metadata.OfType<Microsoft.AspNetCore.Mvc.RazorPages.PageActionDescriptor>().Any())
                {
                    return;
                }

                // The page as it is when it is opened, with the reason on it.
                context.Request.Method = HttpMethods.Get;
                context.Request.QueryString = QueryString.Empty;
                context.Request.ContentLength = null;
                context.Request.ContentType = null;
                context.Request.Body = Stream.Null;
            }
        }

        await next(context);
    });

    /// <summary>What to say on the page about a body that was too large; null for all other requests.</summary>
    public static string? TooLarge(HttpContext context) => context.Items[Message] as string;

    private static async Task Discard(HttpContext context, long length)
    {
        if (length > MostDiscarded)
        {
            return;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } feature)
        {
            feature.MaxRequestBodySize = MostDiscarded;
        }

        await context.Request.Body.CopyToAsync(Stream.Null, context.RequestAborted);
    }
}
