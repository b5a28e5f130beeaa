using KittingBee.Web.Exchange;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Backups;

/// <summary>Makes the copies that nobody asks for: when the program starts, and once a day while it runs.</summary>
public sealed class BackupClock(BackupBook backups, Database database, RemovedStore removed, Devices devices, DataFolder folder, TimeProvider clock, IHostApplicationLifetime lifetime) : BackgroundService
{
    private static readonly TimeSpan Often = TimeSpan.FromMinutes(15);

    // A program started five times in an evening needs no five copies.
    private static readonly TimeSpan BetweenStarts = TimeSpan.FromHours(12);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Before anything is asked of the program.
        WorkFolder.Clear(folder);
        Incoming.Clear(folder);

        // The first page must not wait for the rest.
        var started = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await using var registration = lifetime.ApplicationStarted.Register(started.SetResult);
        await started.Task.WaitAsync(stoppingToken);
        await Start();
        using var timer = new PeriodicTimer(Often, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            MakeWhenDue(BackupReason.Daily, TimeSpan.FromDays(1));
        }
    }

    /// <summary>What happens once at start: a copy where the last is old, then what was taken out long ago goes for good.</summary>
    public async Task Start()
    {
        MakeWhenDue(BackupReason.Start, BetweenStarts);
        try
        {
            await Purge();
        }
        catch (Exception e) when (StorageFaults.Explain(e) is not null)
        {
            // It stays taken out until the next start.
        }
    }

    private async Task Purge()
    {
        if (removed.IsAnythingOld())
        {
            backups.Make(BackupReason.BeforePurge);
            await removed.Purge();
            await devices.ReadAnew();
        }
    }

    private void MakeWhenDue(string why, TimeSpan age)
    {
        if (!IsEmpty())
        {
            backups.MakeWhenDue(why, age);
        }
    }

    private bool IsEmpty() => database.Read(session =>
        session.Get<long>("SELECT (SELECT count(*) FROM guild) + (SELECT count(*) FROM fabric) + (SELECT count(*) FROM block) + (SELECT count(*) FROM class)")) == 0;
}
