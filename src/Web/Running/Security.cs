using Microsoft.Net.Http.Headers;

namespace KittingBee.Web.Running;

/// <summary>What every answer carries.</summary>
public static class Security
{
    /// <summary>Scripts, styles and pictures come from the program itself; nothing inline runs and nobody may frame a page.</summary>
    public static HeaderPolicyCollection Headers()
    {
        var headers = new HeaderPolicyCollection()
            .AddDefaultSecurityHeaders()
            .AddContentSecurityPolicy(policy =>
            {
                policy.AddDefaultSrc().Self();
                policy.AddImgSrc().Self().Data();
                policy.AddObjectSrc().None();
                policy.AddBaseUri().None();
                policy.AddFormAction().Self();
                policy.AddFrameAncestors().None();
            })
            .AddPermissionsPolicy(policy =>
            {
                // The camera reads the labels of bags; nothing else of the device is ever asked for.
                policy.AddCamera().Self();
                policy.AddMicrophone().None();
                policy.AddGeolocation().None();
                policy.AddDisplayCapture().None();
            });

        // A certificate of our own making cannot promise HTTPS for a year: a browser that was told so would let nobody past its warning.
        headers.Remove(HeaderNames.StrictTransportSecurity);

        // A page whose address is a secret says so itself.
        headers.Remove("Referrer-Policy");
        return headers;
    }

    /// <summary>The log has one line for each event, with its time in UTC: nothing that was typed can begin a line of its own.</summary>
    public static ILoggingBuilder WriteOneLineEach(this ILoggingBuilder logging) => logging.AddSimpleConsole(console =>
    {
        console.SingleLine = true;
        console.UseUtcTimestamp = true;
        console.TimestampFormat = "yyyy-MM-dd'T'HH:mm:ss'Z' ";
    });

    /// <summary>What an answer gets unless it says otherwise itself: no copy in a browser or on the way, and its address told to our own pages alone.</summary>
    public static Task KeepPrivate(HttpContext context, RequestDelegate next)
    {
        context.Response.OnStarting(static state =>
        {
            var headers = ((HttpResponse)state).Headers;
            headers.TryAdd(HeaderNames.CacheControl, "no-store");
            headers.TryAdd("Referrer-Policy", "same-origin");
            return Task.CompletedTask;
        }, context.Response);
        return next(context);
    }
}
