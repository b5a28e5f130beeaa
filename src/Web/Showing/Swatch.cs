using System.Globalization;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Showing;

/// <summary>A fabric's dot: its colour, and the hatch of its letter so that it is told apart without colour.</summary>
public static class Swatch
{
    private static readonly string[] Hatches =
    [
        "",
        "<path d='M-1 1L1 -1M0 6L6 0M5 7L7 5'/>",
        "<path d='M3 3h.01' stroke-width='2' stroke-linecap='round'/>",
        "<path d='M0 3H6'/>",
        "<path d='M3 0V6'/>",
        "<path d='M0 0L6 6M-1 5L1 7M5 -1L7 1'/>",
        "<path d='M0 3H6M3 0V6'/>",
        "<path d='M0 6L6 0M0 0L6 6'/>",
    ];

    /// <summary>The dot as SVG, for decoration beside the fabric's name.</summary>
    /// <param name="colour"><c>#rrggbb</c>.</param>
    /// <param name="letter">The letter whose hatch it bears, or null for a plain dot.</param>
    /// <param name="size">Diameter in pixels.</param>
    public static IHtmlContent Dot(string colour, string? letter = null, int size = 22)
    {
        var hatch = letter is { Length: > 0 } ? Hatches[(char.ToUpperInvariant(letter[0]) - 'A' + Hatches.Length) % Hatches.Length] : "";
        var id = string.Create(CultureInfo.InvariantCulture, $"dot-{letter}-{colour[1..]}");
        var ink = IsDark(colour) ? "#fff" : "#23211e";
        return new HtmlString(string.Create(CultureInfo.InvariantCulture, $"""
            <svg class="dot" width="{size}" height="{size}" viewBox="0 0 22 22" aria-hidden="true" focusable="false"><defs><pattern id="{id}" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" fill="{colour}"/><g stroke="{ink}" stroke-opacity=".6" fill="none">{hatch}</g></pattern></defs><circle cx="11" cy="11" r="10" fill="url(#{id})" stroke="#23211e"/></svg>
            """));
    }

    /// <summary>True where white shows better on the colour than ink (relative luminance of WCAG 2.2 below 0.18).</summary>
    public static bool IsDark(string colour)
    {
        var value = int.Parse(colour.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return (0.2126 * Linear(value >> 16)) + (0.7152 * Linear((value >> 8) & 255)) + (0.0722 * Linear(value & 255)) < 0.18;
    }

    private static double Linear(int channel)
    {
        var share = channel / 255.0;
        return share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
    }
}
