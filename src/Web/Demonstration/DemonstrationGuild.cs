using KittingBee.Web.Storage;

namespace KittingBee.Web.Demonstration;

/// <summary>Fills an empty guild with the invented one, through the same stores as a person's input.</summary>
public sealed class DemonstrationGuild(GuildStore guild)
{
    public async Task Load()
    {
        await guild.Save(new Guild { Name = "Larkfield Piecers", Units = "inches", Paper = "letter", Currency = "USD", Demonstration = true });
    }
}

/// <summary>Registers and starts the demonstration.</summary>
public static class DemonstrationServices
{
    public static IServiceCollection AddDemonstration(this IServiceCollection services) => services.AddSingleton<DemonstrationGuild>();

    public static void LoadDemonstration(this WebApplication app) =>
        app.Services.GetRequiredService<DemonstrationGuild>().Load().GetAwaiter().GetResult();
}
