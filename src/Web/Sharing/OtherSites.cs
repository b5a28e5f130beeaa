namespace KittingBee.Web.Sharing;

/// <summary>
/// Refuses what another site's page sends here behind somebody's back. Forms and marks carry a token besides; this holds for
/// every call, also for one that needs no token.
/// </summary>
public static class OtherSites
{
    public static Task Refuse(HttpContext context, RequestDelegate next)
    {
        if (!IsForeign(context.Request))
        {
            return next(context);
        }

        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return context.Response.WriteAsync("Another site's page asked for this. Open it from Kitting Bee itself.", context.RequestAborted);
    }

    private static bool IsForeign(HttpRequest request)
    {
        var reads = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);

        // Browsers tell where a request comes from. A link that somebody follows may come from anywhere; all else comes from here.
        if (request.Headers["Sec-Fetch-Site"].FirstOrDefault() is { } site and not ("same-origin" or "none"))
        {
            return !(reads && request.Headers["Sec-Fetch-Mode"] == "navigate" && request.Headers["Sec-Fetch-Dest"] == "document");
        }

        // Over plain Wi-Fi addresses they keep that back, and say the page's origin with every change. A program says neither.
        return !reads && request.Headers.Origin.FirstOrDefault() is { } origin
            && !string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
    }
}
