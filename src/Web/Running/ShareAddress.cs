using System.Net;

namespace KittingBee.Web.Running;

/// <summary>Where other devices reach this program: what is printed as a code must lead there, not to this machine's own name for itself.</summary>
public sealed class ShareAddress
{
    /// <summary>The address while the guild is shared, such as http://192.168.1.20:5210; null while only this machine reaches it.</summary>
    public Uri? Shared { get; set; }

    /// <summary>A whole address to print: the shared one, or the one that the page was opened under.</summary>
    public string Of(HttpRequest request, string path) =>
        (Shared?.GetLeftPart(UriPartial.Authority) ?? $"{request.Scheme}://{request.Host}") + path;

    /// <summary>True where a phone can follow the address.</summary>
    public bool LeadsHere(HttpRequest request) => Shared is not null
        || !(request.Host.Host is "localhost" || (IPAddress.TryParse(request.Host.Host, out var number) && IPAddress.IsLoopback(number)));
}
