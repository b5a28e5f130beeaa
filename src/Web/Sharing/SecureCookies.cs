using Microsoft.Net.Http.Headers;

namespace KittingBee.Web.Sharing;

/// <summary>
/// Over HTTPS every cookie is named __Host-: the browser then keeps it for this host over HTTPS alone, and takes it from nobody
/// else. Over plain HTTP browsers refuse such names, and cookies keep their plain ones. The program itself knows only the plain names.
/// </summary>
public static class SecureCookies
{
    private const string Prefix = "__Host-";
    private const string Own = "kitting-bee-";

    public static Task Rename(HttpContext context, RequestDelegate next)
    {
        if (context.Request.IsHttps)
        {
            Receive(context.Request);
            context.Response.OnStarting(static response => Send((HttpResponse)response), context.Response);
        }

        return next(context);
    }

    private static void Receive(HttpRequest request) => request.Headers.Cookie = string.Join("; ", request.Headers.Cookie
        .SelectMany(line => (line ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        .Where(cookie => cookie.StartsWith(Prefix + Own, StringComparison.Ordinal))
        .Select(cookie => cookie[Prefix.Length..]));

    private static Task Send(HttpResponse response)
    {
        if (SetCookieHeaderValue.TryParseList(response.Headers.SetCookie, out var cookies))
        {
            response.Headers.SetCookie = cookies.Select(cookie =>
            {
                cookie.Name = Prefix + cookie.Name;
                cookie.Secure = true;
                cookie.Path = "/";
                cookie.Domain = null;
                return cookie.ToString();
            }).ToArray();
        }

        return Task.CompletedTask;
    }
}
