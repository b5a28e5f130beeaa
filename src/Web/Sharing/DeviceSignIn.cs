using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace KittingBee.Web.Sharing;

/// <summary>
/// Tells who sends a request. While the guild is not shared that is whoever sits at this machine. While it is shared everybody
/// signs in, also at the machine: an address proves nothing about who sits there, and one rule is easier to trust than two.
/// </summary>
public sealed class DeviceSignIn(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, SharingState state, Devices devices)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public new const string Scheme = "device";

    private const string Cookie = "kitting-bee-device";

    // Set where a request's device was found, so that the connection is cut with the device.
    private static readonly object CutKey = new();

    /// <summary>Gives the browser its token, in place of any that it had.</summary>
    public static void Keep(HttpContext context, string token) => context.Response.Cookies.Append(Cookie, token, CookieFor(context));

    /// <summary>Takes the token from the browser.</summary>
    public static void Forget(HttpContext context) => context.Response.Cookies.Delete(Cookie, CookieFor(context));

    /// <summary>Lets this request end in peace although its own device is about to be cut off.</summary>
    public static void LetFinish(HttpContext context) => (context.Items[CutKey] as IDisposable)?.Dispose();

    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (!state.IsShared)
        {
            return Task.FromResult(Context.IsAtTheMachine() ? Success(Visitor.AtTheMachine) : AuthenticateResult.NoResult());
        }

        if (Request.Cookies[Cookie] is not { Length: > 0 and < 100 } token || devices.Find(token) is not { } device)
        {
            return Task.FromResult(AuthenticateResult.NoResult());
        }

        var cut = device.Cut.UnsafeRegister(static context => ((HttpContext)context!).Abort(), Context);
        Context.Items[CutKey] = cut;
        Context.Response.RegisterForDispose(cut);
        return Task.FromResult(Success(Visitor.Of(device)));
    }

    /// <summary>People are asked to sign in; programs are told that they must.</summary>
    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        if (IsPage(Request))
        {
            Response.Redirect("/sign-in" + (Request.Path == "/" ? "" : $"?next={Uri.EscapeDataString(Request.Path + Request.QueryString)}"));
        }
        else
        {
            Response.StatusCode = StatusCodes.Status401Unauthorized;
        }

        return Task.CompletedTask;
    }

    /// <summary>A helper who opens the first page wants the packing table; anything else is refused, whether it exists or not.</summary>
    protected override Task HandleForbiddenAsync(AuthenticationProperties properties)
    {
        if (Request.Path == "/" && IsPage(Request) && Context.User.HelpsClass() is { } classId)
        {
            Response.Redirect(FormattableString.Invariant($"/classes/{classId}/pack"));
        }
        else
        {
            Response.StatusCode = StatusCodes.Status403Forbidden;
        }

        return Task.CompletedTask;
    }

    private static bool IsPage(HttpRequest request) => HttpMethods.IsGet(request.Method) && !request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);

    private static AuthenticateResult Success(System.Security.Claims.ClaimsPrincipal visitor) =>
        AuthenticateResult.Success(new AuthenticationTicket(visitor, Scheme));

    // Lax, not strict: a scanned code or a link in a message must find its device again. Nothing changes on GET.
    private static CookieOptions CookieFor(HttpContext context) => new()
    {
        HttpOnly = true, SameSite = SameSiteMode.Lax, IsEssential = true, Path = "/", MaxAge = Devices.Longest, Secure = context.Request.IsHttps,
    };
}
