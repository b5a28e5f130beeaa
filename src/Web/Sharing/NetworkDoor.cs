using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace KittingBee.Web.Sharing;

/// <summary>Settings that the running program changes: where the server listens beside this machine, and to which names it answers.</summary>
public sealed class NetworkSettings : ConfigurationProvider, IConfigurationSource
{
    /// <summary>The section that the server watches.</summary>
    public const string Section = "Network";

    // This machine's own names for itself.
    private const string OwnNames = "localhost;127.0.0.1;[::1]";

    public NetworkSettings() => Data["AllowedHosts"] = OwnNames;

    public IConfigurationProvider Build(IConfigurationBuilder builder) => this;

    /// <summary>Listens on these addresses as well, and answers to these names as well.</summary>
    public void Set(IReadOnlyList<Uri> addresses, IReadOnlyList<string> names)
    {
        Data = new Dictionary<string, string?>(StringComparer.OrdinalIgnoreCase)
        {
            ["AllowedHosts"] = string.Join(';', addresses.Select(address => address.Host).Concat(names).Prepend(OwnNames).Distinct(StringComparer.OrdinalIgnoreCase)),
        };
        foreach (var address in addresses)
        {
            Data[$"{Section}:Endpoints:{address.Host.Replace(':', '-')}:Url"] = address.GetLeftPart(UriPartial.Authority);
        }

        OnReload();
    }
}

/// <summary>Opens the program to the local network while it runs, and closes it again.</summary>
public sealed class NetworkDoor(NetworkSettings settings, OwnCertificate certificate) : IDisposable
{
    private readonly Lock guard = new();
    private int port;
    private bool https;
    private bool isOpen;

    /// <summary>Addresses where others reach the guild, the likeliest first; empty while nobody does.</summary>
    public IReadOnlyList<Uri> Addresses { get; private set; } = [];

    /// <summary>Addresses that could not be opened because another program has their port.</summary>
    public IReadOnlyList<Uri> Taken { get; private set; } = [];

    /// <summary>The port on which this machine reaches the program; others get the same. 0 where there is no server, as in some tests.</summary>
    public void ListensOn(int ownPort) => port = ownPort;

    /// <summary>Listens on this machine's addresses in its local networks, and follows them when they change. Gives the likeliest.</summary>
    public Uri? Open(bool withHttps)
    {
        lock (guard)
        {
            https = withHttps;
            isOpen = true;
            NetworkChange.NetworkAddressChanged -= Follow;
            NetworkChange.NetworkAddressChanged += Follow;
            Apply();
            return Addresses.Count > 0 ? Addresses[0] : null;
        }
    }

    public void Close()
    {
        lock (guard)
        {
            isOpen = false;
            NetworkChange.NetworkAddressChanged -= Follow;
            Apply();
        }
    }

    public void Dispose() => NetworkChange.NetworkAddressChanged -= Follow;

    private void Follow(object? sender, EventArgs change)
    {
        lock (guard)
        {
            Apply();
        }
    }

    private void Apply()
    {
        var own = isOpen && port > 0 ? LocalAddresses.All() : [];
        var wanted = own.Select(address => new UriBuilder(https ? "https" : "http", address.ToString(), port).Uri).ToList();
        Taken = [.. wanted.Except(Addresses).Where(IsTaken)];
        wanted = [.. wanted.Except(Taken)];
        if (https && wanted.Count > 0)
        {
            certificate.MakeFor(own, LocalAddresses.Names());
        }

        Addresses = wanted;
        settings.Set(wanted, isOpen ? LocalAddresses.Names() : []);
    }

    // The server itself only logs that it could not listen; the teacher has to read it on the page.
    private static bool IsTaken(Uri address)
    {
        using var listener = new TcpListener(IPAddress.Parse(address.Host), address.Port);
        try
        {
            listener.Start();
            return false;
        }
        catch (SocketException)
        {
            return true;
        }
    }
}
