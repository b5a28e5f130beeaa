using System.Net;
using System.Net.Sockets;

namespace KittingBee.Web.Sharing;

/// <summary>
/// Slows down guessing of the password and of join codes: each address waits twice as long after every further wrong try, and
/// all addresses together are slowed where many tries go wrong. The machine itself is spared the second, so that nobody on the
/// network can keep the teacher out.
/// </summary>
public sealed class Throttle(TimeProvider clock)
{
    private const int FreeTries = 5;
    private const int FreeTriesOfAll = 60;
    private const int MostAddresses = 2000;

    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan LongestWaitOfAll = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Forgotten = TimeSpan.FromHours(1);

    private readonly Lock guard = new();
    private readonly Dictionary<IPAddress, Tries> of = [];
    private Tries all = new(0, DateTimeOffset.MinValue);

    /// <summary>Addresses that are remembered now.</summary>
    public int Remembered
    {
        get
        {
            lock (guard)
            {
                return of.Count;
            }
        }
    }

    /// <summary>Counts a try as wrong before it is looked at, so that many at once gain nothing. Gives how long to wait instead where it is too early.</summary>
    public TimeSpan? Begin(IPAddress? from)
    {
        var now = clock.GetUtcNow();
        var address = Key(from);
        lock (guard)
        {
            var own = of.TryGetValue(address, out var known) && now < known.Until + Forgotten ? known : new Tries(0, DateTimeOffset.MinValue);
            var together = now < all.Until + Forgotten ? all : new Tries(0, DateTimeOffset.MinValue);
            var until = IPAddress.IsLoopback(address) || own.Until > together.Until ? own.Until : together.Until;
            if (now < until)
            {
                return until - now;
            }

            MakeRoom(now);
            of[address] = own.Wrong(now, FreeTries, LongestWait);
            all = together.Wrong(now, FreeTriesOfAll, LongestWaitOfAll);
            return null;
        }
    }

    /// <summary>
    /// The try was right after all: it does not count. Wrong ones before it still do, or whoever knows one code could clear the slate
    /// with it between guesses at another, or at the password.
    /// </summary>
    public void Passed(IPAddress? from)
    {
        var address = Key(from);
        lock (guard)
        {
            if (of.TryGetValue(address, out var own) && own.Count > 1)
            {
                of[address] = new(own.Count - 1, clock.GetUtcNow());
            }
            else
            {
                of.Remove(address);
            }

            all = all with { Count = Math.Max(0, all.Count - 1) };
        }
    }

    // One household holds a whole /64 of the newer addresses.
    private static IPAddress Key(IPAddress? from)
    {
        var address = from ?? IPAddress.Loopback;
        if (address.IsIPv4MappedToIPv6)
        {
            return address.MapToIPv4();
        }

        if (address.AddressFamily != AddressFamily.InterNetworkV6 || IPAddress.IsLoopback(address))
        {
            return address;
        }

        var bytes = address.GetAddressBytes();
        bytes.AsSpan(8).Clear();
        return new IPAddress(bytes);
    }

    private void MakeRoom(DateTimeOffset now)
    {
        if (of.Count < MostAddresses)
        {
            return;
        }

        foreach (var (address, _) in of.Where(pair => now >= pair.Value.Until + Forgotten).ToList())
        {
            of.Remove(address);
        }

        if (of.Count >= MostAddresses)
        {
            of.Remove(of.MinBy(pair => (pair.Value.Count, pair.Value.Until)).Key);
        }
    }

    private sealed record Tries(int Count, DateTimeOffset Until)
    {
        public Tries Wrong(DateTimeOffset now, int free, TimeSpan longest)
        {
            var count = Count + 1;
            var wait = count < free ? TimeSpan.Zero : TimeSpan.FromSeconds(Math.Pow(2, Math.Min(count - free, 20)));
            return new(count, now + (wait < longest ? wait : longest));
        }
    }
}
