using System.Globalization;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.ApplicationModels;

namespace KittingBee.Web.Sharing;

/// <summary>
/// Who may use what. An address that says nothing is the teacher's alone, so a page or call added later is closed to everybody
/// else until it is named here.
/// </summary>
public static class Access
{
    /// <summary>The packing of the class in the address: the teacher and that class's helpers.</summary>
    public const string Packing = "packing";

    /// <summary>Anybody who is signed in; the page itself looks at the class.</summary>
    public const string SignedIn = "signed-in";

    public static IServiceCollection AddAccess(this IServiceCollection services)
    {
        services.AddAuthentication(DeviceSignIn.Scheme).AddScheme<AuthenticationSchemeOptions, DeviceSignIn>(DeviceSignIn.Scheme, null);
        var teacher = new AuthorizationPolicyBuilder().RequireRole(Role.Teacher).Build();
        services.AddAuthorizationBuilder()
            .SetFallbackPolicy(teacher)
            .SetDefaultPolicy(teacher)
            .AddPolicy(Packing, policy => policy.AddRequirements(new PackingOfItsClass()))
            .AddPolicy(SignedIn, policy => policy.RequireAuthenticatedUser());
        return services.AddSingleton<IAuthorizationHandler, PackingOfItsClassHandler>();
    }

    /// <summary>The pages that are not the teacher's alone.</summary>
    public static void OpenPages(PageConventionCollection pages)
    {
        pages.AuthorizePage("/Classes/Pack", Packing);
        pages.AuthorizePage("/Classes/History", Packing);
        pages.AuthorizePage("/Classes/Recut", Packing);
        pages.AuthorizePage("/Bag", Packing);
        pages.AuthorizePage("/FindBag", SignedIn);
        pages.AuthorizePage("/Help", SignedIn);
        pages.AuthorizePage("/Glossary", SignedIn);
        pages.AuthorizePage("/Sharing/SignOut", SignedIn);
        pages.AllowAnonymousToPage("/Sharing/SignIn");
        pages.AllowAnonymousToPage("/Sharing/Join");
        pages.AllowAnonymousToPage("/Sharing/Own"); // These two open by their link alone.
        pages.AllowAnonymousToPage("/Sharing/OwnHandout");
        pages.AllowAnonymousToPage("/Error");
    }
}

/// <summary>That the class in the address is the visitor's to pack.</summary>
public sealed class PackingOfItsClass : IAuthorizationRequirement;

/// <summary>Compares the class in the address with the helper's. An address that names no class is refused.</summary>
public sealed class PackingOfItsClassHandler(KitStore kits) : AuthorizationHandler<PackingOfItsClass>
{
    protected override Task HandleRequirementAsync(AuthorizationHandlerContext context, PackingOfItsClass requirement)
    {
        if (context.User.IsTeacher()
            || (context.User.HelpsClass() is { } helps && context.Resource is HttpContext http && ClassOf(http.Request.RouteValues) == helps))
        {
            context.Succeed(requirement);
        }

        return Task.CompletedTask;
    }

    /// <summary>The class that an address is about: named itself, or by a bag's code.</summary>
    private long? ClassOf(RouteValueDictionary route)
    {
        if (route.TryGetValue("classId", out var named))
        {
            return long.TryParse(Convert.ToString(named, CultureInfo.InvariantCulture), NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? id : null;
        }

        return route.TryGetValue("code", out var code) ? kits.FindByCode(Convert.ToString(code, CultureInfo.InvariantCulture) ?? "")?.ClassId : null;
    }
}
