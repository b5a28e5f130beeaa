using KittingBee.Web.Exchange;

namespace KittingBee.Web.Backups;

/// <summary>Registers what makes copies and files of the guild and brings them back.</summary>
public static class BackupServices
{
    public static IServiceCollection AddBackups(this IServiceCollection services) => services
        .AddSingleton<BackupBook>()
        .AddSingleton<Restoring>()
        .AddSingleton<FileWriter>()
        .AddSingleton<Incoming>()
        .AddSingleton<BackupClock>()
        .AddHostedService(provider => provider.GetRequiredService<BackupClock>());
}
