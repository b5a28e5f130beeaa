using System.Globalization;
using System.Net;
using System.Security.Claims;

namespace KittingBee.Web.Sharing;

/// <summary>What somebody may do here.</summary>
public static class Role
{
    /// <summary>Everything.</summary>
    public const string Teacher = "teacher";

    /// <summary>The packing of one class.</summary>
    public const string Helper = "helper";
}

/// <summary>Who sent a request, as far as the program knows.</summary>
public static class Visitor
{
    private const string ClassClaim = "class";

    /// <summary>Whoever sits at the machine while it is not shared.</summary>
    public static ClaimsPrincipal AtTheMachine { get; } = Of(Role.Teacher, "machine", null);

    /// <summary>A device that signed in.</summary>
    public static ClaimsPrincipal Of(OpenDevice device) => Of(device.Role, device.Id.ToString(CultureInfo.InvariantCulture), device.ClassId);

    public static bool IsTeacher(this ClaimsPrincipal visitor) => visitor.IsInRole(Role.Teacher);

    /// <summary>The class that a helper packs for; null for everybody else.</summary>
    public static long? HelpsClass(this ClaimsPrincipal visitor) =>
        long.TryParse(visitor.FindFirstValue(ClassClaim), NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : null;

    /// <summary>The number of the visitor's device; null where nobody has to sign in.</summary>
    public static long? DeviceId(this ClaimsPrincipal visitor) =>
        long.TryParse(visitor.FindFirstValue(ClaimTypes.NameIdentifier), NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : null;

    /// <summary>True for a request from this machine itself. A test's request has no address and comes from inside the program.</summary>
    public static bool IsAtTheMachine(this HttpContext context) => context.Connection.RemoteIpAddress is not { } address || IPAddress.IsLoopback(address);

    private static ClaimsPrincipal Of(string role, string device, long? classId)
    {
        var claims = new List<Claim> { new(ClaimTypes.NameIdentifier, device), new(ClaimTypes.Role, role) };
        if (classId is { } id)
        {
            claims.Add(new(ClassClaim, id.ToString(CultureInfo.InvariantCulture)));
        }

        return new(new ClaimsIdentity(claims, DeviceSignIn.Scheme));
    }
}
