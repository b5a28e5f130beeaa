using System.Text;

namespace KittingBee.Web.Showing;

/// <summary>Names for files that people save.</summary>
public static class FileNames
{
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
        return $"{(trimmed.Length == 0 ? "kitting-bee" : trimmed)}.{extension}";
    }
}
