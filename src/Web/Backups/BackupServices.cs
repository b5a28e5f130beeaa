namespace KittingBee.Web.Backups;

/// <summary>Registers what makes copies and puts them back.</summary>
public static class BackupServices
{
    public static IServiceCollection AddBackups(this IServiceCollection services) => services
        .AddSingleton<BackupBook>()
        .AddSingleton<Restoring>()
        .AddSingleton<BackupClock>()
        .AddHostedService(provider => provider.GetRequiredService<BackupClock>());
}
