namespace KittingBee.Web.Demonstration;

/// <summary>Registers and starts the demonstration.</summary>
public static class DemonstrationServices
{
    public static IServiceCollection AddDemonstration(this IServiceCollection services) => services
        .AddSingleton<DemonstrationClasses>()
        .AddSingleton<DemonstrationGuild>();

    public static void LoadDemonstration(this WebApplication app) =>
        app.Services.GetRequiredService<DemonstrationGuild>().Load().GetAwaiter().GetResult();
}
