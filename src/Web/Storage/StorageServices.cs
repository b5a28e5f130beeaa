using KittingBee.Web.Running;

namespace KittingBee.Web.Storage;

/// <summary>Registers the database and its stores.</summary>
public static class StorageServices
{
    public static IServiceCollection AddStorage(this IServiceCollection services) => services
        .AddSingleton(TimeProvider.System)
        .AddSingleton(provider => new Database(provider.GetRequiredService<DataFolder>().DatabaseFile, provider.GetRequiredService<TimeProvider>()))
        .AddSingleton<GuildStore>()
        .AddSingleton<FabricStore>()
        .AddSingleton<ShelfStore>()
        .AddSingleton<ShelfClaimStore>()
        .AddSingleton<ShoppingStore>()
        .AddSingleton<BlockStore>()
        .AddSingleton<DraftStore>()
        .AddSingleton<ProjectStore>()
        .AddSingleton<ClassStore>()
        .AddSingleton<ColourwayStore>()
        .AddSingleton<RosterStore>()
        .AddSingleton<KitStore>()
        .AddSingleton<PackingStore>()
        .AddSingleton<ShortageStore>()
        .AddSingleton<SettlingStore>()
        .AddSingleton<PhotoStore>()
        .AddSingleton<ClosingStore>()
        .AddSingleton<PlanStore>()
        .AddSingleton<RemovedStore>()
        .AddSingleton<Finding.FindStore>()
        .AddSingleton<FormatStore>();

    /// <summary>Brings the database up to date before the first request.</summary>
    public static void OpenDatabase(this WebApplication app) =>
        Migrations.Apply(app.Services.GetRequiredService<Database>(), app.Services.GetRequiredService<DataFolder>().Backups);
}
