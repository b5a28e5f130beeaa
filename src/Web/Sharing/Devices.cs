using System.Collections.Concurrent;
using System.Globalization;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Sharing;

/// <summary>A device that is signed in now.</summary>
#pragma warning disable CA1001 // The source has no timer and so nothing to let go of, and requests may still hold its token.
public sealed class OpenDevice(StoredDevice stored)
#pragma warning restore CA1001
{
    private readonly CancellationTokenSource cut = new();
    private long seen = Devices.Moment(stored.SeenAt).UtcTicks;

    public long Id => stored.Id;

    public string Role => stored.Role;

    public long? ClassId => stored.ClassId;

    public string Name => stored.Name;

    public string TokenHash => stored.TokenHash;

    public DateTimeOffset Since { get; } = Devices.Moment(stored.SignedInAt);

    public DateTimeOffset EndsAt { get; } = Devices.Moment(stored.EndsAt);

    public DateTimeOffset Seen
    {
        get => new(Interlocked.Read(ref seen), TimeSpan.Zero);
        set => Interlocked.Exchange(ref seen, value.UtcTicks);
    }

    /// <summary>Fires when the device is cut off: whatever it still has open ends with it.</summary>
    public CancellationToken Cut => cut.Token;

    /// <summary>True once nothing more may be done with it.</summary>
    public bool IsOver(DateTimeOffset now) => cut.IsCancellationRequested || now >= EndsAt || now >= Seen + Devices.IdleFor(Role);

    internal void End() => cut.Cancel();
}

/// <summary>The devices that are signed in: kept in memory, where each request is checked, and in the database, so that a new start does not sign everybody out.</summary>
public sealed class Devices(ShareStore store, TimeProvider clock)
{
    /// <summary>However busy, a device signs in anew after this long.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(12);

    private readonly Lazy<ConcurrentDictionary<string, OpenDevice>> open = new(() =>
        new(store.Devices().Select(device => KeyValuePair.Create(device.TokenHash, new OpenDevice(device))), StringComparer.Ordinal));

    /// <summary>How long a device may stay away: a phone lies on the table for longer than the teacher's laptop should.</summary>
    public static TimeSpan IdleFor(string role) => role == Role.Teacher ? TimeSpan.FromHours(2) : TimeSpan.FromHours(4);

    /// <summary>All that are signed in, the latest first.</summary>
    public IReadOnlyList<OpenDevice> All => [.. open.Value.Values.Where(device => !device.IsOver(clock.GetUtcNow())).OrderByDescending(device => device.Id)];

    /// <summary>The device of a token, seen now; null for one that is over or never was.</summary>
    public OpenDevice? Find(string token)
    {
        var now = clock.GetUtcNow();
        if (!open.Value.TryGetValue(Secrets.Hash(token), out var device) || device.IsOver(now))
        {
            return null;
        }

        device.Seen = now;
        return device;
    }

    /// <summary>Signs a device in; gives the token that it must bring from now on.</summary>
    public async Task<string> SignIn(string role, long? classId, string name)
    {
        var now = clock.GetUtcNow();
        var token = Secrets.Token();
        var device = new StoredDevice
        {
            TokenHash = Secrets.Hash(token), Role = role, ClassId = classId, Name = name, SignedInAt = Database.Stamp(now), SeenAt = Database.Stamp(now), EndsAt = Database.Stamp(now + Longest),
        };
        open.Value[device.TokenHash] = new OpenDevice(device with { Id = await store.AddDevice(device) });
        return token;
    }

    /// <summary>Cuts devices off at once, with all that they have open; gives how many there were.</summary>
    public async Task<int> Cut(Func<OpenDevice, bool> which)
    {
        var cut = open.Value.Values.Where(which).ToList();
        foreach (var device in cut)
        {
            open.Value.TryRemove(device.TokenHash, out _);
            device.End();
        }

        if (cut.Count > 0)
        {
            await store.DropDevices([.. cut.Select(device => device.Id)]);
        }

        return cut.Count;
    }

    /// <summary>Cuts off devices that the database has no more, because other rows took the place of what they were let in for.</summary>
    public async Task ReadAnew()
    {
        var there = store.Devices().Select(device => device.Id).ToHashSet();
        await Cut(device => !there.Contains(device.Id));
    }

    /// <summary>Lets go of devices whose time is over, and stores when the others were seen.</summary>
    public async Task Sweep()
    {
        var now = clock.GetUtcNow();
        await Cut(device => device.IsOver(now));
        await store.KeepSeen([.. open.Value.Values.Select(device => (device.Id, Database.Stamp(device.Seen)))]);
    }

    internal static DateTimeOffset Moment(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
}
