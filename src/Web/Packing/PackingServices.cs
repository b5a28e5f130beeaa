namespace KittingBee.Web.Packing;

/// <summary>Registers what packs kits.</summary>
public static class PackingServices
{
    public static IServiceCollection AddPacking(this IServiceCollection services) => services
        .AddSingleton<MarkDesk>()
        .AddSingleton<Settling.SpoilageMemory>();
}
