using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace KittingBee.Web.Sharing;

/// <summary>This machine's own addresses in a local network, and its names.</summary>
public static class LocalAddresses
{
    // Not reached from the internet: RFC 1918 and 6598 (home and hall networks), 3927 (without a router), 4193 (the newer kind), 5737 (examples and tests).
    private static readonly IPNetwork[] NotPublic =
    [
        IPNetwork.Parse("10.0.0.0/8"), IPNetwork.Parse("172.16.0.0/12"), IPNetwork.Parse("192.168.0.0/16"), IPNetwork.Parse("100.64.0.0/10"),
        IPNetwork.Parse("169.254.0.0/16"), IPNetwork.Parse("fc00::/7"), IPNetwork.Parse("192.0.2.0/24"), IPNetwork.Parse("198.51.100.0/24"), IPNetwork.Parse("203.0.113.0/24"),
    ];

    /// <summary>Addresses to share on, the likeliest first. Public ones are left out: sharing is for the room, not for the internet.</summary>
    public static IReadOnlyList<IPAddress> All()
    {
        try
        {
            return
            [
                .. from network in NetworkInterface.GetAllNetworkInterfaces()
                   where network.OperationalStatus == OperationalStatus.Up && network.NetworkInterfaceType != NetworkInterfaceType.Loopback
                   let ip = network.GetIPProperties()
                   from unicast in ip.UnicastAddresses
                   where IsLocal(unicast.Address)
                   orderby ip.GatewayAddresses.Count == 0, unicast.Address.AddressFamily == AddressFamily.InterNetworkV6
                   select unicast.Address,
            ];
        }
        catch (NetworkInformationException)
        {
            return [];
        }
    }

    public static bool IsLocal(IPAddress address) => NotPublic.Any(network => network.BaseAddress.AddressFamily == address.AddressFamily && network.Contains(address));

    /// <summary>What the machine is called in its network.</summary>
    public static IReadOnlyList<string> Names()
    {
        var name = Dns.GetHostName();
        return Uri.CheckHostName(name) != UriHostNameType.Dns || name.Contains('.', StringComparison.Ordinal) ? [] : [name, $"{name}.local"];
    }
}
