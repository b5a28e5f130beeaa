using KittingBee.Web.Running;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace KittingBee.Web.Sharing;

/// <summary>Sets up who is let in, and from where.</summary>
public static class SharingServices
{
    public static void AddSharing(this WebApplicationBuilder builder)
    {
        // The command line's addresses are this machine's own; the rest is opened and closed while the program runs, through this section only.
        var settings = new NetworkSettings();
        ((IConfigurationBuilder)builder.Configuration).Add(settings);
        builder.WebHost.ConfigureKestrel(server =>
        {
            server.AddServerHeader = false;
            server.ConfigureHttpsDefaults(https => https.ServerCertificateSelector = (_, _) => server.ApplicationServices.GetRequiredService<OwnCertificate>().Current);
            server.Configure(builder.Configuration.GetSection(NetworkSettings.Section), reloadOnChange: true);
        });
        builder.Services
            .AddSingleton(settings)
            .AddSingleton<OwnCertificate>()
            .AddSingleton<NetworkDoor>()
            .AddSingleton<SharingState>()
            .AddSingleton<ShareStore>()
            .AddSingleton<TeacherPassword>()
            .AddSingleton<Devices>()
            .AddSingleton<Throttle>()
            .AddSingleton<SecurityLog>()
            .AddSingleton<KitLinks>()
            .AddSingleton<SharingDesk>()
            .AddHostedService<DeviceWatch>()
            .AddRateLimits()
            .AddAccess();
    }

    /// <summary>What is refused whatever it asks for, before anything else looks at it.</summary>
    public static void UseOwnSiteOnly(this WebApplication app)
    {
        app.Use(SecureCookies.Rename);
        app.Use(OtherSites.Refuse);
        app.Use(RefuseOthersWhileAlone);
        app.Use(Security.KeepPrivate);
    }

    /// <summary>Who it is, how fast, and whether they may. Everything after this is for those who may.</summary>
    public static void UseAccess(this WebApplication app)
    {
        app.UseAuthentication();
        app.UseRateLimiter();
        app.UseAuthorization();
        app.Use(AskForPassword);
    }

    /// <summary>Shares as the command line asked for, once the program listens.</summary>
    public static void ShareWhenStarted(this WebApplication app, StartOptions options) => app.Lifetime.ApplicationStarted.Register(() =>
    {
        var own = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault();
        var door = app.Services.GetRequiredService<NetworkDoor>();
        door.ListensOn(own is not null && Uri.TryCreate(own, UriKind.Absolute, out var address) ? address.Port : 0);
        app.Services.GetRequiredService<SharingDesk>().StartAsAsked(options).GetAwaiter().GetResult();
        foreach (var shared in door.Addresses)
        {
            Console.WriteLine($"Others reach it at {shared.GetLeftPart(UriPartial.Authority)}");
        }

        if (app.Services.GetRequiredService<SharingState>().WaitsForPassword)
        {
            Console.WriteLine("Nobody else is let in before the teacher's password is set: open the address above on this machine.");
        }
    });

    // Nothing but this machine's own addresses is listened on then; this holds also in the moment in which sharing ends.
    private static Task RefuseOthersWhileAlone(HttpContext context, RequestDelegate next)
    {
        if (context.RequestServices.GetRequiredService<SharingState>().IsShared || context.IsAtTheMachine())
        {
            return next(context);
        }

        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return context.Response.WriteAsync(Say("This guild is not shared now."), context.RequestAborted);
    }

    private static Task AskForPassword(HttpContext context, RequestDelegate next)
    {
        if (!context.RequestServices.GetRequiredService<SharingState>().WaitsForPassword || !HttpMethods.IsGet(context.Request.Method)
            || context.GetEndpoint()?.Metadata.GetMetadata<IAllowAnonymous>() is not null
            || context.Request.Path.StartsWithSegments("/settings/sharing", StringComparison.OrdinalIgnoreCase))
        {
            return next(context);
        }

        context.Response.Redirect("/settings/sharing");
        return Task.CompletedTask;
    }
}
