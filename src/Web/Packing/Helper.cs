namespace KittingBee.Web.Packing;

/// <summary>Who is marking: a name asked once on a device and kept there.</summary>
public static class Helper
{
    public const int LongestName = 40;

    /// <summary>What a mark says where no name was given.</summary>
    public const string Unnamed = "somebody";

    private const string Cookie = "kitting-bee-helper";

    /// <summary>The name kept on the device, or empty.</summary>
    public static string NameOf(HttpRequest request) => Clean(request.Cookies[Cookie]);

    /// <summary>The name to put on a mark: as the call says it, else as the device keeps it.</summary>
    public static string ForMark(HttpRequest request, string said = "") =>
        Clean(said) is { Length: > 0 } given ? given : NameOf(request) is { Length: > 0 } name ? name : Unnamed;

    public static void Remember(HttpResponse response, string name) => response.Cookies.Append(Cookie, Clean(name), new CookieOptions
    {
        HttpOnly = true, SameSite = SameSiteMode.Strict, IsEssential = true, MaxAge = TimeSpan.FromDays(365), Path = "/",
    });

    /// <summary>One line, not too long.</summary>
    public static string Clean(string? name)
    {
        var line = string.Join(' ', (name ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Trim();
        line = string.Concat(line.Where(letter => !char.IsControl(letter)));
        return line.Length <= LongestName ? line : line[..LongestName].TrimEnd();
    }
}
