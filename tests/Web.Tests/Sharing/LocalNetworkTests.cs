using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.RegularExpressions;
using KittingBee.Web.Documents.Labels;
using KittingBee.Web.Sharing;
using KittingBee.Web.Tests.Running;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>The real program in a real network: shared from its page and closed again, while it runs.</summary>
public sealed class LocalNetworkTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("kitting-bee-network-").FullName;

    // Home and hall networks: RFC 1918 (10/8, 172.16/12, 192.168/16) and RFC 4193 (fc00::/7); RFC 5737 keeps 203.0.113/24 for examples.
    [Theory]
    [InlineData("203.0.113.9", true)]
    [InlineData("192.168.1.20", true)]
    [InlineData("10.1.2.3", true)]
    [InlineData("172.16.0.1", true)]
    [InlineData("172.32.0.1", false)]
    [InlineData("fd12:3456::1", true)]
    [InlineData("8.8.8.8", false)]
    [InlineData("2606:4700::1", false)]
    [InlineData("127.0.0.1", false)]
    public void Addresses_OfTheInternet_AreNeverSharedOn(string address, bool local) => Assert.Equal(local, LocalAddresses.IsLocal(IPAddress.Parse(address)));

    [Fact]
    public async Task Sharing_OpensTheNetworkWhileTheProgramRuns_WithACertificateOfItsOwn_AndClosesIt()
    {
        var network = LocalAddresses.All() is [var first, ..] ? first : null;
        Assert.SkipWhen(network is null, "This machine is in no local network.");
        using var program = await OwnProgram.Start(folder);
        var own = program.Address;
        using var machine = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = true }) { BaseAddress = own };
        X509Certificate2? shown = null;
        using var phone = new HttpClient(new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            SslOptions = { RemoteCertificateValidationCallback = (_, certificate, _, _) => (shown = X509CertificateLoader.LoadCertificate(certificate!.GetRawCertData())) is not null },
        })
        {
            BaseAddress = new UriBuilder("https", network!.ToString(), own.Port).Uri,
        };

        Assert.False(await Reaches(network, own.Port), "Alone, the program listens on this machine only.");
        var pages = new FormClient(machine);
        await pages.Post("/settings/sharing", "/settings/sharing?handler=Start", new Dictionary<string, string> { ["Password"] = SharedHost.Password, ["Https"] = "true" });
        await Until(() => Reaches(network, own.Port), "Shared, it listens in the network.");

        using var door = await phone.GetAsync(new Uri("/classes", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.StartsWith("/sign-in", door.Headers.Location?.ToString(), StringComparison.Ordinal);
        var (_, html) = await pages.Get("/settings/sharing");
        Assert.Contains(Regex.Replace(Convert.ToHexString(shown!.GetCertHash(HashAlgorithmName.SHA256)), "(..)(?!$)", "$1 "), html, StringComparison.Ordinal);
        Assert.Contains($"<p class=\"address\">{phone.BaseAddress!.GetLeftPart(UriPartial.Authority)}</p>", html, StringComparison.Ordinal);
        Assert.Contains(QrSquare.Of(phone.BaseAddress.GetLeftPart(UriPartial.Authority), 60m)!.Path, html, StringComparison.Ordinal);
        Assert.Contains(network, shown.Extensions.OfType<X509SubjectAlternativeNameExtension>().Single().EnumerateIPAddresses());
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path.Combine(folder, "certificate.pfx")));
        }

        // A name that is not this machine's is refused here as well.
        using var foreign = new HttpRequestMessage(HttpMethod.Get, new Uri("/sign-in", UriKind.Relative));
        foreign.Headers.Host = "guild.example";
        using var refused = await phone.SendAsync(foreign, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);

        await pages.Post("/settings/sharing", "/settings/sharing?handler=Stop", new Dictionary<string, string>());
        await Until(async () => !await Reaches(network, own.Port), "Sharing over, the network is closed.");
        Assert.Equal(HttpStatusCode.OK, (await pages.Get("/settings/sharing")).Status);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static async Task Until(Func<Task<bool>> holds, string what)
    {
        for (var attempt = 0; attempt < 300; attempt++)
        {
            if (await holds())
            {
                return;
            }

            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        Assert.Fail(what);
    }

    private static async Task<bool> Reaches(IPAddress address, int port)
    {
        using var socket = new TcpClient(address.AddressFamily);
        try
        {
            await socket.ConnectAsync(address, port, TestContext.Current.CancellationToken);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
