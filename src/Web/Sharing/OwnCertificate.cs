using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using KittingBee.Web.Running;

namespace KittingBee.Web.Sharing;

/// <summary>
/// The certificate that this machine makes for itself. Nobody vouches for it, so browsers warn once on each device; its
/// fingerprint is on the sharing page to compare. It is kept with the guild's data, readable by its owner alone.
/// </summary>
public sealed class OwnCertificate(DataFolder folder, TimeProvider clock) : IDisposable
{
    // Browsers refuse certificates that live longer than 398 days (common practice, no source).
    private static readonly TimeSpan Lives = TimeSpan.FromDays(390);
    private static readonly TimeSpan RenewedBefore = TimeSpan.FromDays(30);

    private X509Certificate2? current;

    /// <summary>What the server shows to browsers; null while there is none.</summary>
    public X509Certificate2? Current => current;

    /// <summary>SHA-256 of the certificate in pairs, as browsers show it; empty while there is none.</summary>
    public string Fingerprint => current is null ? "" : string.Join(' ', Convert.ToHexString(current.GetCertHash(HashAlgorithmName.SHA256)).Chunk(2).Select(pair => new string(pair)));

    private string FileName => Path.Combine(folder.Path, "certificate.pfx");

    /// <summary>Takes the stored certificate where it names all of these and lives long enough; makes a new one otherwise.</summary>
    public void MakeFor(IReadOnlyList<IPAddress> addresses, IReadOnlyList<string> names)
    {
        current ??= Stored();
        if (current is null || !Suits(current, addresses, names))
        {
            current = Make(addresses, names);
        }
    }

    public void Dispose() => current?.Dispose();

    private bool Suits(X509Certificate2 certificate, IReadOnlyList<IPAddress> addresses, IReadOnlyList<string> names)
    {
        var now = clock.GetUtcNow();
        var named = certificate.Extensions.OfType<X509SubjectAlternativeNameExtension>().FirstOrDefault();
        return named is not null
            && certificate.NotAfter.ToUniversalTime() > (now + RenewedBefore).UtcDateTime
            && certificate.NotBefore.ToUniversalTime() <= now.UtcDateTime
            && addresses.All(named.EnumerateIPAddresses().Contains)
            && names.All(name => named.EnumerateDnsNames().Contains(name, StringComparer.OrdinalIgnoreCase));
    }

    private X509Certificate2? Stored()
    {
        try
        {
            return File.Exists(FileName) ? X509CertificateLoader.LoadPkcs12FromFile(FileName, null) : null;
        }
        catch (CryptographicException)
        {
            return null; // Damaged: a new one is made in its place.
        }
    }

    private X509Certificate2 Make(IReadOnlyList<IPAddress> addresses, IReadOnlyList<string> names)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=Kitting Bee on this machine", key, HashAlgorithmName.SHA256);
        var alternatives = new SubjectAlternativeNameBuilder();
        foreach (var address in addresses.Append(IPAddress.Loopback))
        {
            alternatives.AddIpAddress(address);
        }

        foreach (var name in names.Append("localhost"))
        {
            alternatives.AddDnsName(name);
        }

        request.CertificateExtensions.Add(alternatives.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, pathLengthConstraint: 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, critical: true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid("1.3.6.1.5.5.7.3.1")], critical: false)); // To serve pages.
        var now = clock.GetUtcNow();
        using var made = request.CreateSelfSigned(now.AddDays(-1), now + Lives);
        var bytes = made.Export(X509ContentType.Pkcs12);
        Keep(bytes);
        return X509CertificateLoader.LoadPkcs12(bytes, null);
    }

    // The file is the owner's alone from its first byte on. On Windows the user's own folder keeps others out.
    private void Keep(byte[] bytes)
    {
        File.Delete(FileName);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using var file = new FileStream(FileName, options);
        file.Write(bytes);
    }
}
