namespace KittingBee.Web.Sharing;

/// <summary>Lets go of devices whose time is over, also of those that only listen, and stores when the others were seen.</summary>
public sealed class DeviceWatch(Devices devices, SharingState state, TimeProvider clock, ILogger<DeviceWatch> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromMinutes(1), clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            if (!state.IsShared)
            {
                continue;
            }

            try
            {
                await devices.Sweep();
            }
#pragma warning disable CA1031 // A full disk now must not end the watch for good.
            catch (Exception exception)
#pragma warning restore CA1031
            {
                log.LogError(exception, "Devices could not be looked over");
            }
        }
    }
}
