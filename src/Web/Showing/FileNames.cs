using System.Text;

namespace KittingBee.Web.Showing;

/// <summary>Names for files that people save.</summary>
public static class FileNames
{
    // Windows opens no file of these names, whatever follows the dot.
    private static readonly HashSet<string> Devices = new(
        ["CON", "PRN", "AUX", "NUL", .. Enumerable.Range(0, 10).SelectMany(number => new[] { $"COM{number}", $"LPT{number}" })], StringComparer.OrdinalIgnoreCase);

    /// <summary>A name that every system takes: letters and digits of any script, hyphens between.</summary>
    public static string For(string title, string extension)
    {
        var name = new StringBuilder();
        foreach (var rune in title.EnumerateRunes().Take(80))
        {
            if (Rune.IsLetterOrDigit(rune))
            {
                name.Append(rune);
            }
            else if (name.Length > 0 && name[^1] != '-')
            {
                name.Append('-');
            }
        }

        var trimmed = name.ToString().Trim('-');
        if (Devices.Contains(trimmed))
        {
            trimmed += "-class";
        }

        return $"{(trimmed.Length == 0 ? "kitting-bee" : trimmed)}.{extension}";
    }
}
