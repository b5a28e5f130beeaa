using System.Net;

namespace KittingBee.Web.Running;

/// <summary>What the command line asked for.</summary>
/// <param name="Demo">True for the demonstration guild.</param>
/// <param name="Data">The data folder as typed, or null.</param>
/// <param name="Urls">Addresses to listen on, separated by semicolons.</param>
public sealed record StartOptions(bool Demo, string? Data, string Urls)
{
    /// <summary>False when the browser is not to be opened; only a release opens it.</summary>
    public bool OpensBrowser { get; init; } = true;

    /// <summary>True to let the local network in, once the teacher's password is set.</summary>
    public bool Share { get; init; }

    /// <summary>True to share over HTTPS, with a certificate that this machine makes for itself.</summary>
    public bool Https { get; init; }

    public const string DefaultUrls = "http://127.0.0.1:5210";

    public const string Help = """
        Kitting Bee

          --demo            start the demonstration guild, apart from any real data
          --data <folder>   keep the database and its backups here
          --urls <address>  listen here; this machine only (default http://127.0.0.1:5210)
          --no-browser      do not open the browser
          --share           let the local network in as well; needs the teacher's password, which the first page asks for
          --https           share over HTTPS, with a certificate that this machine makes for itself
          --help            show this
        """;

    // What a test host passes to any web program.
    private static readonly string[] HostKeys = ["environment", "contentRoot", "applicationName"];

    /// <summary>Reads the command line: options, or the message to show and stop with.</summary>
    public static (StartOptions? Options, string? Message) Read(IReadOnlyList<string> arguments)
    {
        var options = new StartOptions(false, null, DefaultUrls);
        for (var i = 0; i < arguments.Count; i++)
        {
            var (name, value) = Split(arguments[i]);
            if (name is "--help" or "-h")
            {
                return (null, Help);
            }

            if (name is "--demo" && value is null or "true")
            {
                options = options with { Demo = true };
                continue;
            }

            if (name is "--no-browser" && value is null or "true")
            {
                options = options with { OpensBrowser = false };
                continue;
            }

            if (name is "--share" or "--https" && value is null or "true")
            {
                options = name == "--share" ? options with { Share = true } : options with { Share = true, Https = true };
                continue;
            }

            if (HostKeys.Any(key => name == "--" + key) && value is not null)
            {
                continue;
            }

            if (name is not ("--data" or "--urls"))
            {
                return (null, $"Unknown option '{arguments[i]}'.\n\n{Help}");
            }

            value ??= i + 1 < arguments.Count ? arguments[++i] : "";
            if (string.IsNullOrWhiteSpace(value))
            {
                return (null, $"{name} needs {(name == "--data" ? "a folder" : "an address")} after it.\n\n{Help}");
            }

            options = name == "--data" ? options with { Data = value } : options with { Urls = value };
        }

        return UrlProblem(options.Urls) is { } problem ? (null, problem) : (options, null);
    }

    private static (string Name, string? Value) Split(string argument)
    {
        var at = argument.IndexOf('=', StringComparison.Ordinal);
        return at < 0 || !argument.StartsWith("--", StringComparison.Ordinal) ? (argument, null) : (argument[..at], argument[(at + 1)..]);
    }

    private static string? UrlProblem(string urls)
    {
        foreach (var url in urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (!Uri.TryCreate(url, UriKind.Absolute, out var address) || address.Scheme != Uri.UriSchemeHttp)
            {
                return $"--urls: '{url}' is not an address such as {DefaultUrls}.";
            }

            if (!address.IsLoopback && !(IPAddress.TryParse(address.Host, out var ip) && IPAddress.IsLoopback(ip)))
            {
                return $"--urls: '{url}' would open this guild's rosters to the network. --urls is for this machine only: use 127.0.0.1 or localhost, and add --share to let helpers in after the teacher's password is set.";
            }
        }

        return null;
    }
}
